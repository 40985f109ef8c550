package calc

import (
	"strings"

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
	{RuleLimits, NotReady, nil, (*judgement).limits},
	{RuleCatches, Incomplete, placesOf("output/catches"), (*judgement).catches},
	{RuleNozzles, NotReady, placesOf("output/result/tolerance", "output/result/decision"), (*judgement).nozzles},
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
