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

// howToSettle is conformanceDetail without saying that it is too close.
func howToSettle(lang text.Language, again certainty.MeasureAgain) string {
	return strings.TrimPrefix(conformanceDetail(lang, again), text.Of(lang, "too_close.lead")+" ")
}

// conformanceDetail says that something is too close to its limit, what to measure again
// and how often.
func conformanceDetail(lang text.Language, again certainty.MeasureAgain) string {
	if again.How == certainty.HowBetterInstrument {
		return text.Filled(lang, "too_close.better_instrument", text.Word(text.Coded(lang, "instrument", again.Instrument.String())))
	}
	key, do := string(again.Measurement), string(again.How)
	if again.How == certainty.HowLonger {
		key += "_longer"
	}
	switch {
	case again.More == 1:
		key, do = key+"_one", "more"
	case again.More > 1:
		return text.Filled(lang, "too_close.more", text.Word(text.Filled(lang, "measurement."+key+"_more", text.Whole(again.More))))
	}
	return text.Filled(lang, "too_close."+do, text.Word(text.Coded(lang, "measurement", key)))
}
