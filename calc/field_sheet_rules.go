package calc

import (
	"slices"

	"wetrun/calc/certainty"
	"wetrun/calc/finding"
)

// The rules, as order has them. Each adds the steps that follow from what it finds.

func (j *judgement) entries() {
	for i := range j.Doubts {
		j.step(StepCheckEntry, j.Doubts[i].Entry).Doubt = i
	}
}

func (j *judgement) overLabel() {
	if j.Rate != nil && j.Rate.LabelVerdict == finding.Outside && !j.rests(partRate) {
		j.change(StepOverLabelMaximum) // it is to be lowered, by whatever means
	}
}

func (j *judgement) underLabel() {
	if j.Rate != nil && j.Rate.LabelMinimumVerdict == finding.Outside && !j.rests(partRate) {
		j.change(StepUnderLabelMinimum)
	}
}

func (j *judgement) tankOverLabel() {
	if j.TankOverLabel {
		j.step(StepTankOverLabelMaximum)
	}
}

func (j *judgement) evenBoom() {
	if j.unevenBoom() {
		j.change(StepRepairBoom).Reading = j.Pressure.lowest(j.in.Pressure.Readings)
	}
}

// byEye says what is still to be done of what was seen by eye. A new set makes everything else
// about nozzles needless.
func (j *judgement) byEye() {
	whole := j.setByEye(j.in)
	say := func(c StepCode, bed int) { j.change(c, finding.Item("beds", bed).Under(maintenancePart)).Bed = bed }
	for i, d := range j.Maintenance {
		switch {
		case d == InspectionKeep || j.in.Maintenance.Beds[i].Done:
		case d == InspectionReplaceAll:
			say(StepReplaceAllByEye, i)
			return
		case whole:
		case d == InspectionReplaceListed:
			say(StepReplaceByEye, i)
		default:
			say(StepCleanByEye, i)
		}
	}
}

// aim says before anything is measured that the target is too near to the label's maximum.
func (j *judgement) aim() {
	if t := j.in.Target; j.Rate == nil && AimBelow(t.ApplicationRate, t.LabelMaximum) != 0 {
		j.step(StepAimLower)
	}
}

func (j *judgement) readings() {
	switch {
	case j.PressureStatus != NotDone || j.rests(partPressure):
	case j.Pressure != nil && j.Pressure.GaugeTooCoarse:
		j.step(StepFinerGauge)
	default:
		j.step(StepReadPressure).On = j.unreadSides
	}
}

func (j *judgement) pressureClose() {
	if p := j.Pressure; j.PressureStatus == Passed && p.Uncertainty != nil && p.Uncertainty.Even.Conformance == certainty.TooClose {
		j.step(StepSettlePressure).Again = p.Uncertainty.Even.MeasureAgain
	}
}

func (j *judgement) cabGauge() {
	if j.PressureStatus == Passed && j.Pressure.CabDiffers == finding.Outside && !j.asksAbout(pressurePart.Member("cabPressure")) {
		j.step(StepCheckCabGauge)
	}
}

// catches are those that are to be made, or made again as a whole.
func (j *judgement) catches() {
	switch {
	case j.Output == nil:
		j.step(StepCatchOutput)
	case j.rests(partOutput), j.setByEye(j.in):
	case j.unevenBoom():
		j.step(StepCatchAfterRepair)
	case j.OtherPressure:
		j.step(StepMatchPressures, placesOf("pressure/readings", "output/sprayPressure")...)
	case j.Output.CatchLonger != 0:
		j.step(StepCatchLonger)
	case j.OutputStatus == NotDone:
		for _, a := range j.Output.Actions {
			j.step(StepCode(a.Do))
		}
	}
}

func (j *judgement) nozzles() {
	if j.OutputStatus != Failed {
		return
	}
	for _, a := range j.Output.Actions {
		s := j.change(StepCode(a.Do))
		if a.Do == CatchMore {
			s.More, s.On = j.Output.Worn.More, j.Output.Worn.MoreOn
		}
		if s.Catch = a.Catch; a.Catch >= 0 {
			s.Because = []finding.Place{outputPart.Item("catches", a.Catch), finding.Item("catches", a.Catch).Under(outputPart.Member("result"))}
		}
	}
}

func (j *judgement) enoughCatches() {
	if j.OutputStatus == NotDone && (j.moreCatches > 0 || len(j.uncaughtSides) > 0) {
		s := j.step(StepCatchMore)
		s.More, s.On = max(j.moreCatches, len(j.uncaughtSides)), j.uncaughtSides
	}
}

// catchesClose are the catches in order of which something is to be said: those near their
// limit, and those that stand apart from the others.
func (j *judgement) catchesClose() {
	if j.OutputStatus != Passed {
		return
	}
	var near []finding.Place
	last := -1
	for i := range j.Output.Catches {
		u := j.Output.Uncertainty
		apart := slices.ContainsFunc(j.Output.Outliers, func(x certainty.Outlier) bool { return x.Value == i })
		if j.in.Output.Catches[i].First != nil {
			continue // nobody looks at one a third time
		}
		if apart || u != nil && u.Catches[i].Within.Conformance == certainty.TooClose {
			near, last = append(near, outputPart.Item("catches", i)), i
		}
	}
	if last < 0 {
		return
	}
	if len(near) > 1 {
		last = -1
	}
	j.step(StepCheckSooner, near...).Catch = last
}

func (j *judgement) runs() {
	switch {
	case j.SpeedStatus != NotDone || j.rests(partSpeed):
	case j.Speed != nil && j.Speed.RunLonger != 0:
		j.step(StepRunLonger)
	default:
		j.step(StepTimeRuns)
	}
}

func (j *judgement) runsAgree() {
	if j.SpeedStatus == Failed {
		j.step(StepRepeatRuns)
	}
}

func (j *judgement) tank() {
	if j.AreaCheck != nil && j.AreaCheck.Verdict == finding.Outside && !j.TankOverLabel && !j.rests(partRate) && !j.asksAbout(finding.Member("areaCheck").Member("volumeUsed")) {
		j.step(StepFindDisagreement)
	}
}

func (j *judgement) width() {
	if !j.in.Machine.hasWidth() {
		j.step(StepGiveWidth)
	}
}

func (j *judgement) target() {
	if j.in.Target.ApplicationRate == 0 {
		j.step(StepSetTarget)
	}
}

// limits are steps of their own only where nothing was looked for that keeps them and the rate.
func (j *judgement) limits() {
	broken := j.brokenLimits()
	switch {
	case len(broken) == 0 || len(j.Doubts) > 0 || j.unevenBoom():
	case j.Correction == nil || j.Correction.Decision != ChoosePlan && j.Correction.Decision != OutOfReach:
		for _, at := range broken {
			j.change(stepOfLimit[at.String()], at)
		}
	case j.RateStatus == Passed:
		j.correction(broken...)
	}
}

var stepOfLimit = map[string]StepCode{
	limitsGroundSpeed.String():   StepDriveWithinLimits,
	limitsSprayPressure.String(): StepSetPressureWithinLimits,
	nozzlePressureRange.String(): StepSetPressureInRange,
}

// correction is the step that Corrections decided on.
func (j *judgement) correction(because ...finding.Place) {
	switch j.Correction.Decision {
	case RepairFirst:
		j.step(StepRepairBeforeRate)
	case CalibrateController:
		j.change(StepCalibrateController)
	case ChoosePlan:
		j.change(StepChoosePlan, because...)
	case OutOfReach:
		j.change(StepChangeNozzleOrGear, because...)
	}
}

func (j *judgement) rate() {
	if j.Correction != nil && j.RateStatus == Failed {
		j.correction(j.brokenLimits()...)
	}
}

// brokenLimits are the limits that the present setting does not keep.
func (j *judgement) brokenLimits() (all []finding.Place) {
	if j.PressureInLimits == finding.Outside {
		all = append(all, limitsSprayPressure)
	}
	if j.pressureOutOfRange() {
		all = append(all, nozzlePressureRange)
	}
	if j.SpeedInLimits == finding.Outside {
		all = append(all, limitsGroundSpeed)
	}
	return all
}

// labelSure names the setting that clears the label's maximum, and then what would measure better.
func (j *judgement) labelSure() {
	if !j.labelOpen {
		return
	}
	if j.Correction != nil && j.Correction.Decision == ChoosePlan {
		j.change(StepChoosePlan)
	}
	j.step(StepSettleRate).Again = j.Rate.Uncertainty.UnderLabel.MeasureAgain
}

func (j *judgement) rateClose() {
	if j.RateStatus == Passed && j.OutputStatus == Passed && j.Rate.Uncertainty != nil && j.Rate.Uncertainty.Within.Conformance == certainty.TooClose {
		j.step(StepSettleRate).Again = j.Rate.Uncertainty.Within.MeasureAgain
	}
}

func (j *judgement) measureAgain() {
	if j.changed {
		j.step(StepMeasureAgain)
	}
}

func (j *judgement) overdue() {
	if j.in.Overdue {
		j.step(StepCalibrateAgain)
	}
}

func (j *judgement) file() {
	if j.Verdict == Ready {
		j.step(StepFileRecord)
		j.step(StepCalibrateAgain)
	}
}
