package operation

import (
	"context"
	"strings"

	"wetrun/api/working"
	"wetrun/calc/certainty"
	"wetrun/internal/text"
)

// conformance words how surely a verdict holds.
func conformance(ctx context.Context, c certainty.Conformity) (a working.ConformanceAnswer) {
	if c.Conformance == certainty.ConformanceUnknown {
		return a
	}
	a.ConformanceProbability = percent(c.Probability)
	a.Conformance = c.Conformance
	if c.Conformance != certainty.TooClose {
		return a
	}
	again := c.MeasureAgain
	if again.How == "" { // it was measured again
		a.ConformanceDetail = text.Of(text.From(ctx), "too_close.lead")
		return a
	}
	a.MeasureAgain = &working.MeasureAgainAnswer{Measurement: again.Measurement, How: again.How, More: again.More}
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
