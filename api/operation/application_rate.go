package operation

import (
	"context"

	"wetrun/api/wire"
	"wetrun/api/working"
	"wetrun/calc"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// ApplicationRateRequest is the body of POST /v1/application-rate: three of the
// four that make a rate.
type ApplicationRateRequest struct {
	NozzleFlowRate        wire.Quantity  `json:"nozzleFlowRate,omitzero" is:"flow_rate"`
	Nozzle                NozzleRequest  `json:"nozzle,omitzero"`
	SprayPressure         wire.Quantity  `json:"sprayPressure,omitzero" is:"pressure"`
	GroundSpeed           wire.Quantity  `json:"groundSpeed,omitzero" is:"speed"`
	SprayedWidthPerNozzle wire.Quantity  `json:"sprayedWidthPerNozzle,omitzero" is:"length"`
	Width                 wire.Quantity  `json:"width,omitzero" is:"length"`
	Nozzles               int            `json:"nozzles,omitzero" range:"1..1000"`
	ApplicationRate       wire.Quantity  `json:"applicationRate,omitzero" is:"application_rate"`
	RelativeDensity       wire.Quantity  `json:"relativeDensity,omitzero" is:"ratio"`
	LiquidDensity         wire.Quantity  `json:"liquidDensity,omitzero" is:"density"`
	RowSpacing            wire.Quantity  `json:"rowSpacing,omitzero" is:"length"`
	TargetApplicationRate wire.Quantity  `json:"targetApplicationRate,omitzero" is:"application_rate"`
	RateTolerance         wire.Quantity  `json:"rateTolerance,omitzero" is:"ratio"`
	LabelMaximum          wire.Quantity  `json:"labelMaximum,omitzero" is:"application_rate"`
	LabelMinimum          wire.Quantity  `json:"labelMinimum,omitzero" is:"application_rate"`
	RateBasis             calc.RateBasis `json:"rateBasis,omitzero"`
	StandardUncertainties RateStandards  `json:"standardUncertainties,omitzero"`
	Results
}

// RateStandards are relative standard uncertainties of the four that make a rate.
type RateStandards struct {
	NozzleFlowRate        wire.Quantity `json:"nozzleFlowRate,omitzero" is:"ratio"`
	GroundSpeed           wire.Quantity `json:"groundSpeed,omitzero" is:"ratio"`
	SprayedWidthPerNozzle wire.Quantity `json:"sprayedWidthPerNozzle,omitzero" is:"ratio"`
	ApplicationRate       wire.Quantity `json:"applicationRate,omitzero" is:"ratio"`
}

func applicationRate(ctx context.Context, r *ApplicationRateRequest) (ApplicationRateAnswer, error) {
	result, err := calc.ApplicationRate(r.input())
	if err := wire.Combined(r.Nozzle.unusedSizeRating().Under(finding.Member("nozzle")), err); err != nil {
		return ApplicationRateAnswer{}, err
	}
	a := applicationRateAnswer(ctx, r, result)
	w := working.New(r.shows())
	r.work(w, &result, &a)
	a.Explained = w.Answer()
	return a, nil
}

func (r *ApplicationRateRequest) input() calc.ApplicationRateInput {
	return calc.ApplicationRateInput{
		NozzleFlowRate:        unit.FlowRate(r.NozzleFlowRate.SI()),
		Nozzle:                r.Nozzle.input(),
		SprayPressure:         unit.Pressure(r.SprayPressure.SI()),
		GroundSpeed:           unit.Speed(r.GroundSpeed.SI()),
		SprayedWidthPerNozzle: unit.Length(r.SprayedWidthPerNozzle.SI()),
		Width:                 unit.Length(r.Width.SI()),
		Nozzles:               r.Nozzles,
		ApplicationRate:       unit.ApplicationRate(r.ApplicationRate.SI()),
		RelativeDensity:       unit.Ratio(r.RelativeDensity.SI()),
		LiquidDensity:         unit.Density(r.LiquidDensity.SI()),
		RowSpacing:            unit.Length(r.RowSpacing.SI()),
		TargetApplicationRate: unit.ApplicationRate(r.TargetApplicationRate.SI()),
		LabelMaximum:          unit.ApplicationRate(r.LabelMaximum.SI()),
		LabelMinimum:          unit.ApplicationRate(r.LabelMinimum.SI()),
		RateTolerance:         unit.Ratio(r.RateTolerance.SI()),
		RateBasis:             r.RateBasis,
		StandardUncertainties: calc.RateStandards{
			NozzleFlowRate:        unit.Ratio(r.StandardUncertainties.NozzleFlowRate.SI()),
			GroundSpeed:           unit.Ratio(r.StandardUncertainties.GroundSpeed.SI()),
			SprayedWidthPerNozzle: unit.Ratio(r.StandardUncertainties.SprayedWidthPerNozzle.SI()),
			ApplicationRate:       unit.Ratio(r.StandardUncertainties.ApplicationRate.SI()),
		},
	}
}
