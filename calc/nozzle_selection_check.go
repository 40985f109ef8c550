package calc

import "slices"

// check reports everything that keeps NozzleSelection from computing.
func (in NozzleSelectionInput) check() error {
	var v Invalid
	if in.SizeRating != "" && len(in.Shelf) > 0 { // no size is read by it
		v.conflict("SizeRating", "Shelf")
	}
	v.positive(float64(in.TargetApplicationRate), "TargetApplicationRate")
	in.checkSpeed(&v)
	in.checkWidth(&v)
	if in.PressureRange == (PressureRange{}) {
		v.add("PressureRange", CodeRequired)
	}
	v = append(v, in.PressureRange.check("PressureRange")...)
	v.optional(float64(in.RelativeDensity), "RelativeDensity")
	v.optional(float64(in.LiquidDensity), "LiquidDensity")
	if in.RelativeDensity != 0 && in.LiquidDensity != 0 {
		v.conflict("LiquidDensity", "RelativeDensity")
	}
	in.checkNozzles(&v)
	for i := range in.DropletChart {
		in.DropletChart[i].check(&v, i)
	}
	for i, class := range in.AllowedDropletClasses {
		switch {
		case class == DropletClassUnknown || notAmong(class, dropletClasses):
			v.add(item("AllowedDropletClasses", i), CodeNotAllowed)
		case slices.Contains(in.AllowedDropletClasses[:i], class):
			v.add(item("AllowedDropletClasses", i), CodeConflict)
		}
	}
	return v.err()
}

func (in NozzleSelectionInput) checkSpeed(v *Invalid) {
	switch {
	case in.SpeedRange == (SpeedRange{}):
		v.positiveOr(float64(in.GroundSpeed), "GroundSpeed", "SpeedRange")
	case in.GroundSpeed != 0:
		v.conflict("SpeedRange", "GroundSpeed")
	}
	*v = append(*v, in.SpeedRange.check("SpeedRange")...)
}

func (in NozzleSelectionInput) checkWidth(v *Invalid) {
	switch {
	case in.Width == 0:
		v.positiveOr(float64(in.SprayedWidthPerNozzle), "SprayedWidthPerNozzle", "Width,Nozzles")
	case in.SprayedWidthPerNozzle != 0:
		v.conflict("Width", "SprayedWidthPerNozzle")
	default:
		v.optional(float64(in.Width), "Width")
	}
	switch {
	case in.Nozzles < 0:
		v.add("Nozzles", CodeNotPositive)
	case in.Width != 0 && in.Nozzles == 0:
		v.needed("Nozzles", "Width")
	}
}

// checkNozzles looks at what there is to choose from.
func (in NozzleSelectionInput) checkNozzles(v *Invalid) {
	if len(in.Shelf) > 0 && len(in.Sizes) > 0 {
		v.conflict("Sizes", "Shelf")
	}
	if notAmong(in.SizeRating, sizeRatings) {
		v.add("SizeRating", CodeNotAllowed)
	}
	for i, name := range in.Sizes {
		switch {
		case !knownSize(name):
			v.add(item("Sizes", i), CodeUnknownSize)
		case slices.Contains(in.Sizes[:i], name):
			v.add(item("Sizes", i), CodeConflict)
		}
	}
	for i, s := range in.Shelf {
		rated := Nozzle{RatedFlowRate: s.RatedFlowRate, RatedPressure: s.RatedPressure, PressureRange: s.PressureRange}
		if wrong := rated.check(); len(wrong) > 0 {
			*v = append(*v, wrong.under(item("Shelf", i))...)
		}
	}
}
