package calc

// conclude takes the overall verdict and lists what to do, in the order of the
// job.
func (r *FieldSheetResult) conclude() {
	r.Steps = make([]Step, 0, 8)
	changed := r.pressureSteps()
	changed = r.outputSteps() || changed
	r.speedSteps()
	changed = r.rateSteps() || changed
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
	if r.Verdict == Ready {
		r.step(StepFileRecord)
		r.step(StepCalibrateAgain)
	}
}

func (r *FieldSheetResult) step(c StepCode) { r.Steps = append(r.Steps, Step{c, -1}) }

func (r *FieldSheetResult) pressureSteps() (changed bool) {
	if r.PressureStatus == NotDone {
		r.step(StepReadPressure)
	}
	if r.Pressure == nil {
		return false
	}
	if r.Pressure.Even == Outside {
		r.step(StepRepairBoom)
		changed = true
	}
	if r.Pressure.MeanInRange == Outside {
		r.step(StepSetPressureInRange)
		changed = true
	}
	if r.Pressure.CabDiffers == Outside {
		r.step(StepCheckCabGauge)
	}
	return changed
}

func (r *FieldSheetResult) outputSteps() (changed bool) {
	if r.Output == nil {
		r.step(StepCatchOutput)
		return false
	}
	codes := [...]StepCode{
		CleanAndRecatch: StepCleanAndRecatch, ReplaceNozzle: StepReplaceNozzle,
		CatchEachNozzle: StepCatchEachNozzle, ReplaceAllAndRecatch: StepReplaceAllAndRecatch,
	}
	for _, a := range r.Output.Actions {
		r.Steps = append(r.Steps, Step{codes[a.Do], a.Catch})
	}
	return len(r.Output.Actions) > 0
}

func (r *FieldSheetResult) speedSteps() {
	switch r.SpeedStatus {
	case NotDone:
		r.step(StepTimeRuns)
	case Failed:
		r.step(StepRepeatRuns)
	}
}

func (r *FieldSheetResult) rateSteps() (changed bool) {
	switch {
	case r.Rate == nil && r.Output != nil && r.Speed != nil:
		r.step(StepGiveWidth)
	case r.Rate != nil && r.Rate.Verdict == NotJudged:
		r.step(StepSetTarget)
	}
	if r.Correction == nil {
		return false
	}
	switch r.Correction.Decision {
	case RepairFirst:
		r.step(StepRepairBeforeRate)
	case CalibrateController:
		r.step(StepCalibrateController)
	case ChoosePlan:
		r.step(StepChoosePlan)
		return true
	case OutOfReach:
		r.step(StepChangeNozzleOrGear)
		return true
	}
	return false
}
