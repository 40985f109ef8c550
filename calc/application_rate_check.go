package calc

import "wetrun/calc/finding"

// check reports everything that keeps ApplicationRate from computing.
func (in ApplicationRateInput) check() error {
	var v finding.Invalid
	in.checkValues(&v)
	in.checkFour(&v)
	in.checkRows(&v)
	return v.Err()
}

// checkValues looks at each field for itself, and at the second ways to say
// something.
func (in ApplicationRateInput) checkValues(v *finding.Invalid) {
	v.Optional(float64(in.NozzleFlowRate), finding.Member("nozzleFlowRate"))
	if in.Nozzle.given() {
		if in.NozzleFlowRate != 0 {
			v.Conflict(finding.Member("nozzle"), finding.Member("nozzleFlowRate"))
		}
		*v = append(*v, in.Nozzle.check().Under(finding.Member("nozzle"))...)
		v.PositiveFor(float64(in.SprayPressure), finding.Member("sprayPressure"), finding.Member("nozzle"))
	} else {
		*v = append(*v, in.Nozzle.PressureRange.check().Under(nozzlePressureRange)...)
		v.Optional(float64(in.SprayPressure), finding.Member("sprayPressure"))
	}
	v.Optional(float64(in.GroundSpeed), finding.Member("groundSpeed"))
	v.Optional(float64(in.SprayedWidthPerNozzle), finding.Member("sprayedWidthPerNozzle"))
	v.Optional(float64(in.Width), finding.Member("width"))
	if in.Width != 0 && in.SprayedWidthPerNozzle != 0 {
		v.Conflict(finding.Member("width"), finding.Member("sprayedWidthPerNozzle"))
	}
	switch {
	case in.Nozzles < 0:
		v.Add(finding.Member("nozzles"), finding.CodeNotPositive)
	case in.Width != 0 && in.Nozzles == 0:
		v.RequiredBy(finding.Member("nozzles"), finding.Member("width"))
	}
	v.Optional(float64(in.ApplicationRate), finding.Member("applicationRate"))
	v.Optional(float64(in.RelativeDensity), finding.Member("relativeDensity"))
	v.Optional(float64(in.LiquidDensity), finding.Member("liquidDensity"))
	if in.RelativeDensity != 0 && in.LiquidDensity != 0 {
		v.Conflict(finding.Member("liquidDensity"), finding.Member("relativeDensity"))
	}
	v.Optional(float64(in.RowSpacing), finding.Member("rowSpacing"))
	v.Optional(float64(in.TargetApplicationRate), finding.Member("targetApplicationRate"))
	v.Optional(float64(in.LabelMaximum), finding.Member("labelMaximum"))
	v.Optional(float64(in.LabelMinimum), finding.Member("labelMinimum"))
	v.Optional(float64(in.RateTolerance), finding.Member("rateTolerance"))
	if in.LabelMaximum > 0 && !finding.AtMost(float64(in.TargetApplicationRate/in.LabelMaximum), 1) {
		v.Add(finding.Member("targetApplicationRate"), CodeAboveLabelMaximum)
	}
	if in.TargetApplicationRate > 0 && !finding.AtMost(float64(in.LabelMinimum/in.TargetApplicationRate), 1) {
		v.Add(finding.Member("targetApplicationRate"), CodeBelowLabelMinimum)
	}
	if finding.NotAmong(in.RateBasis, rateBases) {
		v.Add(finding.Member("rateBasis"), finding.CodeNotAllowed)
	}
}

// checkFour counts how many of the four are there, rightly or wrongly given.
func (in ApplicationRateInput) checkFour(v *finding.Invalid) {
	missing, count := "", 0
	var solved Solved
	for _, f := range [...]struct {
		name  string
		given bool
	}{
		{"nozzleFlowRate", in.NozzleFlowRate != 0 || in.Nozzle.given()},
		{"groundSpeed", in.GroundSpeed != 0},
		{"sprayedWidthPerNozzle", in.SprayedWidthPerNozzle != 0 || in.Width != 0},
		{"applicationRate", in.ApplicationRate != 0},
	} {
		switch {
		case f.given:
			count++
		case missing == "":
			missing = f.name
		}
	}
	switch {
	case count < 3:
		v.Add(finding.Member(missing), CodeNeedThreeOfFour)
	case count == 4:
		v.Add(finding.Member("applicationRate"), CodeAllFourGiven)
	default:
		solved = in.solvedFor()
	}
	in.StandardUncertainties.check(v, solved)
}

// checkRows looks at what RowSpacing asks for and what asks for it.
func (in ApplicationRateInput) checkRows(v *finding.Invalid) {
	if in.RowSpacing == 0 {
		if in.RateBasis == RateBasisField {
			v.RequiredBy(finding.Member("rowSpacing"), finding.Member("rateBasis"))
		}
		return
	}
	if in.Width == 0 && in.Nozzles == 0 {
		v.RequiredBy(finding.Member("width"), finding.Member("rowSpacing"))
	}
	if in.RateBasis == RateBasisNone && (in.TargetApplicationRate != 0 || in.LabelMaximum != 0 || in.LabelMinimum != 0) {
		v.Add(finding.Member("rateBasis"), CodeRateBasisRequired)
	}
}
