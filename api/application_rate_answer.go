package api

import (
	"context"

	"wetrun/calc"
	"wetrun/calc/certainty"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// ApplicationRateAnswer is the answer: all four, and what follows from them.
type ApplicationRateAnswer struct {
	SolvedFor             calc.Solved `json:"solvedFor"`
	NozzleFlowRate        Quantity    `json:"nozzleFlowRate"`
	GroundSpeed           Quantity    `json:"groundSpeed"`
	SprayedWidthPerNozzle Quantity    `json:"sprayedWidthPerNozzle"`
	ApplicationRate       Quantity    `json:"applicationRate"`

	Nozzle                  *NozzleAnswer `json:"nozzle,omitzero"`
	Width                   Quantity      `json:"width,omitzero"`
	FieldApplicationRate    Quantity      `json:"fieldApplicationRate,omitzero"`
	WaterEquivalentFlowRate Quantity      `json:"waterEquivalentFlowRate,omitzero"`

	TargetApplicationRate Quantity       `json:"targetApplicationRate,omitzero"`
	RateBasis             calc.RateBasis `json:"rateBasis,omitzero"`
	RateTolerance         Quantity       `json:"rateTolerance,omitzero"`
	Deviation             Quantity       `json:"deviation,omitzero"`
	WithinTolerance       *bool          `json:"withinTolerance,omitzero"`
	ConformanceAnswer
	LabelConformance *ConformanceAnswer `json:"labelConformance,omitzero"`
	Uncertainty      *RateUncertainty   `json:"uncertainty,omitzero"`
	LabelMaximum     Quantity           `json:"labelMaximum,omitzero"`
	OverLabelMaximum *bool              `json:"overLabelMaximum,omitzero"`
	Cautions         []notice           `json:"cautions"`
	Warnings         []warning          `json:"warnings,omitzero"`
	Explained
}

func applicationRateAnswer(ctx context.Context, r *ApplicationRateRequest, result calc.ApplicationRateResult) ApplicationRateAnswer {
	units := r.units()
	a := ApplicationRateAnswer{
		SolvedFor:             result.SolvedFor,
		NozzleFlowRate:        r.NozzleFlowRate.or(in(result.NozzleFlowRate, units.flow)),
		GroundSpeed:           r.GroundSpeed.or(in(result.GroundSpeed, units.speed)),
		SprayedWidthPerNozzle: r.SprayedWidthPerNozzle.or(in(result.SprayedWidthPerNozzle, units.width)),
		ApplicationRate:       r.ApplicationRate.or(in(result.ApplicationRate, units.rate)),
		Nozzle:                r.Nozzle.answer(unit.Pressure(r.SprayPressure.si())),
		TargetApplicationRate: r.TargetApplicationRate,
		RateBasis:             r.RateBasis,
		WithinTolerance:       within(result.Verdict),
		LabelMaximum:          r.LabelMaximum,
		Cautions:              rateCautions.in(ctx),
		Warnings:              warnings(ctx, result.Warnings),
	}
	if result.Width != 0 {
		a.Width = r.Width.or(in(result.Width, units.width))
	}
	if result.FieldApplicationRate != 0 {
		a.FieldApplicationRate = in(result.FieldApplicationRate, units.rate)
	}
	if result.WaterEquivalentFlowRate != 0 {
		a.WaterEquivalentFlowRate = in(result.WaterEquivalentFlowRate, units.flow)
	}
	if result.Verdict != finding.NotJudged {
		a.Deviation = percent(result.Deviation)
		a.RateTolerance = r.RateTolerance.or(percent(result.RateTolerance))
	}
	a.OverLabelMaximum = overLabel(result.LabelVerdict)
	a.uncertain(ctx, &result, units)
	return a
}

// RateUncertainty is how well the members of its names are known.
type RateUncertainty struct {
	NozzleFlowRate        UncertaintyAnswer `json:"nozzleFlowRate,omitzero"`
	GroundSpeed           UncertaintyAnswer `json:"groundSpeed,omitzero"`
	SprayedWidthPerNozzle UncertaintyAnswer `json:"sprayedWidthPerNozzle,omitzero"`
	ApplicationRate       UncertaintyAnswer `json:"applicationRate,omitzero"`
	FieldApplicationRate  UncertaintyAnswer `json:"fieldApplicationRate,omitzero"`
	Deviation             UncertaintyAnswer `json:"deviation,omitzero"`

	rate UncertaintyAnswer // of the rate where it was given, for the working
}

// uncertain adds how well the rate, or what was solved for, is known.
func (a *ApplicationRateAnswer) uncertain(ctx context.Context, x *calc.ApplicationRateResult, units *resultUnits) {
	u := x.Uncertainty
	if u == nil {
		return
	}
	a.Uncertainty = &RateUncertainty{
		FieldApplicationRate: uncertain(&u.FieldApplicationRate, units.rate),
		Deviation:            uncertain(&u.Deviation, unit.IDPct),
		rate:                 uncertain(&u.ApplicationRate, units.rate),
	}
	switch x.SolvedFor {
	case calc.SolvedNozzleFlowRate:
		a.Uncertainty.NozzleFlowRate = uncertain(&u.Solved, units.flow)
	case calc.SolvedGroundSpeed:
		a.Uncertainty.GroundSpeed = uncertain(&u.Solved, units.speed)
	case calc.SolvedSprayedWidthPerNozzle:
		a.Uncertainty.SprayedWidthPerNozzle = uncertain(&u.Solved, units.width)
	default:
		a.Uncertainty.ApplicationRate = uncertain(&u.Solved, units.rate)
	}
	a.ConformanceAnswer = conformance(ctx, u.Within)
	if u.UnderLabel.Conformance != certainty.ConformanceUnknown {
		label := conformance(ctx, u.UnderLabel)
		a.LabelConformance = &label
	}
}

// rateCautions go with every answer that speaks of a rate.
var rateCautions = cautionsOf("label_is_law", "local_rules", "clean_water")
