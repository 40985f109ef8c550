package api

import (
	"wetrun/calc"
	"wetrun/calc/method"
	"wetrun/calc/unit"
)

// conversion adds the line of a quantity that is answered in another unit than it was
// given in.
func (w working) conversion(member string, result, given Quantity) {
	if result.Unit != given.Unit {
		w.line(method.UnitConversion, member, result).with("x", given)
	}
}

// density adds the line of a relative density that was given as a density, and returns
// the one to put in; none for water.
func (w working) density(relative, liquid Quantity) Quantity {
	if !liquid.given() {
		return relative
	}
	rd := in(calc.RelativeDensity(unit.Density(liquid.si())), unit.IDOne)
	w.line(method.RelativeDensity, "", rd).with("r", liquid).with("r_w", in(calc.WaterDensity, unit.IDKgM3))
	return rd
}
