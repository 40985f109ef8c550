package operation

import (
	"cmp"

	"wetrun/api/wire"
	"wetrun/calc"
	"wetrun/calc/certainty"
	"wetrun/calc/finding"
	"wetrun/internal/text"
)

// step words one next step, with the catch or the bed it speaks of.
func (r *CalibrationsRequest) step(lang text.Language, p sheetParts, x *calc.FieldSheetResult, s calc.Step) StepAnswer {
	a := StepAnswer{Code: s.Code}
	switch s.Code {
	case calc.StepSettlePressure:
		a.Text = text.Of(lang, "step.settle_pressure", howToSettle(lang, x.Pressure.Uncertainty.Even.MeasureAgain))
	case calc.StepSettleCatch:
		a.Text = text.Of(lang, "step.settle_catch", howToSettle(lang, x.Output.Uncertainty.Catches[s.Catch].Within.MeasureAgain))
	case calc.StepSettleRate:
		a.Text = settleRate(lang, x.Rate.Uncertainty)
	default:
		a.Text = p.stepText(lang, x, s)
	}
	switch {
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
	if s.Code == calc.StepCatchAgain {
		return text.Coded(lang, "step", "catch_again_apart")
	}
	return text.Coded(lang, "step", string(s.Code))
}

// settleRate says which limit the rate is too close to, and what to measure again;
// what is the same for both is said once.
func settleRate(lang text.Language, u *calc.RateUncertainty) string {
	tolerance, label := howToSettle(lang, u.Within.MeasureAgain), howToSettle(lang, u.UnderLabel.MeasureAgain)
	switch {
	case u.UnderLabel.Conformance != certainty.TooClose:
		return text.Of(lang, "step.settle_rate", tolerance)
	case u.Within.Conformance != certainty.TooClose:
		return text.Of(lang, "step.settle_rate_label", label)
	case tolerance == label:
		return text.Of(lang, "step.settle_rate_both", label)
	}
	return text.Of(lang, "step.settle_rate", tolerance) + " " + text.Of(lang, "step.settle_rate_label", label)
}
