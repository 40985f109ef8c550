package api

import (
	"context"
	"strings"

	"wetrun/calc"
	"wetrun/calc/unit"
	"wetrun/internal/text"
)

// UncertaintyResponse is how well one member is known.
type UncertaintyResponse struct {
	Standard         Quantity `json:"standard"`
	Expanded         Quantity `json:"expanded"`
	CoverageFactor   Number   `json:"coverageFactor"`
	DegreesOfFreedom Number   `json:"degreesOfFreedom,omitzero"`

	of *calc.Uncertainty // for the working
}

// uncertain writes an uncertainty in the unit of its member; nothing where there is
// none.
func uncertain(u *calc.Uncertainty, id unit.ID) (a UncertaintyResponse) {
	if u.CoverageFactor == 0 {
		return a
	}
	return UncertaintyResponse{
		Standard: in(u.Standard, id), Expanded: in(u.Expanded(), id),
		CoverageFactor: Number(u.CoverageFactor), DegreesOfFreedom: Number(u.DegreesOfFreedom),
		of: u,
	}
}

// ConformanceResponse tells how surely a verdict holds.
type ConformanceResponse struct {
	ConformanceProbability Quantity              `json:"conformanceProbability,omitzero"`
	Conformance            string                `json:"conformance,omitzero"`
	ConformanceDetail      string                `json:"conformanceDetail,omitzero"`
	MeasureAgain           *MeasureAgainResponse `json:"measureAgain,omitzero"`
}

// MeasureAgainResponse is what would settle a verdict that is too close.
type MeasureAgainResponse struct {
	Measurement string `json:"measurement"`
	How         string `json:"how"`
	Instrument  string `json:"instrument,omitzero"`
	More        int    `json:"more,omitzero"`
}

// The words of calc's results, in the order of their constants.
var (
	conformanceWords = [...]string{"", "within", "outside", "too_close"}
	measurementWords = [...]string{"runs", "catches", "readings", "width", "nozzle_flow_rate", "ground_speed", "volume_used", "area", "application_rate"}
	howWords         = [...]string{"again", "longer", "better_instrument"}
)

// conformance words how surely a verdict holds.
func conformance(ctx context.Context, c calc.Conformity) (a ConformanceResponse) {
	if c.Conformance == calc.ConformanceUnknown {
		return a
	}
	a.ConformanceProbability = percent(c.Probability)
	a.Conformance = conformanceWords[c.Conformance]
	if c.Conformance != calc.TooClose {
		return a
	}
	a.MeasureAgain = &MeasureAgainResponse{
		Measurement: measurementWords[c.Again.Measurement], How: howWords[c.Again.How], More: c.Again.More,
	}
	if c.Again.How == calc.BetterInstrument {
		a.MeasureAgain.Instrument = c.Again.Instrument.String()
	}
	a.ConformanceDetail = conformanceDetail(text.From(ctx), c.Again)
	return a
}

// The keys of what to do about what is too close, by howWords, without and with how
// many more are to be measured.
var tooClose = [...][2]string{
	{"too_close.again", "too_close.again_more"},
	{"too_close.longer", "too_close.longer_more"},
	{"too_close.better_instrument", "too_close.better_instrument"},
}

// howToSettle is the same without saying that it is too close.
func howToSettle(lang text.Language, again calc.MeasureAgain) string {
	return strings.TrimPrefix(conformanceDetail(lang, again), text.Of(lang, "too_close.lead")+" ")
}

// conformanceDetail says that something is too close to its limit, what to measure again
// and how often.
func conformanceDetail(lang text.Language, again calc.MeasureAgain) string {
	if again.How == calc.BetterInstrument {
		return text.Filled(lang, tooClose[again.How][0], text.Word(text.Coded(lang, "instrument", again.Instrument.String())))
	}
	what := text.Word(text.Coded(lang, "measurement", measurementWords[again.Measurement]))
	if again.More == 0 {
		return text.Filled(lang, tooClose[again.How][0], what)
	}
	return text.Filled(lang, tooClose[again.How][1], what, text.Whole(again.More))
}
