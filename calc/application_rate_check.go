package calc

// check reports everything that keeps ApplicationRate from computing.
func (in ApplicationRateInput) check() error {
	var v Invalid
	in.checkValues(&v)
	in.checkFour(&v)
	in.checkRows(&v)
	return v.err()
}

// checkValues looks at each field for itself, and at the second ways to say
// something.
func (in ApplicationRateInput) checkValues(v *Invalid) {
	v.optional(float64(in.NozzleFlowRate), "NozzleFlowRate")
	if in.Nozzle.given() {
		if in.NozzleFlowRate != 0 {
			v.conflict("Nozzle", "NozzleFlowRate")
		}
		*v = append(*v, in.Nozzle.check().under("Nozzle")...)
		v.positiveFor(float64(in.SprayPressure), "SprayPressure", "Nozzle")
	} else {
		*v = append(*v, in.Nozzle.PressureRange.check("Nozzle.PressureRange")...)
		v.optional(float64(in.SprayPressure), "SprayPressure")
	}
	v.optional(float64(in.GroundSpeed), "GroundSpeed")
	v.optional(float64(in.SprayedWidthPerNozzle), "SprayedWidthPerNozzle")
	v.optional(float64(in.Width), "Width")
	if in.Width != 0 && in.SprayedWidthPerNozzle != 0 {
		v.conflict("Width", "SprayedWidthPerNozzle")
	}
	switch {
	case in.Nozzles < 0:
		v.add("Nozzles", CodeNotPositive)
	case in.Width != 0 && in.Nozzles == 0:
		v.needed("Nozzles", "Width")
	}
	v.optional(float64(in.ApplicationRate), "ApplicationRate")
	v.optional(float64(in.RelativeDensity), "RelativeDensity")
	v.optional(float64(in.LiquidDensity), "LiquidDensity")
	if in.RelativeDensity != 0 && in.LiquidDensity != 0 {
		v.conflict("LiquidDensity", "RelativeDensity")
	}
	v.optional(float64(in.RowSpacing), "RowSpacing")
	v.optional(float64(in.TargetApplicationRate), "TargetApplicationRate")
	v.optional(float64(in.LabelMaximum), "LabelMaximum")
	v.optional(float64(in.RateTolerance), "RateTolerance")
	if in.LabelMaximum > 0 && !atMost(float64(in.TargetApplicationRate/in.LabelMaximum), 1) {
		v.add("TargetApplicationRate", CodeAboveLabelMaximum)
	}
	if notAmong(in.RateBasis, rateBases) {
		v.add("RateBasis", CodeNotAllowed)
	}
}

// checkFour counts how many of the four are there, rightly or wrongly given.
func (in ApplicationRateInput) checkFour(v *Invalid) {
	missing, count, solved := "", 0, Solved(0)
	for _, f := range [...]struct {
		name  string
		given bool
	}{
		{"NozzleFlowRate", in.NozzleFlowRate != 0 || in.Nozzle.given()},
		{"GroundSpeed", in.GroundSpeed != 0},
		{"SprayedWidthPerNozzle", in.SprayedWidthPerNozzle != 0 || in.Width != 0},
		{"ApplicationRate", in.ApplicationRate != 0},
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
		v.add(missing, CodeNeedThreeOfFour)
	case count == 4:
		v.add("ApplicationRate", CodeAllFourGiven)
	default:
		solved = in.solvedFor()
	}
	in.StandardUncertainties.check(v, solved)
}

// checkRows looks at what RowSpacing asks for and what asks for it.
func (in ApplicationRateInput) checkRows(v *Invalid) {
	if in.RowSpacing == 0 {
		if in.RateBasis == RateBasisField {
			v.needed("RowSpacing", "RateBasis")
		}
		return
	}
	if in.Width == 0 && in.Nozzles == 0 {
		v.needed("Width", "RowSpacing")
	}
	if in.RateBasis == RateBasisNone && (in.TargetApplicationRate != 0 || in.LabelMaximum != 0) {
		v.add("RateBasis", CodeRateBasisRequired)
	}
}
