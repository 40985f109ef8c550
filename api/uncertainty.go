package api

import (
	"context"
	"strings"

	"wetrun/calc/certainty"
	"wetrun/calc/unit"
	"wetrun/internal/text"
)

// UncertaintyAnswer is how well one member is known.
type UncertaintyAnswer struct {
	Standard         Quantity `json:"standard"`
	Expanded         Quantity `json:"expanded"`
	CoverageFactor   Number   `json:"coverageFactor"`
	DegreesOfFreedom Number   `json:"degreesOfFreedom,omitzero"`

	of *certainty.Uncertainty // for the working
}

// uncertain writes an uncertainty in the unit of its member; nothing where there is
// none.
func uncertain(u *certainty.Uncertainty, id unit.ID) (a UncertaintyAnswer) {
	if u.CoverageFactor == 0 {
		return a
	}
	return UncertaintyAnswer{
		Standard: in(u.Standard, id), Expanded: in(u.Expanded(), id),
		CoverageFactor: Number(u.CoverageFactor), DegreesOfFreedom: Number(u.DegreesOfFreedom),
		of: u,
	}
}

// ConformanceAnswer tells how surely a verdict holds.
type ConformanceAnswer struct {
	ConformanceProbability Quantity              `json:"conformanceProbability,omitzero"`
	Conformance            certainty.Conformance `json:"conformance,omitzero"`
	ConformanceDetail      string                `json:"conformanceDetail,omitzero"`
	MeasureAgain           *MeasureAgainAnswer   `json:"measureAgain,omitzero"`
}

// MeasureAgainAnswer is what would settle a verdict that is too close.
type MeasureAgainAnswer struct {
	Measurement certainty.Measurement       `json:"measurement"`
	How         certainty.HowToMeasureAgain `json:"how"`
	Instrument  string                      `json:"instrument,omitzero"`
	More        int                         `json:"more,omitzero"`
}

// conformance words how surely a verdict holds.
func conformance(ctx context.Context, c certainty.Conformity) (a ConformanceAnswer) {
	if c.Conformance == certainty.ConformanceUnknown {
		return a
	}
	a.ConformanceProbability = percent(c.Probability)
	a.Conformance = c.Conformance
	if c.Conformance != certainty.TooClose {
		return a
	}
	again := c.MeasureAgain
	a.MeasureAgain = &MeasureAgainAnswer{Measurement: again.Measurement, How: again.How, More: again.More}
	if again.How == certainty.HowBetterInstrument {
		a.MeasureAgain.Instrument = again.Instrument.String()
	}
	a.ConformanceDetail = conformanceDetail(text.From(ctx), again)
	return a
}

// tooClose has the keys of what to do about what is too close to its limit, without and
// with how many more are to be measured.
var tooClose = func() map[certainty.HowToMeasureAgain][2]string {
	keys := map[certainty.HowToMeasureAgain][2]string{}
	for _, how := range certainty.HowToMeasureAgain("").Words() {
		key := "too_close." + how
		keys[certainty.HowToMeasureAgain(how)] = [2]string{key, key + "_more"}
	}
	return keys
}()

// howToSettle is conformanceDetail without saying that it is too close.
func howToSettle(lang text.Language, again certainty.MeasureAgain) string {
	return strings.TrimPrefix(conformanceDetail(lang, again), text.Of(lang, "too_close.lead")+" ")
}

// conformanceDetail says that something is too close to its limit, what to measure again
// and how often.
func conformanceDetail(lang text.Language, again certainty.MeasureAgain) string {
	keys := tooClose[again.How]
	if again.How == certainty.HowBetterInstrument {
		return text.Filled(lang, keys[0], text.Word(text.Coded(lang, "instrument", again.Instrument.String())))
	}
	what := text.Word(text.Coded(lang, "measurement", string(again.Measurement)))
	if again.More == 0 {
		return text.Filled(lang, keys[0], what)
	}
	return text.Filled(lang, keys[1], what, text.Whole(again.More))
}
