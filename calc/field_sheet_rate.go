package calc

import (
	"wetrun/calc/certainty"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// check looks at what no part checks for itself.
func (in *FieldSheetInput) check() finding.Invalid {
	m := in.Machine
	v := m.check().Under(finding.Member("machine"))
	in.Measuring.Check(&v)
	if m.Tape != "" || m.hasWidth() || m.RowSpacing != 0 {
		in.Measuring.CheckInstrument(&v, certainty.Tape, m.Tape, func() finding.Place { return finding.Member("machine").Member("tape") })
	}
	t := in.Target
	v = append(v, t.check().Under(finding.Member("target"))...)
	v.Optional(float64(in.RelativeDensity), finding.Member("relativeDensity"))
	checkDutyCycle(&v, in.DutyCycle, finding.Member("dutyCycle"))
	if t.RateBasis == RateBasisNone && m.RowSpacing != 0 && t.ApplicationRate+t.LabelMaximum+t.LabelMinimum != 0 {
		v.Add(finding.Member("target").Member("rateBasis"), CodeRateBasisRequired)
	}
	if t.RateBasis == RateBasisField && m.RowSpacing == 0 {
		v.RequiredBy(finding.Member("machine").Member("rowSpacing"), finding.Member("target").Member("rateBasis"))
	}
	if t.LabelMaximum != 0 && !finding.AtMost(float64(t.ApplicationRate/t.LabelMaximum), 1) {
		v.Add(finding.Member("target").Member("applicationRate"), CodeAboveLabelMaximum)
	}
	if t.ApplicationRate != 0 && !finding.AtMost(float64(t.LabelMinimum/t.ApplicationRate), 1) {
		v.Add(finding.Member("target").Member("applicationRate"), CodeBelowLabelMinimum)
	}
	v = append(v, in.Limits.GroundSpeed.check().Under(limitsGroundSpeed)...)
	if !in.Nozzle.silent() {
		v = append(v, in.Nozzle.check().Under(finding.Member("nozzle"))...)
	}
	return append(v, in.Limits.SprayPressure.check().Under(limitsSprayPressure)...)
}

func (m Machine) check() (v finding.Invalid) {
	v.Optional(float64(m.SprayedWidthPerNozzle), finding.Member("sprayedWidthPerNozzle"))
	v.Optional(float64(m.BedWidth), finding.Member("bedWidth"))
	v.Optional(float64(m.RowSpacing), finding.Member("rowSpacing"))
	if m.NozzlesPerBed < 0 {
		v.Add(finding.Member("nozzlesPerBed"), finding.CodeNotPositive)
	}
	if m.SprayedWidthPerNozzle != 0 && m.BedWidth != 0 {
		v.Conflict(finding.Member("bedWidth"), finding.Member("sprayedWidthPerNozzle"))
	}
	if m.BedWidth != 0 && m.NozzlesPerBed == 0 {
		v.RequiredBy(finding.Member("nozzlesPerBed"), finding.Member("bedWidth"))
	}
	if m.RowSpacing != 0 && m.NozzlesPerBed == 0 && m.BedWidth == 0 {
		v.RequiredBy(finding.Member("nozzlesPerBed"), finding.Member("rowSpacing"))
	}
	return v
}

func (t SheetTarget) check() (v finding.Invalid) {
	v.Optional(float64(t.ApplicationRate), finding.Member("applicationRate"))
	v.Optional(float64(t.RateTolerance), finding.Member("rateTolerance"))
	v.Optional(float64(t.LabelMaximum), finding.Member("labelMaximum"))
	v.Optional(float64(t.LabelMinimum), finding.Member("labelMinimum"))
	return v
}

// widthPerNozzle is the width per nozzle; zero when it is not known.
func (m Machine) widthPerNozzle() unit.Length {
	if m.BedWidth != 0 {
		return m.BedWidth / unit.Length(m.NozzlesPerBed)
	}
	return m.SprayedWidthPerNozzle
}

// hasWidth tells whether the width per nozzle is known.
func (m Machine) hasWidth() bool { return m.SprayedWidthPerNozzle != 0 || m.BedWidth != 0 }

// rate computes the rate from what was caught and timed, when all of it is there.
func (r *FieldSheetResult) rate(in *FieldSheetInput) error {
	if r.Output == nil || r.Output.boomMean == 0 || r.Speed == nil || !in.Machine.hasWidth() {
		return nil
	}
	flow := r.Output.boomMean // drops of different nozzles spray too
	if in.RelativeDensity != 0 {
		flow = LiquidFlow(flow, in.RelativeDensity)
	}
	of := ApplicationRateInput{
		NozzleFlowRate:        flow,
		GroundSpeed:           r.Speed.GroundSpeed,
		SprayedWidthPerNozzle: in.Machine.SprayedWidthPerNozzle,
		Width:                 in.Machine.BedWidth,
		Nozzles:               in.Machine.NozzlesPerBed,
		RowSpacing:            in.Machine.RowSpacing,
		RelativeDensity:       in.RelativeDensity,
		TargetApplicationRate: in.Target.ApplicationRate,
		RateTolerance:         in.Target.RateTolerance,
		RateBasis:             in.Target.RateBasis,
		LabelMaximum:          in.Target.LabelMaximum,
		LabelMinimum:          in.Target.LabelMinimum,
	}
	x, err := ApplicationRate(of)
	if err != nil {
		return err
	}
	r.Rate = &x
	if in.Measuring.Uncertainty {
		x.Uncertainty = r.rateUncertainty(in, &of)
	}
	return nil
}

// rateOnBasis is the rate that target and label are held against.
func (r *FieldSheetResult) rateOnBasis(in *FieldSheetInput) unit.ApplicationRate {
	if in.Target.RateBasis == RateBasisField {
		return r.Rate.FieldApplicationRate
	}
	return r.Rate.ApplicationRate
}

// rateKnown tells whether the rate is known well enough to judge it and to correct it.
func (r *FieldSheetResult) rateKnown() bool {
	return r.Rate != nil && r.SpeedStatus == Passed && r.OutputStatus != NotDone && !r.rests(partRate)
}

// correct looks for what would bring the sprayer to its target and into its limits, where
// anything is outside of them and the rate is known. What stands before it in the order comes
// first: an entry that is doubted, something found by eye, a tank that says another rate.
func (r *FieldSheetResult) correct(in *FieldSheetInput) error {
	outside := r.RateStatus == Failed || r.labelOpen || (r.SpeedInLimits == finding.Outside || r.pressureOutside()) && r.evenness(in) != BoomUneven
	tank := r.AreaCheck != nil && r.AreaCheck.Verdict == finding.Outside // which of two rates would be corrected?
	if !outside || tank || in.Target.ApplicationRate == 0 || !r.rateKnown() || len(r.Doubts) > 0 || r.MaintenanceStatus == Failed {
		return nil
	}
	c := r.correction(in)
	if p := c.Measured.SprayPressure; r.pressureOutside() && c.Limits.SprayPressure.holds(p) != finding.Outside && c.Nozzle.PressureRange.holds(p) != finding.Outside {
		return nil // readings and catches are on either side of a limit: which would be moved?
	}
	x, err := Corrections(c)
	if v, refused := err.(finding.Invalid); refused {
		return UnderPlanning(v)
	}
	if x.Decision != NoCorrectionNeeded { // a controller holds the rate at whatever speed and pressure
		r.Correction = &x
	}
	return nil
}

// pressureOutside tells whether a pressure of readings or catches lies outside what the
// system allows or the nozzle is made for.
func (r *FieldSheetResult) pressureOutside() bool {
	return r.PressureInLimits == finding.Outside || r.pressureOutOfRange()
}

// pressureOutOfRange tells so of what the nozzle is made for alone.
func (r *FieldSheetResult) pressureOutOfRange() bool {
	return r.CaughtInRange == finding.Outside || r.Pressure != nil && r.Pressure.MeanInRange == finding.Outside
}

// correction is what the sheet asks of Corrections. Of gears and other nozzles it knows by
// Planning alone.
func (r *FieldSheetResult) correction(in *FieldSheetInput) (c CorrectionsInput) {
	if in.Planning != nil {
		c = *in.Planning
	}
	c.Measured.ApplicationRate, c.Measured.GroundSpeed, c.Measured.SprayPressure = r.rateOnBasis(in), r.Speed.GroundSpeed, r.Output.SprayPressure
	c.Measured.DutyCycle = in.DutyCycle
	t := in.Target
	c.TargetApplicationRate, c.RateTolerance, c.LabelMaximum, c.LabelMinimum = t.ApplicationRate, t.RateTolerance, t.LabelMaximum, t.LabelMinimum
	c.Nozzle.Nozzle, c.Limits, c.RateController, c.BoomEven = in.Nozzle, in.Limits, in.RateController, r.evenness(in)
	if u := r.Rate.Uncertainty; u != nil && t.LabelMaximum+t.LabelMinimum != 0 {
		of := &u.ApplicationRate
		if t.RateBasis == RateBasisField {
			of = &u.FieldApplicationRate
		}
		c.Guard = unit.Ratio(of.Guard() / float64(c.Measured.ApplicationRate))
	}
	return c
}

// checkTank holds what the tank lost against the rate computed, on the basis of the
// target. The tank loses clean water, as the catches do, so with a liquid of another
// density the rate is turned back into that of water, and the label's maximum into what
// water may be.
func (r *FieldSheetResult) checkTank(in *FieldSheetInput) error {
	if in.AreaCheck == (AreaCheckInput{}) {
		return nil
	}
	if r.Rate != nil && !r.rests(partRate) {
		in.AreaCheck.ExpectedApplicationRate = r.rateOnBasis(in) * in.waterByLiquid()
		in.AreaCheck.RateTolerance = in.Target.RateTolerance
	}
	x, err := AreaCheck(in.AreaCheck)
	if err != nil {
		var v finding.Invalid
		addPart(&v, err, placesOfAreaCheck)
		return v
	}
	r.AreaCheck, r.AreaCheckStatus = &x, statusOf(x.Verdict)
	known := r.Rate != nil && r.Rate.LabelVerdict == finding.Outside // and says so itself
	if label := in.Target.LabelMaximum * in.waterByLiquid(); label != 0 && !known && !finding.AtMost(float64(x.ApplicationRate/label), 1) {
		r.TankOverLabel, r.AreaCheckStatus = true, Failed
	}
	return nil
}

// waterByLiquid is how much more water flows than the liquid to be sprayed.
func (in *FieldSheetInput) waterByLiquid() unit.ApplicationRate {
	if in.RelativeDensity == 0 {
		return 1
	}
	return unit.ApplicationRate(WaterEquivalent(1, in.RelativeDensity))
}

// checkLimits holds the speed that is known, and the pressure of the catches or else
// of the boom, to what tractor, ground and label allow.
func (r *FieldSheetResult) checkLimits(in *FieldSheetInput) {
	if r.SpeedStatus == Passed {
		r.SpeedInLimits = in.Limits.GroundSpeed.holds(r.Speed.GroundSpeed)
	}
	hold := func(p unit.Pressure) {
		if p != 0 && r.PressureInLimits != finding.Outside {
			r.PressureInLimits = in.Limits.SprayPressure.holds(p)
		}
	}
	if r.Output != nil {
		hold(r.Output.SprayPressure)
		for i := range r.Output.Catches {
			hold(r.Output.Catches[i].SprayPressure)
		}
	}
	if r.Pressure != nil {
		hold(r.Pressure.Mean)
	}
}

// evenness is what pressure and output say of the boom together, whether or not it was at a
// pressure that the nozzle is made for.
func (r *FieldSheetResult) evenness(in *FieldSheetInput) Evenness {
	switch {
	case r.OutputStatus == Failed, r.unevenBoom():
		return BoomUneven
	case r.Pressure != nil && r.Pressure.Even == finding.Within && len(in.Pressure.Readings) >= FewestReadings && r.OutputStatus == Passed:
		return BoomEven
	}
	return EvennessUnknown
}
