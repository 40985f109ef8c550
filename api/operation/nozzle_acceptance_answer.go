package operation

import (
	"context"
	"slices"

	"wetrun/api/wire"
	"wetrun/api/working"
	"wetrun/calc"
	"wetrun/calc/certainty"
	"wetrun/calc/unit"
	"wetrun/internal/text"
)

// NozzleAcceptanceAnswer is the answer of POST /v1/nozzle-acceptance.
type NozzleAcceptanceAnswer struct {
	Nozzle                  *NozzleAnswer           `json:"nozzle,omitzero"`
	Tolerance               ToleranceAnswer         `json:"tolerance"`
	SprayPressure           wire.Quantity           `json:"sprayPressure,omitzero"`
	RatedFlowRateAtPressure wire.Quantity           `json:"ratedFlowRateAtPressure,omitzero"`
	AcceptableFlowRate      BoundsAnswer            `json:"acceptableFlowRate,omitzero"`
	Catches                 []AcceptanceCatchAnswer `json:"catches"`
	MeanNozzleFlowRate      wire.Quantity           `json:"meanNozzleFlowRate,omitzero"`
	CoefficientOfVariation  wire.Quantity           `json:"coefficientOfVariation,omitzero"`
	Uncertainty             *RoundUncertainty       `json:"uncertainty,omitzero"`
	SideMeans               []SideMeanAnswer        `json:"sideMeans,omitzero"`
	LargestHiddenDeviation  wire.Quantity           `json:"largestHiddenDeviation,omitzero"`
	CatchesTested           int                     `json:"catchesTested"`
	CatchesOutside          int                     `json:"catchesOutside"`
	CatchPointsOnBoom       int                     `json:"catchPointsOnBoom,omitzero"`
	ProportionOutside       wire.Quantity           `json:"proportionOutside"`
	ReplaceAllAbove         wire.Quantity           `json:"replaceAllAbove,omitzero"`
	ReplaceAllFrom          int                     `json:"replaceAllFrom,omitzero"`
	Decision                calc.Decision           `json:"decision"`
	DecisionDetail          string                  `json:"decisionDetail"`
	Actions                 []ActionAnswer          `json:"actions"`
	Sampling                SamplingAnswer          `json:"sampling"`
	Outliers                []OutlierAnswer         `json:"outliers,omitzero"`
	Warnings                []Warning               `json:"warnings,omitzero"`
	Cautions                []Notice                `json:"cautions"`
	working.Explained

	origins catchOrigins // of Catches, for the names of those without a label
}

// ToleranceAnswer is the tolerance that was applied, in the form that it was asked for.
type ToleranceAnswer struct {
	Limit wire.Quantity      `json:"limit,omitzero"`
	Basis calc.Basis         `json:"basis,omitzero"`
	Rated OutputLimitsAnswer `json:"rated,omitzero"`
	Mean  OutputLimitsAnswer `json:"mean,omitzero"`
}

// OutputLimitsAnswer is how far below and above.
type OutputLimitsAnswer struct {
	Below wire.Quantity `json:"below,omitzero"`
	Above wire.Quantity `json:"above,omitzero"`
}

// BoundsAnswer is from what to what; an end that nothing limits is left out.
type BoundsAnswer struct {
	Low  wire.Quantity `json:"low,omitzero"`
	High wire.Quantity `json:"high,omitzero"`
}

// AcceptanceCatchAnswer is the verdict on one catch.
type AcceptanceCatchAnswer struct {
	Label                    string        `json:"label,omitzero"`
	FlowRate                 wire.Quantity `json:"flowRate"`
	NozzleFlowRate           wire.Quantity `json:"nozzleFlowRate"`
	NozzleFlowRateAtPressure wire.Quantity `json:"nozzleFlowRateAtPressure,omitzero"`
	RatedFlowRateAtPressure  wire.Quantity `json:"ratedFlowRateAtPressure,omitzero"`
	DeviationFromRated       wire.Quantity `json:"deviationFromRated,omitzero"`
	DeviationFromMean        wire.Quantity `json:"deviationFromMean,omitzero"`
	Status                   calc.Status   `json:"status"`
	FirstStatus              calc.Status   `json:"firstStatus,omitzero"`
	working.ConformanceAnswer
	Uncertainty            *CatchUncertainty `json:"uncertainty,omitzero"`
	AcceptableFlowRate     BoundsAnswer      `json:"acceptableFlowRate,omitzero"`
	AcceptableVolume       BoundsAnswer      `json:"acceptableVolume,omitzero"`
	LargestHiddenDeviation wire.Quantity     `json:"largestHiddenDeviation,omitzero"`
}

// RoundUncertainty is how well the members of its names are known.
type RoundUncertainty struct {
	MeanNozzleFlowRate     working.UncertaintyAnswer `json:"meanNozzleFlowRate,omitzero"`
	CoefficientOfVariation working.UncertaintyAnswer `json:"coefficientOfVariation,omitzero"`
}

// CatchUncertainty is the same of one catch.
type CatchUncertainty struct {
	NozzleFlowRate     working.UncertaintyAnswer `json:"nozzleFlowRate"`
	DeviationFromRated working.UncertaintyAnswer `json:"deviationFromRated,omitzero"`
	DeviationFromMean  working.UncertaintyAnswer `json:"deviationFromMean,omitzero"`
}

// SideMeanAnswer is the mean of one side of the boom.
type SideMeanAnswer struct {
	Position           certainty.Position `json:"position"`
	Catches            int                `json:"catches"`
	MeanNozzleFlowRate wire.Quantity      `json:"meanNozzleFlowRate"`
	DeviationFromMean  wire.Quantity      `json:"deviationFromMean"`
}

func (r *NozzleAcceptanceRequest) answer(ctx context.Context, x calc.NozzleAcceptanceResult) NozzleAcceptanceAnswer {
	units, lang := r.units(), text.From(ctx)
	a := NozzleAcceptanceAnswer{
		Nozzle:            r.Nozzle.answer(x.SprayPressure),
		Tolerance:         r.Tolerance.answer(&x),
		Catches:           make([]AcceptanceCatchAnswer, len(x.Catches)),
		CatchesTested:     x.Tested,
		CatchesOutside:    x.Outside,
		CatchPointsOnBoom: r.CatchPointsOnBoom,
		ProportionOutside: percent(x.ProportionOutside),
		ReplaceAllFrom:    x.ReplaceAllFrom,
		Decision:          x.Decision,
		DecisionDetail:    text.Coded(lang, "decision", string(x.Decision)),
		Actions:           make([]ActionAnswer, len(x.Actions)),
		Sampling:          samplingAnswer(ctx, &x, r.CatchPointsOnBoom),
		Outliers:          r.outliersAnswer(ctx, x.Outliers),
		Warnings:          r.warnings(ctx, &x),
		Cautions:          catchCautions.in(ctx),
		origins:           r.origins,
	}
	if x.SprayPressure != 0 {
		a.SprayPressure = wire.In(x.SprayPressure, units.pressure)
		if r.SprayPressure.Given() {
			a.SprayPressure = r.SprayPressure
		}
	}
	if x.RatedFlowRateAtPressure != 0 {
		a.RatedFlowRateAtPressure = wire.In(x.RatedFlowRateAtPressure, units.flow)
	}
	if x.ReplaceAllFrom == 0 {
		a.ReplaceAllAbove = percent(x.ReplaceAllAbove)
	}
	if x.AcceptableFlowRate != (calc.FlowRange{}) {
		a.AcceptableFlowRate = boundsIn(&x, x.AcceptableFlowRate.Low, x.AcceptableFlowRate.High, units.flow)
	}
	if x.MeanNozzleFlowRate != 0 {
		a.MeanNozzleFlowRate = wire.In(x.MeanNozzleFlowRate, units.flow)
	}
	if x.HasMean {
		a.CoefficientOfVariation = percent(x.CoefficientOfVariation)
	}
	if x.LargestHiddenDeviation != 0 {
		a.LargestHiddenDeviation = percent(x.LargestHiddenDeviation)
	}
	for i := range x.Catches {
		a.Catches[i] = r.catchAnswer(i, &x, units)
	}
	if u := x.Uncertainty; u != nil {
		a.Uncertainty = &RoundUncertainty{working.UncertaintyIn(&u.MeanNozzleFlowRate, units.flow), working.UncertaintyIn(&u.CoefficientOfVariation, unit.IDPct)}
		known := make([]CatchUncertainty, len(u.Catches))
		for i := range u.Catches {
			c := &u.Catches[i]
			a.Catches[i].ConformanceAnswer = conformance(ctx, c.Within)
			known[i] = CatchUncertainty{
				working.UncertaintyIn(&c.NozzleFlowRate, units.flow), working.UncertaintyIn(&c.DeviationFromRated, unit.IDPct), working.UncertaintyIn(&c.DeviationFromMean, unit.IDPct),
			}
			a.Catches[i].Uncertainty = &known[i]
		}
	}
	a.SideMeans = slices.Grow(a.SideMeans, len(x.Sides)) // stays nil when there are none
	for _, s := range x.Sides {
		a.SideMeans = append(a.SideMeans, SideMeanAnswer{
			s.Position, s.Catches, wire.In(s.MeanNozzleFlowRate, units.flow), percent(s.DeviationFromMean),
		})
	}
	for i, action := range x.Actions {
		a.Actions[i] = ActionAnswer{Pointer: r.origins.pointer(action.Catch), Action: action.Do, Text: r.actionText(lang, &x, action)}
		if action.Catch >= 0 && action.Do != calc.CheckSize {
			a.Actions[i].Label = r.Catches[action.Catch].Label
		}
	}
	return a
}

func (r *NozzleAcceptanceRequest) catchAnswer(i int, x *calc.NozzleAcceptanceResult, units *resultUnits) AcceptanceCatchAnswer {
	c, q := &r.Catches[i], &x.Catches[i]
	a := AcceptanceCatchAnswer{
		Label:          c.Label,
		FlowRate:       wire.In(q.FlowRate, units.flow),
		NozzleFlowRate: wire.In(q.NozzleFlowRate, units.flow),
		Status:         q.Status,
		FirstStatus:    q.FirstStatus,
	}
	if q.AcceptableFlowRate != (calc.FlowRange{}) { // else rating and mean lie so far apart that nothing is
		a.AcceptableFlowRate = boundsIn(x, q.AcceptableFlowRate.Low, q.AcceptableFlowRate.High, units.flow)
		a.AcceptableVolume = boundsIn(x, q.AcceptableVolume.Low, q.AcceptableVolume.High, c.Volume.Unit)
	}
	if q.NozzleFlowRateAtPressure != q.NozzleFlowRate {
		a.NozzleFlowRateAtPressure = wire.In(q.NozzleFlowRateAtPressure, units.flow)
	}
	if q.RatedFlowRateAtPressure != 0 {
		a.RatedFlowRateAtPressure = wire.In(q.RatedFlowRateAtPressure, units.flow)
	}
	if x.HasRating {
		a.DeviationFromRated = percent(q.DeviationFromRated)
	}
	if q.InMean {
		a.DeviationFromMean = percent(q.DeviationFromMean)
	}
	if q.LargestHiddenDeviation != 0 {
		a.LargestHiddenDeviation = percent(q.LargestHiddenDeviation)
	}
	return a
}

// answer is the tolerance in the form that it was asked for.
func (t *ToleranceRequest) answer(x *calc.NozzleAcceptanceResult) ToleranceAnswer {
	if t.Rated == nil && t.Mean == nil {
		return ToleranceAnswer{Limit: percent(x.Limit), Basis: x.Basis}
	}
	return ToleranceAnswer{Rated: limitsAnswer(x.Rated), Mean: limitsAnswer(x.Mean)}
}

func limitsAnswer(l calc.Limits) (a OutputLimitsAnswer) {
	if l.Below != 0 {
		a.Below = percent(l.Below)
	}
	if l.Above != 0 {
		a.Above = percent(l.Above)
	}
	return a
}

// boundsIn are the ends that something limits; the low one may be 0 then.
func boundsIn[T ~float64](x *calc.NozzleAcceptanceResult, low, high T, in unit.ID) (b BoundsAnswer) {
	if x.Rated.Below != 0 || x.Mean.Below != 0 {
		b.Low = wire.In(low, in)
	}
	if high != 0 {
		b.High = wire.In(high, in)
	}
	return b
}
