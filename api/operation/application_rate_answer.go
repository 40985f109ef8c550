package operation

import (
	"context"

	"wetrun/api/wire"
	"wetrun/api/working"
	"wetrun/calc"
	"wetrun/calc/certainty"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// ApplicationRateAnswer is the answer of POST /v1/application-rate: all four that make a rate,
// and what follows from them.
type ApplicationRateAnswer struct {
	SolvedFor             calc.Solved   `json:"solvedFor"`
	NozzleFlowRate        wire.Quantity `json:"nozzleFlowRate"`
	GroundSpeed           wire.Quantity `json:"groundSpeed"`
	SprayedWidthPerNozzle wire.Quantity `json:"sprayedWidthPerNozzle"`
	ApplicationRate       wire.Quantity `json:"applicationRate"`

	Nozzle                  *NozzleAnswer `json:"nozzle,omitzero"`
	Width                   wire.Quantity `json:"width,omitzero"`
	FieldApplicationRate    wire.Quantity `json:"fieldApplicationRate,omitzero"`
	WaterEquivalentFlowRate wire.Quantity `json:"waterEquivalentFlowRate,omitzero"`

	TargetApplicationRate wire.Quantity  `json:"targetApplicationRate,omitzero"`
	RateBasis             calc.RateBasis `json:"rateBasis,omitzero"`
	RateTolerance         wire.Quantity  `json:"rateTolerance,omitzero"`
	Deviation             wire.Quantity  `json:"deviation,omitzero"`
	WithinTolerance       *bool          `json:"withinTolerance,omitzero"`
	working.ConformanceAnswer
	LabelConformance  *working.ConformanceAnswer `json:"labelConformance,omitzero"`
	Uncertainty       *RateUncertainty           `json:"uncertainty,omitzero"`
	LabelMaximum      wire.Quantity              `json:"labelMaximum,omitzero"`
	OverLabelMaximum  *bool                      `json:"overLabelMaximum,omitzero"`
	LabelMinimum      wire.Quantity              `json:"labelMinimum,omitzero"`
	UnderLabelMinimum *bool                      `json:"underLabelMinimum,omitzero"`
	Cautions          []Notice                   `json:"cautions"`
	Warnings          []Warning                  `json:"warnings,omitzero"`
	working.Explained
}

func applicationRateAnswer(ctx context.Context, r *ApplicationRateRequest, result calc.ApplicationRateResult) ApplicationRateAnswer {
	units := r.units()
	a := ApplicationRateAnswer{
		SolvedFor:             result.SolvedFor,
		NozzleFlowRate:        r.NozzleFlowRate.Or(wire.In(result.NozzleFlowRate, units.flow)),
		GroundSpeed:           r.GroundSpeed.Or(wire.In(result.GroundSpeed, units.speed)),
		SprayedWidthPerNozzle: r.SprayedWidthPerNozzle.Or(wire.In(result.SprayedWidthPerNozzle, units.width)),
		ApplicationRate:       r.ApplicationRate.Or(wire.In(result.ApplicationRate, units.rate)),
		Nozzle:                r.Nozzle.answer(unit.Pressure(r.SprayPressure.SI())),
		TargetApplicationRate: r.TargetApplicationRate,
		RateBasis:             r.RateBasis,
		WithinTolerance:       within(result.Verdict),
		LabelMaximum:          r.LabelMaximum,
		LabelMinimum:          r.LabelMinimum,
		Cautions:              rateCautions.in(ctx),
		Warnings:              warnings(ctx, result.Warnings),
	}
	if result.Width != 0 {
		a.Width = r.Width.Or(wire.In(result.Width, units.width))
	}
	if result.FieldApplicationRate != 0 {
		a.FieldApplicationRate = wire.In(result.FieldApplicationRate, units.rate)
	}
	if result.WaterEquivalentFlowRate != 0 {
		a.WaterEquivalentFlowRate = wire.In(result.WaterEquivalentFlowRate, units.flow)
	}
	if result.Verdict != finding.NotJudged {
		a.Deviation = percent(result.Deviation)
		a.RateTolerance = r.RateTolerance.Or(percent(result.RateTolerance))
	}
	a.OverLabelMaximum, a.UnderLabelMinimum = breaksLabel(result.LabelVerdict), breaksLabel(result.LabelMinimumVerdict)
	a.uncertain(ctx, &result, units)
	return a
}

// RateUncertainty is how well the members of its names are known.
type RateUncertainty struct {
	NozzleFlowRate        working.UncertaintyAnswer `json:"nozzleFlowRate,omitzero"`
	GroundSpeed           working.UncertaintyAnswer `json:"groundSpeed,omitzero"`
	SprayedWidthPerNozzle working.UncertaintyAnswer `json:"sprayedWidthPerNozzle,omitzero"`
	ApplicationRate       working.UncertaintyAnswer `json:"applicationRate,omitzero"`
	FieldApplicationRate  working.UncertaintyAnswer `json:"fieldApplicationRate,omitzero"`
	Deviation             working.UncertaintyAnswer `json:"deviation,omitzero"`

	rate working.UncertaintyAnswer // of the rate where it was given, for the working
}

// uncertain adds how well the rate, or what was solved for, is known.
func (a *ApplicationRateAnswer) uncertain(ctx context.Context, x *calc.ApplicationRateResult, units *resultUnits) {
	u := x.Uncertainty
	if u == nil {
		return
	}
	a.Uncertainty = &RateUncertainty{
		FieldApplicationRate: working.UncertaintyIn(&u.FieldApplicationRate, units.rate),
		Deviation:            working.UncertaintyIn(&u.Deviation, unit.IDPct),
		rate:                 working.UncertaintyIn(&u.ApplicationRate, units.rate),
	}
	switch x.SolvedFor {
	case calc.SolvedNozzleFlowRate:
		a.Uncertainty.NozzleFlowRate = working.UncertaintyIn(&u.Solved, units.flow)
	case calc.SolvedGroundSpeed:
		a.Uncertainty.GroundSpeed = working.UncertaintyIn(&u.Solved, units.speed)
	case calc.SolvedSprayedWidthPerNozzle:
		a.Uncertainty.SprayedWidthPerNozzle = working.UncertaintyIn(&u.Solved, units.width)
	default:
		a.Uncertainty.ApplicationRate = working.UncertaintyIn(&u.Solved, units.rate)
	}
	a.ConformanceAnswer = conformance(ctx, u.Within)
	if u.UnderLabel.Conformance != certainty.ConformanceUnknown {
		label := conformance(ctx, u.UnderLabel)
		a.LabelConformance = &label
	}
}
