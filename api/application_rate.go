package api

import (
	"context"

	"wetrun/calc"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// ApplicationRateRequest is the body of POST /v1/application-rate: three of the
// four that make a rate.
type ApplicationRateRequest struct {
	NozzleFlowRate        Quantity       `json:"nozzleFlowRate,omitzero" is:"flow_rate"`
	Nozzle                NozzleRequest  `json:"nozzle,omitzero"`
	SprayPressure         Quantity       `json:"sprayPressure,omitzero" is:"pressure"`
	GroundSpeed           Quantity       `json:"groundSpeed,omitzero" is:"speed"`
	SprayedWidthPerNozzle Quantity       `json:"sprayedWidthPerNozzle,omitzero" is:"length"`
	Width                 Quantity       `json:"width,omitzero" is:"length"`
	Nozzles               int            `json:"nozzles,omitzero" range:"1..1000"`
	ApplicationRate       Quantity       `json:"applicationRate,omitzero" is:"application_rate"`
	RelativeDensity       Quantity       `json:"relativeDensity,omitzero" is:"ratio"`
	LiquidDensity         Quantity       `json:"liquidDensity,omitzero" is:"density"`
	RowSpacing            Quantity       `json:"rowSpacing,omitzero" is:"length"`
	TargetApplicationRate Quantity       `json:"targetApplicationRate,omitzero" is:"application_rate"`
	RateTolerance         Quantity       `json:"rateTolerance,omitzero" is:"ratio"`
	LabelMaximum          Quantity       `json:"labelMaximum,omitzero" is:"application_rate"`
	RateBasis             calc.RateBasis `json:"rateBasis,omitzero"`
	StandardUncertainties RateStandards  `json:"standardUncertainties,omitzero"`
	Results
}

// RateStandards are relative standard uncertainties of the four that make a rate.
type RateStandards struct {
	NozzleFlowRate        Quantity `json:"nozzleFlowRate,omitzero" is:"ratio"`
	GroundSpeed           Quantity `json:"groundSpeed,omitzero" is:"ratio"`
	SprayedWidthPerNozzle Quantity `json:"sprayedWidthPerNozzle,omitzero" is:"ratio"`
	ApplicationRate       Quantity `json:"applicationRate,omitzero" is:"ratio"`
}

func applicationRate(ctx context.Context, r *ApplicationRateRequest) (ApplicationRateAnswer, error) {
	result, err := calc.ApplicationRate(r.input())
	if err := combined(r.Nozzle.unusedSizeRating().Under(finding.Member("nozzle")), err); err != nil {
		return ApplicationRateAnswer{}, err
	}
	a := applicationRateAnswer(ctx, r, result)
	w := explaining(r.shows())
	r.work(w, &result, &a)
	a.Explained = w.answer()
	return a, nil
}

func (r *ApplicationRateRequest) input() calc.ApplicationRateInput {
	return calc.ApplicationRateInput{
		NozzleFlowRate:        unit.FlowRate(r.NozzleFlowRate.si()),
		Nozzle:                r.Nozzle.input(),
		SprayPressure:         unit.Pressure(r.SprayPressure.si()),
		GroundSpeed:           unit.Speed(r.GroundSpeed.si()),
		SprayedWidthPerNozzle: unit.Length(r.SprayedWidthPerNozzle.si()),
		Width:                 unit.Length(r.Width.si()),
		Nozzles:               r.Nozzles,
		ApplicationRate:       unit.ApplicationRate(r.ApplicationRate.si()),
		RelativeDensity:       unit.Ratio(r.RelativeDensity.si()),
		LiquidDensity:         unit.Density(r.LiquidDensity.si()),
		RowSpacing:            unit.Length(r.RowSpacing.si()),
		TargetApplicationRate: unit.ApplicationRate(r.TargetApplicationRate.si()),
		LabelMaximum:          unit.ApplicationRate(r.LabelMaximum.si()),
		RateTolerance:         unit.Ratio(r.RateTolerance.si()),
		RateBasis:             r.RateBasis,
		StandardUncertainties: calc.RateStandards{
			NozzleFlowRate:        unit.Ratio(r.StandardUncertainties.NozzleFlowRate.si()),
			GroundSpeed:           unit.Ratio(r.StandardUncertainties.GroundSpeed.si()),
			SprayedWidthPerNozzle: unit.Ratio(r.StandardUncertainties.SprayedWidthPerNozzle.si()),
			ApplicationRate:       unit.Ratio(r.StandardUncertainties.ApplicationRate.si()),
		},
	}
}
