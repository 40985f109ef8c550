package operation

import (
	"context"
	"math"
	"strings"

	"wetrun/api/wire"
	"wetrun/calc"
	"wetrun/calc/certainty"
	"wetrun/internal/text"
)

// SamplingAnswer is what the catches tell of the whole boom.
type SamplingAnswer struct {
	Detail            string             `json:"detail"`
	Confidence        wire.Quantity      `json:"confidence"`
	ProportionOutside wire.Range         `json:"proportionOutside"`
	PointsOutside     *PointsAnswer      `json:"pointsOutside,omitzero"`
	AllCaught         bool               `json:"allCaught"`
	ChanceAboveLimit  wire.Quantity      `json:"chanceAboveLimit"`
	Prior             string             `json:"prior,omitzero"`
	Settled           certainty.Settled  `json:"settled"`
	MoreCatches       *MoreCatchesAnswer `json:"moreCatches,omitzero"`
	Assumptions       []Notice           `json:"assumptions,omitzero"`
}

// PointsAnswer is from how many to how many catch points.
type PointsAnswer struct {
	Low  int `json:"low"`
	High int `json:"high"`
}

// MoreCatchesAnswer is what would settle whether the boom is above the limit.
type MoreCatchesAnswer struct {
	Catches int                  `json:"catches"`
	BeginAt []certainty.Position `json:"beginAt,omitzero"`
	Detail  string               `json:"detail"`
}

// OutlierAnswer is a catch to make again.
type OutlierAnswer struct {
	Label         string                `json:"label,omitzero"`
	Pointer       string                `json:"pointer"`
	Test          certainty.OutlierTest `json:"test"`
	Statistic     wire.Number           `json:"statistic"`
	CriticalValue wire.Number           `json:"criticalValue"`
	Text          string                `json:"text"`

	catch int // of the round
}

const priorJeffreys = "jeffreys"

var samplingAssumptions = noticeSetOf("sampling", "random_points", "jeffreys_prior")

func samplingAnswer(ctx context.Context, x *calc.NozzleAcceptanceResult, points int) SamplingAnswer {
	s, lang := x.Sampling, text.From(ctx)
	a := SamplingAnswer{
		Confidence:        percent(certainty.SamplingConfidence),
		ProportionOutside: wire.Range{Low: percent(s.Low), High: percent(s.High)},
		AllCaught:         s.Known,
		ChanceAboveLimit:  percent(s.ChanceAbove),
		Settled:           s.Settled,
	}
	outside, caught := text.Whole(s.Outside), text.Whole(s.Caught)
	switch {
	case s.Known:
		a.Detail = text.Filled(lang, "sampling.all_caught", outside, caught)
	case points > 0:
		a.Detail = text.Filled(lang, "sampling.points_known", outside, caught, text.Whole(points), text.Whole(s.LowPoints), text.Whole(s.HighPoints))
	default: // whole numbers that the interval lies between
		low, high := math.Floor(100*float64(s.Low)), math.Ceil(100*float64(s.High))
		a.Detail = text.Filled(lang, "sampling.points_unknown", outside, caught, text.Whole(int(low)), text.Whole(int(high)))
	}
	a.Detail += " " + text.Coded(lang, "sampling", string(s.Settled))
	if points > 0 {
		a.PointsOutside = &PointsAnswer{s.LowPoints, s.HighPoints}
	}
	if !s.Known {
		a.Prior = priorJeffreys
		a.Assumptions = samplingAssumptions[lang]
	}
	if s.More > 0 {
		a.MoreCatches = moreCatches(lang, s)
	}
	return a
}

func moreCatches(lang text.Language, s certainty.SamplingResult) *MoreCatchesAnswer {
	a := MoreCatchesAnswer{Catches: s.More}
	var sides []string
	for _, p := range s.MoreOn {
		a.BeginAt = append(a.BeginAt, p)
		sides = append(sides, text.Of(lang, "side."+string(p)))
	}
	switch {
	case s.AllOthers:
		a.Detail = text.Of(lang, "sampling.more_all", s.More)
	case len(sides) > 0:
		a.Detail = text.Of(lang, "sampling.more_sides", s.More, strings.Join(sides, ", "))
	default:
		a.Detail = text.Of(lang, "sampling.more", s.More)
	}
	return &a
}

func (r *NozzleAcceptanceRequest) outliersAnswer(ctx context.Context, found []certainty.Outlier) (all []OutlierAnswer) {
	for _, x := range found {
		all = append(all, OutlierAnswer{
			Label: r.Catches[x.Value].Label, Pointer: r.origins.pointer(x.Value), Test: x.Test,
			Statistic: wire.Number(x.Statistic), CriticalValue: wire.Number(x.Critical), Text: text.Coded(text.From(ctx), "outlier", string(x.Test)),
			catch: x.Value,
		})
	}
	return all
}
