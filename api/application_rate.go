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
	NozzleFlowRate        Quantity      `json:"nozzleFlowRate,omitzero"`
	Nozzle                NozzleRequest `json:"nozzle,omitzero"`
	SprayPressure         Quantity      `json:"sprayPressure,omitzero"`
	GroundSpeed           Quantity      `json:"groundSpeed,omitzero"`
	SprayedWidthPerNozzle Quantity      `json:"sprayedWidthPerNozzle,omitzero"`
	Width                 Quantity      `json:"width,omitzero"`
	Nozzles               int           `json:"nozzles,omitzero"`
	ApplicationRate       Quantity      `json:"applicationRate,omitzero"`
	RelativeDensity       Quantity      `json:"relativeDensity,omitzero"`
	LiquidDensity         Quantity      `json:"liquidDensity,omitzero"`
	RowSpacing            Quantity      `json:"rowSpacing,omitzero"`
	TargetApplicationRate Quantity      `json:"targetApplicationRate,omitzero"`
	RateTolerance         Quantity      `json:"rateTolerance,omitzero"`
	LabelMaximum          Quantity      `json:"labelMaximum,omitzero"`
	RateBasis             string        `json:"rateBasis,omitzero"`
	StandardUncertainties RateStandards `json:"standardUncertainties,omitzero"`
	Results
}

// RateStandards are relative standard uncertainties of the four that make a rate.
type RateStandards struct {
	NozzleFlowRate        Quantity `json:"nozzleFlowRate,omitzero"`
	GroundSpeed           Quantity `json:"groundSpeed,omitzero"`
	SprayedWidthPerNozzle Quantity `json:"sprayedWidthPerNozzle,omitzero"`
	ApplicationRate       Quantity `json:"applicationRate,omitzero"`
}

var rateStandardsTable = objectOf(
	quantity("nozzleFlowRate", func(s *RateStandards) *Quantity { return &s.NozzleFlowRate }, unit.KindRatio),
	quantity("groundSpeed", func(s *RateStandards) *Quantity { return &s.GroundSpeed }, unit.KindRatio),
	quantity("sprayedWidthPerNozzle", func(s *RateStandards) *Quantity { return &s.SprayedWidthPerNozzle }, unit.KindRatio),
	quantity("applicationRate", func(s *RateStandards) *Quantity { return &s.ApplicationRate }, unit.KindRatio),
)

// The bases of a rate, as on the wire.
const (
	basisTreated = "treated"
	basisField   = "field"
)

var rateBases = map[string]calc.RateBasis{basisTreated: calc.RateBasisTreated, basisField: calc.RateBasisField}

var applicationRateTable = objectOf(
	quantity("nozzleFlowRate", func(r *ApplicationRateRequest) *Quantity { return &r.NozzleFlowRate }, unit.KindFlowRate),
	nested("nozzle", func(r *ApplicationRateRequest) *NozzleRequest { return &r.Nozzle }, nozzleTable),
	quantity("sprayPressure", func(r *ApplicationRateRequest) *Quantity { return &r.SprayPressure }, unit.KindPressure),
	quantity("groundSpeed", func(r *ApplicationRateRequest) *Quantity { return &r.GroundSpeed }, unit.KindSpeed),
	quantity("sprayedWidthPerNozzle", func(r *ApplicationRateRequest) *Quantity { return &r.SprayedWidthPerNozzle }, unit.KindLength),
	quantity("width", func(r *ApplicationRateRequest) *Quantity { return &r.Width }, unit.KindLength),
	count("nozzles", func(r *ApplicationRateRequest) *int { return &r.Nozzles }, 1, mostNozzles),
	quantity("applicationRate", func(r *ApplicationRateRequest) *Quantity { return &r.ApplicationRate }, unit.KindApplicationRate),
	quantity("relativeDensity", func(r *ApplicationRateRequest) *Quantity { return &r.RelativeDensity }, unit.KindRatio),
	quantity("liquidDensity", func(r *ApplicationRateRequest) *Quantity { return &r.LiquidDensity }, unit.KindDensity),
	quantity("rowSpacing", func(r *ApplicationRateRequest) *Quantity { return &r.RowSpacing }, unit.KindLength),
	quantity("targetApplicationRate", func(r *ApplicationRateRequest) *Quantity { return &r.TargetApplicationRate }, unit.KindApplicationRate),
	quantity("rateTolerance", func(r *ApplicationRateRequest) *Quantity { return &r.RateTolerance }, unit.KindRatio),
	quantity("labelMaximum", func(r *ApplicationRateRequest) *Quantity { return &r.LabelMaximum }, unit.KindApplicationRate),
	oneOf("rateBasis", func(r *ApplicationRateRequest) *string { return &r.RateBasis }, basisTreated, basisField),
	nested("standardUncertainties", func(r *ApplicationRateRequest) *RateStandards { return &r.StandardUncertainties }, rateStandardsTable),
	results(func(r *ApplicationRateRequest) *Results { return &r.Results }),
	showing(func(r *ApplicationRateRequest) *Showing { return &r.Showing }),
)

func applicationRate(ctx context.Context, r *ApplicationRateRequest) (ApplicationRateResponse, error) {
	result, err := calc.ApplicationRate(r.input())
	if err := combined(r.Nozzle.unread().Under(finding.Member("nozzle")), err); err != nil {
		return ApplicationRateResponse{}, err
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
		RateBasis:             rateBases[r.RateBasis],
		StandardUncertainties: calc.RateStandards{
			NozzleFlowRate:        unit.Ratio(r.StandardUncertainties.NozzleFlowRate.si()),
			GroundSpeed:           unit.Ratio(r.StandardUncertainties.GroundSpeed.si()),
			SprayedWidthPerNozzle: unit.Ratio(r.StandardUncertainties.SprayedWidthPerNozzle.si()),
			ApplicationRate:       unit.Ratio(r.StandardUncertainties.ApplicationRate.si()),
		},
	}
}
