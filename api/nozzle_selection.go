package api

import (
	"context"

	"wetrun/calc"
	"wetrun/calc/unit"
)

// NozzleSelectionRequest is the body of POST /v1/nozzle-selection.
type NozzleSelectionRequest struct {
	TargetApplicationRate Quantity              `json:"targetApplicationRate" validate:"required" is:"application_rate"`
	GroundSpeed           Quantity              `json:"groundSpeed,omitzero" is:"speed"`
	SpeedRange            Range                 `json:"speedRange,omitzero" is:"speed"`
	SprayedWidthPerNozzle Quantity              `json:"sprayedWidthPerNozzle,omitzero" is:"length"`
	Width                 Quantity              `json:"width,omitzero" is:"length"`
	Nozzles               int                   `json:"nozzles,omitzero" range:"1..1000"`
	PressureRange         Range                 `json:"pressureRange" validate:"required" is:"pressure"`
	RelativeDensity       Quantity              `json:"relativeDensity,omitzero" is:"ratio"`
	LiquidDensity         Quantity              `json:"liquidDensity,omitzero" is:"density"`
	Sizes                 []calc.SizeName       `json:"sizes,omitzero"`
	SizeRating            calc.SizeRating       `json:"sizeRating,omitzero"`
	Shelf                 []ShelfNozzleRequest  `json:"shelf,omitzero" len:"1..50"`
	DropletChart          []DropletEntryRequest `json:"dropletChart,omitzero" len:"1..200"`
	AllowedDropletClasses []calc.DropletClass   `json:"allowedDropletClasses,omitzero"`
	Results
}

// ShelfNozzleRequest is a nozzle at hand.
type ShelfNozzleRequest struct {
	Label         string   `json:"label,omitzero"`
	RatedFlowRate Quantity `json:"ratedFlowRate" validate:"required" is:"flow_rate"`
	RatedPressure Quantity `json:"ratedPressure" validate:"required" is:"pressure"`
	PressureRange Range    `json:"pressureRange,omitzero" is:"pressure"`
}

// DropletEntryRequest is one line of a droplet chart.
type DropletEntryRequest struct {
	Size          calc.SizeName     `json:"size,omitzero"`
	Label         string            `json:"label,omitzero"`
	PressureRange Range             `json:"pressureRange" validate:"required" is:"pressure"`
	DropletClass  calc.DropletClass `json:"dropletClass" validate:"required"`
}

func nozzleSelection(ctx context.Context, r *NozzleSelectionRequest) (NozzleSelectionAnswer, error) {
	result, err := calc.NozzleSelection(r.input())
	if err != nil {
		return NozzleSelectionAnswer{}, err
	}
	a := r.answer(ctx, result)
	w := explaining(r.shows())
	r.work(w, &result, &a)
	a.Explained = w.answer()
	return a, nil
}

func (r *NozzleSelectionRequest) input() calc.NozzleSelectionInput {
	in := calc.NozzleSelectionInput{
		TargetApplicationRate: unit.ApplicationRate(r.TargetApplicationRate.si()),
		GroundSpeed:           unit.Speed(r.GroundSpeed.si()),
		SpeedRange:            calc.SpeedRange{Low: unit.Speed(r.SpeedRange.Low.si()), High: unit.Speed(r.SpeedRange.High.si())},
		SprayedWidthPerNozzle: unit.Length(r.SprayedWidthPerNozzle.si()),
		Width:                 unit.Length(r.Width.si()),
		Nozzles:               r.Nozzles,
		PressureRange:         pressureRange(r.PressureRange),
		RelativeDensity:       unit.Ratio(r.RelativeDensity.si()),
		LiquidDensity:         unit.Density(r.LiquidDensity.si()),
		Sizes:                 r.Sizes,
		SizeRating:            r.SizeRating,
		AllowedDropletClasses: r.AllowedDropletClasses,
	}
	for _, s := range r.Shelf {
		in.Shelf = append(in.Shelf, calc.ShelfNozzle{
			Label: s.Label, RatedFlowRate: unit.FlowRate(s.RatedFlowRate.si()), RatedPressure: unit.Pressure(s.RatedPressure.si()),
			PressureRange: pressureRange(s.PressureRange),
		})
	}
	for _, e := range r.DropletChart {
		in.DropletChart = append(in.DropletChart, calc.DropletEntry{
			Size: e.Size, Label: e.Label, PressureRange: pressureRange(e.PressureRange), DropletClass: e.DropletClass,
		})
	}
	return in
}
