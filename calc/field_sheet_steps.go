package calc

import (
	"slices"

	"wetrun/calc/certainty"
	"wetrun/calc/finding"
)

// conclude takes the overall verdict and lists what to do, in the order of the
// job.
func (r *FieldSheetResult) conclude(in FieldSheetInput) {
	r.Steps = make([]Step, 0, 8)
	changed := r.maintenanceSteps(in.Maintenance.Beds)
	changed = r.pressureSteps() || changed
	if len(r.Steps) == 0 || r.Steps[0].Code != StepReplaceAllByEye { // else the set is caught anew
		changed = r.outputSteps() || changed
	}
	changed = r.speedSteps() || changed
	if r.TankOverLabel {
		r.step(StepTankOverLabelMaximum)
	}
	if r.AreaCheck != nil && r.AreaCheck.Verdict == finding.Outside {
		r.step(StepFindDisagreement)
	}
	changed = r.rateSteps(in) || changed
	if changed {
		r.step(StepMeasureAgain)
	}
	parts := [...]PartStatus{r.PressureStatus, r.OutputStatus, r.SpeedStatus, r.RateStatus}
	r.Verdict = Ready
	for _, p := range parts {
		if p == Failed {
			r.Verdict = NotReady
		}
		if p == NotDone && r.Verdict == Ready {
			r.Verdict = Incomplete
		}
	}
	if r.MaintenanceStatus == Failed || r.AreaCheckStatus == Failed || r.SpeedInLimits == finding.Outside || r.PressureInLimits == finding.Outside || r.CaughtInRange == finding.Outside {
		r.Verdict = NotReady
	}
	if in.Overdue {
		r.Verdict = NotReady
		r.step(StepCalibrateAgain)
	}
	if r.Verdict == Ready {
		r.step(StepFileRecord)
		r.step(StepCalibrateAgain)
	}
}

func (r *FieldSheetResult) step(c StepCode) { r.Steps = append(r.Steps, Step{c, -1, -1}) }

// maintenanceSteps says what is still to be done of what was seen by eye. A new set
// makes everything else about nozzles needless.
func (r *FieldSheetResult) maintenanceSteps(beds []BedInspection) (changed bool) {
	for i, d := range r.Maintenance {
		if d == InspectionReplaceAll && !beds[i].Done {
			r.Steps = append(r.Steps, Step{StepReplaceAllByEye, -1, i})
			return true
		}
	}
	for i, d := range r.Maintenance {
		if d == InspectionKeep || beds[i].Done {
			continue
		}
		code := StepCleanByEye
		if d == InspectionReplaceListed {
			code = StepReplaceByEye
		}
		r.Steps = append(r.Steps, Step{code, -1, i})
		changed = true
	}
	return changed
}

func (r *FieldSheetResult) pressureSteps() (changed bool) {
	if r.PressureStatus == NotDone {
		r.step(StepReadPressure)
	}
	if r.PressureInLimits == finding.Outside {
		r.step(StepSetPressureWithinLimits)
		changed = true
	}
	if r.Pressure == nil {
		if r.CaughtInRange == finding.Outside {
			r.step(StepSetPressureInRange)
		}
		return changed || r.CaughtInRange == finding.Outside
	}
	if r.Pressure.Even == finding.Outside {
		r.step(StepRepairBoom)
		changed = true
	}
	if r.Pressure.MeanInRange == finding.Outside || r.CaughtInRange == finding.Outside {
		r.step(StepSetPressureInRange)
		changed = true
	}
	if u := r.Pressure.Uncertainty; u != nil && r.Pressure.Even != finding.NotJudged && u.Even.Conformance == certainty.TooClose {
		r.step(StepSettlePressure)
	}
	if r.Pressure.CabDiffers == finding.Outside {
		r.step(StepCheckCabGauge)
	}
	return changed
}

func (r *FieldSheetResult) outputSteps() (changed bool) {
	switch {
	case r.Output == nil:
		r.step(StepCatchOutput)
		return false
	case r.Pressure != nil && r.Pressure.Even == finding.Outside:
		r.step(StepCatchAfterRepair)
		return true
	case r.OtherPressure:
		r.step(StepMatchPressures)
		return false
	case r.OutputStatus == NotDone:
		r.step(StepCatchOutput)
	}
	r.catchSteps()
	return len(r.Output.Actions) > 0
}

// catchSteps are the actions one by one; then what is too close to say and has none, and
// what stands apart and has neither.
func (r *FieldSheetResult) catchSteps() {
	acted := func(i int) bool {
		return slices.ContainsFunc(r.Steps, func(s Step) bool { return s.Catch == i })
	}
	for _, a := range r.Output.Actions {
		r.Steps = append(r.Steps, Step{StepCode(a.Do), a.Catch, -1})
	}
	if r.Output.Decision == ReplaceAll || r.Output.Decision == NotJudged { // the round is made anew
		return
	}
	for i := range r.Output.Catches {
		u := r.Output.Uncertainty
		apart := func(o certainty.Outlier) bool { return o.Value == i }
		switch {
		case acted(i):
		case u != nil && u.Catches[i].Within.Conformance == certainty.TooClose && r.Output.Catches[i].FirstStatus == "":
			r.Steps = append(r.Steps, Step{StepSettleCatch, i, -1})
		case slices.ContainsFunc(r.Output.Outliers, apart):
			r.Steps = append(r.Steps, Step{StepCatchAgain, i, -1})
		}
	}
}

func (r *FieldSheetResult) speedSteps() (changed bool) {
	switch r.SpeedStatus {
	case NotDone:
		r.step(StepTimeRuns)
	case Failed:
		r.step(StepRepeatRuns)
	}
	if r.SpeedInLimits == finding.Outside {
		r.step(StepDriveWithinLimits)
	}
	return r.SpeedInLimits == finding.Outside
}

// rateSteps asks for width and target whatever else is missing: who goes to the field once
// needs the whole list.
func (r *FieldSheetResult) rateSteps(in FieldSheetInput) (changed bool) {
	if r.Rate != nil && r.Rate.LabelVerdict == finding.Outside {
		r.step(StepOverLabelMaximum)
		changed = true // it is to be lowered, by whatever means
	}
	if !in.Machine.hasWidth() {
		r.step(StepGiveWidth)
	}
	if in.Target.ApplicationRate == 0 {
		r.step(StepSetTarget)
	}
	r.closeRate()
	if r.Correction == nil {
		return changed
	}
	switch r.Correction.Decision {
	case RepairFirst:
		r.step(StepRepairBeforeRate)
	case CalibrateController:
		r.step(StepCalibrateController)
		return true
	case ChoosePlan:
		r.step(StepChoosePlan)
		return true
	case OutOfReach:
		r.step(StepChangeNozzleOrGear)
		return true
	}
	return changed
}
