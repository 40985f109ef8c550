package calc

import (
	"slices"

	"wetrun/calc/finding"
)

// check reports everything that keeps NozzleSelection from computing.
func (in NozzleSelectionInput) check() error {
	var v finding.Invalid
	if in.SizeRating != "" && len(in.Shelf) > 0 { // no size is read by it
		v.Conflict(finding.Member("sizeRating"), finding.Member("shelf"))
	}
	v.Positive(float64(in.TargetApplicationRate), finding.Member("targetApplicationRate"))
	in.checkSpeed(&v)
	in.checkWidth(&v)
	if in.PressureRange == (PressureRange{}) {
		v.Add(finding.Member("pressureRange"), finding.CodeRequired)
	}
	v = append(v, in.PressureRange.check().Under(finding.Member("pressureRange"))...)
	v.Optional(float64(in.RelativeDensity), finding.Member("relativeDensity"))
	v.Optional(float64(in.LiquidDensity), finding.Member("liquidDensity"))
	if in.RelativeDensity != 0 && in.LiquidDensity != 0 {
		v.Conflict(finding.Member("liquidDensity"), finding.Member("relativeDensity"))
	}
	in.checkNozzles(&v)
	for i := range in.DropletChart {
		in.DropletChart[i].check(&v, i)
	}
	for i, class := range in.AllowedDropletClasses {
		switch {
		case class == DropletClassUnknown || finding.NotAmong(class, dropletClasses):
			v.Add(finding.Item("allowedDropletClasses", i), finding.CodeNotAllowed)
		case slices.Contains(in.AllowedDropletClasses[:i], class):
			v.Add(finding.Item("allowedDropletClasses", i), finding.CodeConflict)
		}
	}
	return v.Err()
}

func (in NozzleSelectionInput) checkSpeed(v *finding.Invalid) {
	switch {
	case in.SpeedRange == (SpeedRange{}):
		v.PositiveOr(float64(in.GroundSpeed), finding.Member("groundSpeed"), finding.Member("speedRange"))
	case in.GroundSpeed != 0:
		v.Conflict(finding.Member("speedRange"), finding.Member("groundSpeed"))
	}
	*v = append(*v, in.SpeedRange.check().Under(finding.Member("speedRange"))...)
}

func (in NozzleSelectionInput) checkWidth(v *finding.Invalid) {
	switch {
	case in.Width == 0:
		v.PositiveOr(float64(in.SprayedWidthPerNozzle), finding.Member("sprayedWidthPerNozzle"), finding.Member("width"), finding.Member("nozzles"))
	case in.SprayedWidthPerNozzle != 0:
		v.Conflict(finding.Member("width"), finding.Member("sprayedWidthPerNozzle"))
	default:
		v.Optional(float64(in.Width), finding.Member("width"))
	}
	switch {
	case in.Nozzles < 0:
		v.Add(finding.Member("nozzles"), finding.CodeNotPositive)
	case in.Width != 0 && in.Nozzles == 0:
		v.RequiredBy(finding.Member("nozzles"), finding.Member("width"))
	}
}

// checkNozzles looks at what there is to choose from.
func (in NozzleSelectionInput) checkNozzles(v *finding.Invalid) {
	if len(in.Shelf) > 0 && len(in.Sizes) > 0 {
		v.Conflict(finding.Member("sizes"), finding.Member("shelf"))
	}
	if finding.NotAmong(in.SizeRating, sizeRatings) {
		v.Add(finding.Member("sizeRating"), finding.CodeNotAllowed)
	}
	for i, name := range in.Sizes {
		switch {
		case !knownSize(name):
			v.Add(finding.Item("sizes", i), CodeUnknownSize)
		case slices.Contains(in.Sizes[:i], name):
			v.Add(finding.Item("sizes", i), finding.CodeConflict)
		}
	}
	for i, s := range in.Shelf {
		rated := Nozzle{RatedFlowRate: s.RatedFlowRate, RatedPressure: s.RatedPressure, PressureRange: s.PressureRange}
		*v = append(*v, rated.check().Under(finding.Item("shelf", i))...)
	}
}
