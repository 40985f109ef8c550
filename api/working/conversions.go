package working

import (
	"wetrun/api/wire"
	"wetrun/calc"
	"wetrun/calc/method"
	"wetrun/calc/unit"
)

// Conversion adds the line of a quantity that is answered in another unit than it was
// given in.
func (w Working) Conversion(member string, result, given wire.Quantity) {
	if result.Unit != given.Unit {
		w.Line(method.UnitConversion, member, result).With("x", given)
	}
}

// Density adds the line of a relative density that was given as a density of the liquid, and
// returns the relative one to put in lines; none for water.
func (w Working) Density(relative, liquid wire.Quantity) wire.Quantity {
	if !liquid.Given() {
		return relative
	}
	rd := wire.In(calc.RelativeDensity(unit.Density(liquid.SI())), unit.IDOne)
	w.Line(method.RelativeDensity, "", rd).With("r", liquid).With("r_w", wire.In(calc.WaterDensity, unit.IDKgM3))
	return rd
}
