package operation

import (
	"context"

	"wetrun/api/wire"
	"wetrun/api/working"
	"wetrun/calc"
	"wetrun/calc/unit"
)

// NozzleSelectionRequest is the body of POST /v1/nozzle-selection.
type NozzleSelectionRequest struct {
	TargetApplicationRate wire.Quantity         `json:"targetApplicationRate" validate:"required" is:"application_rate"`
	GroundSpeed           wire.Quantity         `json:"groundSpeed,omitzero" is:"speed"`
	SpeedRange            wire.Range            `json:"speedRange,omitzero" is:"speed"`
	SprayedWidthPerNozzle wire.Quantity         `json:"sprayedWidthPerNozzle,omitzero" is:"length"`
	Width                 wire.Quantity         `json:"width,omitzero" is:"length"`
	Nozzles               int                   `json:"nozzles,omitzero" range:"1..1000"`
	PressureRange         wire.Range            `json:"pressureRange" validate:"required" is:"pressure"`
	RelativeDensity       wire.Quantity         `json:"relativeDensity,omitzero" is:"ratio"`
	LiquidDensity         wire.Quantity         `json:"liquidDensity,omitzero" is:"density"`
	Sizes                 []calc.SizeName       `json:"sizes,omitzero"`
	SizeRating            calc.SizeRating       `json:"sizeRating,omitzero"`
	Shelf                 []ShelfNozzleRequest  `json:"shelf,omitzero" len:"1..50"`
	DropletChart          []DropletEntryRequest `json:"dropletChart,omitzero" len:"1..200"`
	AllowedDropletClasses []calc.DropletClass   `json:"allowedDropletClasses,omitzero"`
	Results
}

// ShelfNozzleRequest is a nozzle at hand.
type ShelfNozzleRequest struct {
	Label         string        `json:"label,omitzero"`
	RatedFlowRate wire.Quantity `json:"ratedFlowRate" validate:"required" is:"flow_rate"`
	RatedPressure wire.Quantity `json:"ratedPressure" validate:"required" is:"pressure"`
	PressureRange wire.Range    `json:"pressureRange,omitzero" is:"pressure"`
}

// DropletEntryRequest is one line of a droplet chart.
type DropletEntryRequest struct {
	Size          calc.SizeName     `json:"size,omitzero"`
	Label         string            `json:"label,omitzero"`
	PressureRange wire.Range        `json:"pressureRange" validate:"required" is:"pressure"`
	DropletClass  calc.DropletClass `json:"dropletClass" validate:"required"`
}

func nozzleSelection(ctx context.Context, r *NozzleSelectionRequest) (NozzleSelectionAnswer, error) {
	result, err := calc.NozzleSelection(r.input())
	if err != nil {
		return NozzleSelectionAnswer{}, err
	}
	a := r.answer(ctx, result)
	w := working.New(r.shows())
	r.work(w, &result, &a)
	a.Explained = w.Answer()
	return a, nil
}

func (r *NozzleSelectionRequest) input() calc.NozzleSelectionInput {
	in := calc.NozzleSelectionInput{
		TargetApplicationRate: unit.ApplicationRate(r.TargetApplicationRate.SI()),
		GroundSpeed:           unit.Speed(r.GroundSpeed.SI()),
		SpeedRange:            calc.SpeedRange{Low: unit.Speed(r.SpeedRange.Low.SI()), High: unit.Speed(r.SpeedRange.High.SI())},
		SprayedWidthPerNozzle: unit.Length(r.SprayedWidthPerNozzle.SI()),
		Width:                 unit.Length(r.Width.SI()),
		Nozzles:               r.Nozzles,
		PressureRange:         pressureRange(r.PressureRange),
		RelativeDensity:       unit.Ratio(r.RelativeDensity.SI()),
		LiquidDensity:         unit.Density(r.LiquidDensity.SI()),
		Sizes:                 r.Sizes,
		SizeRating:            r.SizeRating,
		AllowedDropletClasses: r.AllowedDropletClasses,
	}
	for _, s := range r.Shelf {
		in.Shelf = append(in.Shelf, calc.ShelfNozzle{
			Label: s.Label, RatedFlowRate: unit.FlowRate(s.RatedFlowRate.SI()), RatedPressure: unit.Pressure(s.RatedPressure.SI()),
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
