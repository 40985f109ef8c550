package operation

import (
	"cmp"
	"strings"

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
	case calc.StepCatchEachNozzle:
		a.Text = text.Coded(lang, "step", string(s.Code))
		if len(p.output.Catches[s.Catch].NozzlesOnDrop) > 0 {
			a.Text = text.Of(lang, "step.catch_each_nozzle_drop")
		}
	case calc.StepSettleRate:
		a.Text = settleRate(lang, x.Rate.Uncertainty)
	case calc.StepCatchMore:
		a.Text = catchMore(lang, x.Output.Sampling, r.Output.CatchPointsOnBoom > 0)
	default:
		a.Text = text.Coded(lang, "step", string(s.Code))
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

// catchMore says how many points to catch before a new set is bought, and where.
func catchMore(lang text.Language, s certainty.SamplingResult, pointsKnown bool) string {
	switch {
	case s.AllOthers:
		return text.Of(lang, "step.catch_more_all", s.More)
	case !pointsKnown:
		return withSides(lang, text.Of(lang, "step.catch_more_if_there", s.More), s)
	}
	return withSides(lang, text.Of(lang, "step.catch_more", s.More), s)
}

func withSides(lang text.Language, words string, s certainty.SamplingResult) string {
	if len(s.MoreOn) == 0 {
		return words
	}
	var sides []string
	for _, p := range s.MoreOn {
		sides = append(sides, text.Of(lang, "side."+string(p)))
	}
	return words + " " + text.Of(lang, "step.catch_more_begin", strings.Join(sides, ", "))
}
