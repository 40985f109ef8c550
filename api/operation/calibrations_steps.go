package operation

import (
	"cmp"
	"strings"

	"wetrun/api/wire"
	"wetrun/calc"
	"wetrun/calc/certainty"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
	"wetrun/internal/text"
)

// closerLimit ends the key of words on a rate that is too close to a limit of the label: the
// minimum is to be cleared upwards. A rate is judged only with a target, on the same basis.
func (r *CalibrationsRequest) closerLimit(x *calc.FieldSheetResult) string {
	t := r.Target
	rate := t.ApplicationRate.SI() * (1 + float64(x.Rate.Deviation))
	if t.LabelMinimum.Given() && (!t.LabelMaximum.Given() || rate-t.LabelMinimum.SI() < t.LabelMaximum.SI()-rate) {
		return "_minimum"
	}
	return ""
}

// step words one next step, with the catch or the bed it speaks of.
func (r *CalibrationsRequest) step(lang text.Language, p sheetParts, x *calc.FieldSheetResult, s calc.Step) StepAnswer {
	a := StepAnswer{Code: s.Code, Rule: s.Rule, Why: text.Coded(lang, "rule", string(s.Rule)), Because: because(&p.output.origins, s)}
	switch s.Code {
	case calc.StepCheckEntry:
		r.ask(lang, &p, &x.Doubts[s.Doubt], &a)
		a.Text += " " + text.Of(lang, "step.check_entry")
		return a
	case calc.StepAimLower:
		t := r.Target
		a.Aim = wire.In(calc.AimBelow(unit.ApplicationRate(t.ApplicationRate.SI()), unit.ApplicationRate(t.LabelMaximum.SI())), t.ApplicationRate.Unit)
		a.Text = text.Of(lang, "step.aim_lower", (&summary{lang: lang}).quantity(a.Aim))
	case calc.StepReadPressure:
		a.Text = missingSides(lang, text.Coded(lang, "step", string(s.Code)), s.On)
	case calc.StepRepairBoom:
		low := s.Reading
		a.Text = text.Of(lang, "step.repair_boom", readingName(lang, r.Pressure.Readings[low], low))
		a.Pointer = wire.Pointer(finding.Item("readings", low).Under(finding.Member("pressure")))
	case calc.StepCatchLonger:
		a.Text = text.Of(lang, "step.catch_longer", int(x.Output.CatchLonger))
	case calc.StepRunLonger:
		length := wire.In(x.Speed.RunLonger, r.Speed.Runs[0].CourseLength.Unit)
		a.Text = text.Of(lang, "step.run_longer", (&summary{lang: lang}).quantity(length))
	case calc.StepSettlePressure:
		a.Text = text.Of(lang, "step.settle_pressure", howToSettle(lang, s.Again))
	case calc.StepSettleRate:
		key := "step.settle_rate"
		if s.Rule == calc.RuleLabelSure {
			key = "step.settle_rate_label" + r.closerLimit(x)
		}
		a.Text = text.Of(lang, key, howToSettle(lang, s.Again))
	case calc.StepChoosePlan:
		key := "choose_plan"
		switch s.Rule {
		case calc.RuleLabelSure:
			key = "choose_plan_label" + r.closerLimit(x)
		case calc.RuleLimits:
			key = "choose_plan_limits"
		}
		a.Text = text.Coded(lang, "step", key)
	case calc.StepCheckSooner:
		a.Text = text.Coded(lang, "step", string(s.Code))
		if s.Catch < 0 {
			a.Text = text.Of(lang, "step.check_sooner_these", r.names(lang, &p, s.Because))
		}
	case calc.StepCatchMore:
		if a.Text = p.stepText(lang, x, s); s.Rule == calc.RuleEnoughCatches {
			a.Text = missingSides(lang, text.Of(lang, "step.catch_more_points", s.More), s.On)
		}
	default:
		a.Text = p.stepText(lang, x, s)
	}
	switch {
	case s.Code == calc.StepCheckReference: // and confirm, where it is right
		a.Pointer = "#/nozzle"
	case s.Code == calc.StepCheckSize: // of a bed or a side, which its words name
		a.Pointer = p.output.origins.pointer(s.Catch)
	case s.Catch >= 0:
		a.Label, a.Pointer = p.output.Catches[s.Catch].Label, p.output.origins.pointer(s.Catch)
		a.name = cmp.Or(a.Label, text.Of(lang, "step.catch_number", p.output.origins.row(s.Catch)+1))
	case s.Bed >= 0:
		a.Label, a.Pointer = r.Maintenance.Beds[s.Bed].Label, wire.Pointer(finding.Item("beds", s.Bed).Under(finding.Member("maintenance")))
		a.name = cmp.Or(a.Label, text.Of(lang, "step.bed_number", s.Bed+1))
	}
	return a
}

// stepText words a step as the action that it stands for, where it does.
func (p *sheetParts) stepText(lang text.Language, x *calc.FieldSheetResult, s calc.Step) string {
	if x.Output != nil {
		for _, a := range x.Output.Actions {
			if a.Catch == s.Catch && a.Do == calc.Remedy(s.Code) {
				return p.output.actionText(lang, x.Output, a)
			}
		}
	}
	return text.Coded(lang, "step", string(s.Code))
}

// because are the pointers to what a step rests on: those of its rule, and its own.
func because(origins *catchOrigins, s calc.Step) []string {
	rule := ruleRests[s.Rule]
	if len(s.Because) == 0 {
		return rule
	}
	all := make([]string, 0, len(s.Because)+len(rule))
	for _, p := range s.Because {
		all = append(all, wire.Pointer(origins.moved(p)))
	}
	return append(all, rule...)
}

// ruleRests are the pointers to what each rule asks about.
var ruleRests = func() map[calc.RuleID][]string {
	all := map[calc.RuleID][]string{}
	for id, rests := range calc.SheetRules {
		for _, p := range rests {
			all[id] = append(all[id], wire.Pointer(p))
		}
	}
	return all
}()

// missingSides adds the sides at which nothing was measured.
func missingSides(lang text.Language, words string, on []certainty.Position) string {
	if len(on) == 0 {
		return words
	}
	var sides []string
	for _, p := range on {
		sides = append(sides, text.Of(lang, "side."+string(p)))
	}
	return words + " " + text.Of(lang, "step.missing_sides", strings.Join(sides, ", "))
}
