package calc

import (
	"slices"
	"strings"

	"wetrun/calc/certainty"
	"wetrun/calc/finding"
)

// A rule is one row of the order of judgement: what it asks for, what the sheet is while it
// finds something, and what it rests on.
type rule struct {
	id    RuleID
	means SheetVerdict // advice alone means Ready
	rests []finding.Place
	finds func(*judgement)
}

// order is the order of judgement: entries before what is judged by them, what forbids use
// before what is to be measured again, that before the rate, the rate before plans, and the
// record last. What comes later never tells what an earlier row forbids: rows ask what the
// parts of the sheet came to, and those know of each other (see judge).
//
// Source: common practice, no published source, but for what stands beside the rules that
// are named.
var order = [...]rule{
	{RuleEntries, Incomplete, nil, (*judgement).entries},

	{RuleLabelMaximum, NotReady, placesOf("target/labelMaximum", "rate/result/applicationRate"), (*judgement).overLabel},
	{RuleLabelMinimum, NotReady, placesOf("target/labelMinimum", "rate/result/applicationRate"), (*judgement).underLabel},
	{RuleTankLabel, NotReady, placesOf("target/labelMaximum", "areaCheck/result/applicationRate"), (*judgement).tankOverLabel},
	{RuleEvenBoom, NotReady, placesOf("pressure/readings", "pressure/result/spread", "pressure/result/maxDifference"), (*judgement).evenBoom},
	{RuleByEye, NotReady, nil, (*judgement).byEye},

	{RuleAim, Ready, placesOf("target/applicationRate", "target/labelMaximum"), (*judgement).aim},
	{RuleReadings, Incomplete, placesOf("pressure/readings"), (*judgement).readings},
	{RulePressureClose, Ready, placesOf("pressure/result/spread", "pressure/result/conformanceProbability"), (*judgement).pressureClose},
	{RuleCabGauge, Ready, placesOf("pressure/cabPressure", "pressure/result/cabOffset"), (*judgement).cabGauge},
	{RuleLimits, NotReady, placesOf("limits", "nozzle/pressureRange"), (*judgement).limits},
	{RuleCatches, Incomplete, placesOf("output/catches"), (*judgement).catches},
	{RuleNozzles, NotReady, placesOf("output/tolerance", "output/result/decision"), (*judgement).nozzles},
	{RuleEnoughCatches, Incomplete, placesOf("output/result/sampling"), (*judgement).enoughCatches},
	{RuleCatchClose, Ready, nil, (*judgement).catchesClose},
	{RuleRuns, Incomplete, placesOf("speed/runs"), (*judgement).runs},
	{RuleRunsAgree, NotReady, placesOf("speed/runs", "speed/result/spread"), (*judgement).runsAgree},
	{RuleTank, NotReady, placesOf("areaCheck/result/deviation", "rate/result/applicationRate"), (*judgement).tank},

	{RuleWidth, Incomplete, placesOf("machine"), (*judgement).width},
	{RuleTarget, Incomplete, placesOf("target"), (*judgement).target},
	{RuleRate, NotReady, placesOf("rate/result/deviation", "correction/result"), (*judgement).rate},
	{RuleLabelSure, Incomplete, placesOf("target", "rate/result/labelConformance"), (*judgement).labelSure},
	{RuleRateClose, Ready, placesOf("rate/result/deviation", "rate/result/conformanceProbability"), (*judgement).rateClose},

	{RuleChange, Ready, nil, (*judgement).measureAgain},
	{RuleOverdue, NotReady, placesOf("schedule/usedSince", "schedule/calibrateEvery"), (*judgement).overdue},
	{RuleReady, Ready, placesOf("pressure/status", "output/status", "speed/status", "rate/status"), (*judgement).file},
}

// RuleID names a row of the order.
type RuleID string

const (
	RuleEntries       RuleID = "entries_believed"
	RuleLabelMaximum  RuleID = "label_maximum"
	RuleLabelMinimum  RuleID = "label_minimum"
	RuleTankLabel     RuleID = "tank_label_maximum"
	RuleEvenBoom      RuleID = "even_boom"
	RuleByEye         RuleID = "found_by_eye"
	RuleAim           RuleID = "target_below_label"
	RuleReadings      RuleID = "enough_readings"
	RulePressureClose RuleID = "pressure_close"
	RuleCabGauge      RuleID = "cab_gauge"
	RuleCatches       RuleID = "catches_tell"
	RuleNozzles       RuleID = "nozzles"
	RuleEnoughCatches RuleID = "enough_catches"
	RuleCatchClose    RuleID = "catch_close"
	RuleRuns          RuleID = "enough_runs"
	RuleRunsAgree     RuleID = "runs_agree"
	RuleTank          RuleID = "tank_agrees"
	RuleWidth         RuleID = "width_known"
	RuleTarget        RuleID = "target_known"
	RuleLimits        RuleID = "within_limits"
	RuleRate          RuleID = "rate"
	RuleLabelSure     RuleID = "label_maximum_sure"
	RuleRateClose     RuleID = "rate_close"
	RuleChange        RuleID = "measure_what_changed"
	RuleOverdue       RuleID = "hours_used_up"
	RuleReady         RuleID = "ready"
)

// Words lists every rule, in its order.
func (RuleID) Words() (words []string) {
	for id := range SheetRules {
		words = append(words, string(id))
	}
	return words
}

// SheetRules yields the rules in their order, each with what it asks about.
func SheetRules(yield func(id RuleID, rests []finding.Place) bool) {
	for i := range order {
		if !yield(order[i].id, order[i].rests) {
			return
		}
	}
}

// conclude takes the overall verdict and lists what to do, in the order of judgement.
func (r *FieldSheetResult) conclude(in *FieldSheetInput) {
	j := judgement{FieldSheetResult: r, in: in}
	r.Steps, r.Verdict = make([]Step, 0, 4), Ready
	for i := range order {
		j.rule = &order[i]
		before := len(r.Steps)
		j.rule.finds(&j)
		if len(r.Steps) > before && worse[j.rule.means] > worse[r.Verdict] {
			r.Verdict = j.rule.means
		}
	}
}

var worse = map[SheetVerdict]int{Ready: 0, Incomplete: 1, NotReady: 2}

// A judgement goes through the order.
type judgement struct {
	*FieldSheetResult
	in      *FieldSheetInput
	rule    *rule
	changed bool // something is to be changed, so what it touches is measured again
}

// step adds a step of the rule at hand, with what it rests on beside that of the rule.
func (j *judgement) step(c StepCode, because ...finding.Place) *Step {
	j.Steps = append(j.Steps, Step{Code: c, Catch: -1, Bed: -1, Doubt: -1, Reading: -1, Rule: j.rule.id, Because: because})
	return &j.Steps[len(j.Steps)-1]
}

// change is a step that changes the machine.
func (j *judgement) change(c StepCode, because ...finding.Place) *Step {
	j.changed = true
	return j.step(c, because...)
}

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
	if j.PressureStatus == Failed && j.Pressure.Even == finding.Outside {
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
	case j.GaugeTooCoarse:
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
	case j.CatchLonger != 0:
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
	case j.RunLonger != 0:
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
	if j.AreaCheck != nil && j.AreaCheck.Verdict == finding.Outside && !j.TankOverLabel && !j.rests(partRate) {
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

// placesOf are the places of pointers, with / between their names.
func placesOf(pointers ...string) (all []finding.Place) {
	for _, p := range pointers {
		var place finding.Place
		for name := range strings.SplitSeq(p, "/") {
			place = finding.Member(name).Under(place)
		}
		all = append(all, place)
	}
	return all
}
