package calc

import (
	"wetrun/calc/certainty"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// judge takes the status of each part, from what it measured, from whether that is enough and
// can be believed, and from the parts that it rests on.
func (r *FieldSheetResult) judge(in *FieldSheetInput) error {
	r.judgePressure(in)
	r.judgeOutput(in)
	if r.Speed != nil && !r.rests(partSpeed) && r.Speed.RunLonger == 0 {
		r.SpeedStatus = statusOf(r.Speed.Repeatable)
	}
	if err := r.checkTank(in); err != nil {
		return err
	}
	(&belief{in: in, r: r}).tank()
	r.judgeRate(in)
	r.checkLimits(in)
	return nil
}

// rests tells whether any of the parts rests on an entry that is doubted.
func (r *FieldSheetResult) rests(p part) bool { return r.doubted&p != 0 }

func (r *FieldSheetResult) asksAbout(entry finding.Place) bool {
	for _, d := range r.Doubts {
		if d.Entry.Equal(entry) {
			return true
		}
	}
	return false
}

// unevenBoom tells that the readings, as far as they are believed, differ by more than allowed.
func (r *FieldSheetResult) unevenBoom() bool {
	return r.Pressure != nil && (r.Pressure.Even == finding.Outside || r.unevenFlow) && !r.rests(partPressure)
}

// setByEye tells that a new set is due by what was seen, so that the present one says nothing.
func (r *FieldSheetResult) setByEye(in *FieldSheetInput) bool {
	for i, d := range r.Maintenance {
		if d == InspectionReplaceAll && !in.Maintenance.Beds[i].Done {
			return true
		}
	}
	return false
}

func (r *FieldSheetResult) judgePressure(in *FieldSheetInput) {
	if r.Pressure == nil || r.rests(partPressure) {
		return
	}
	var at sides
	for i := range in.Pressure.Readings {
		at[in.Pressure.position(i).Index()]++
	}
	r.unreadSides = in.unseen(at)
	switch {
	case r.Pressure.Even == finding.Outside:
		r.PressureStatus = Failed
	case len(in.Pressure.Readings) < FewestReadings || len(r.unreadSides) > 0 || r.Pressure.GaugeTooCoarse:
	case r.Pressure.MeanInRange == finding.Outside:
		r.PressureStatus = Failed
	default:
		r.PressureStatus = Passed
	}
}

// judgeOutput leaves the catches not judged where what they rest on is doubted or to be put
// right, and not done where they do not speak for the boom.
func (r *FieldSheetResult) judgeOutput(in *FieldSheetInput) {
	if r.Output == nil {
		return
	}
	r.checkPressures(in)
	// Even by its difference, but not by what that does to the flow of nozzles that seem to be off.
	r.unevenFlow = r.Pressure != nil && r.Output.Decision != Keep && !finding.AtMost(float64(r.Pressure.FlowSpread), float64(r.Output.Limit))
	if r.rests(partOutput) || r.unevenBoom() || r.OtherPressure || r.setByEye(in) || r.Output.CatchLonger != 0 {
		r.Output.notJudged()
		return
	}
	switch {
	case r.Output.Decision == NotJudged && r.Output.boomMean != 0: // a new nozzle has to tell
		return
	case r.Output.Decision != Keep:
		r.OutputStatus = Failed
		return
	}
	points := r.Output.points
	points.ReplaceAllFrom = 0 // evidence is of a share, also where so many of the whole boom mean a set
	r.moreCatches = points.MoreInOrder()
	if points.Caught != points.CatchPointsOnBoom {
		r.uncaughtSides = in.unseen(points.CaughtOn)
	}
	if r.moreCatches == 0 && len(r.uncaughtSides) == 0 {
		r.OutputStatus = Passed
		if r.Output.Sampling.Settled == certainty.SettledOpen {
			r.MoreToSettle = points.MoreToSettle()
		}
	}
}

// sides count by position.
type sides = [len(certainty.Positions)]int

// unseen are the sides of the boom at which nothing was measured. Where it is not said at
// which side something was, it may have been any.
func (in *FieldSheetInput) unseen(at sides) (missing []certainty.Position) {
	if at == (sides{at[0]}) {
		return nil
	}
	all := in.Sides
	if all == nil {
		all = certainty.Sides
	}
	for _, p := range all {
		if at[p.Index()] == 0 {
			missing = append(missing, p)
		}
	}
	if len(missing) <= at[0] {
		return nil
	}
	return missing
}

// judgeRate leaves a rate not done that rests on a speed, an output or an entry that nobody
// knows. Over the label's maximum it fails all the same, but for a doubted entry; whether it
// keeps the label is to be sure.
func (r *FieldSheetResult) judgeRate(in *FieldSheetInput) {
	if r.Rate == nil || r.rests(partRate) {
		return
	}
	if r.Rate.Verdict != finding.NotJudged && r.SpeedStatus != Failed && in.Cost.PerArea != 0 {
		r.HasCost = true
		r.CostPerArea, r.CostTotal = DeviationCost(in.Cost.PerArea, r.Rate.Deviation, in.Cost.Area)
	}
	r.RateStatus = statusOf(r.Rate.Verdict)
	if !r.rateKnown() {
		r.RateStatus = NotDone
	}
	if r.Rate.LabelVerdict == finding.Outside || r.Rate.LabelMinimumVerdict == finding.Outside {
		r.RateStatus = Failed
	}
	if u := r.Rate.Uncertainty; r.RateStatus == Passed && in.Target.LabelMaximum+in.Target.LabelMinimum != 0 && u != nil && u.UnderLabel.Conformance != certainty.SurelyWithin {
		r.RateStatus, r.labelOpen = NotDone, true
	}
}

// otherPressure is the share of the mean of the readings by which that of the catches may
// differ at most: by more a nozzle gives 7 % more or less. Own judgement.
const otherPressure = 0.15

// checkPressures holds those of the catches to the boom and to the nozzle.
func (r *FieldSheetResult) checkPressures(in *FieldSheetInput) {
	check := func(p unit.Pressure, place func() finding.Place) {
		if r.Pressure != nil && !r.rests(partPressure) && finding.Judge(float64((p-r.Pressure.Mean)/min(r.Pressure.MaxDifference, otherPressure*r.Pressure.Mean)), 1) == finding.Outside {
			r.OtherPressure = true
			r.Output.warn(place(), WarnOtherPressure)
		}
		if v := in.Nozzle.PressureRange.holds(p); r.CaughtInRange != finding.Outside {
			r.CaughtInRange = v
		}
	}
	if p := in.Output.SprayPressure; p != 0 {
		check(p, func() finding.Place { return finding.Member("sprayPressure") })
	}
	for i := range in.Output.Catches {
		if p := in.Output.Catches[i].SprayPressure; p != 0 {
			check(p, func() finding.Place { return finding.Item("catches", i).Member("sprayPressure") })
		}
	}
	if r.unevenBoom() {
		r.Output.warn(finding.Member("catches"), WarnUnevenBoom)
	}
}

// couldGoEitherWay tells of a sheet without uncertainties that a verdict hangs on them: a rate
// not far below the label's maximum, or a catch near or beyond its tolerance.
func (r *FieldSheetResult) couldGoEitherWay(in *FieldSheetInput) bool {
	if r.Rate != nil {
		near, rate := unit.ApplicationRate(1-nearLabel), r.rateOnBasis(in)
		if t := in.Target; t.LabelMaximum != 0 && rate > t.LabelMaximum*near || rate*near < t.LabelMinimum {
			return true
		}
	}
	return r.Output != nil && r.Output.Decision != Keep
}

// nearLabel is how near to a limit of the label a rate has to be for its uncertainty to matter:
// more than that of any that was measured with care. Own judgement.
const nearLabel = 10 * unit.Percent

func statusOf(v finding.Verdict) PartStatus {
	if v == finding.NotJudged {
		return NotDone
	}
	return passedIf(v == finding.Within)
}

func passedIf(ok bool) PartStatus {
	if ok {
		return Passed
	}
	return Failed
}
