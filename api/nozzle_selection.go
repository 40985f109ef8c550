package api

import (
	"context"

	"wetrun/calc"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// NozzleSelectionRequest is the body of POST /v1/nozzle-selection.
type NozzleSelectionRequest struct {
	TargetApplicationRate Quantity              `json:"targetApplicationRate" validate:"required"`
	GroundSpeed           Quantity              `json:"groundSpeed,omitzero"`
	SpeedRange            Range                 `json:"speedRange,omitzero"`
	SprayedWidthPerNozzle Quantity              `json:"sprayedWidthPerNozzle,omitzero"`
	Width                 Quantity              `json:"width,omitzero"`
	Nozzles               int                   `json:"nozzles,omitzero"`
	PressureRange         Range                 `json:"pressureRange" validate:"required"`
	RelativeDensity       Quantity              `json:"relativeDensity,omitzero"`
	LiquidDensity         Quantity              `json:"liquidDensity,omitzero"`
	Sizes                 []string              `json:"sizes,omitzero"`
	SizeRating            string                `json:"sizeRating,omitzero"`
	Shelf                 []ShelfNozzleRequest  `json:"shelf,omitzero"`
	DropletChart          []DropletEntryRequest `json:"dropletChart,omitzero"`
	AllowedDropletClasses []string              `json:"allowedDropletClasses,omitzero"`
	Results
}

// ShelfNozzleRequest is a nozzle at hand.
type ShelfNozzleRequest struct {
	Label         string   `json:"label,omitzero"`
	RatedFlowRate Quantity `json:"ratedFlowRate"`
	RatedPressure Quantity `json:"ratedPressure"`
	PressureRange Range    `json:"pressureRange,omitzero"`
}

// DropletEntryRequest is one line of a droplet chart.
type DropletEntryRequest struct {
	Size          string `json:"size,omitzero"`
	Label         string `json:"label,omitzero"`
	PressureRange Range  `json:"pressureRange"`
	DropletClass  string `json:"dropletClass"`
}

var shelfTable = objectOf(
	label("label", func(s *ShelfNozzleRequest) *string { return &s.Label }, longestLabel),
	require(quantity("ratedFlowRate", func(s *ShelfNozzleRequest) *Quantity { return &s.RatedFlowRate }, unit.KindFlowRate)),
	require(quantity("ratedPressure", func(s *ShelfNozzleRequest) *Quantity { return &s.RatedPressure }, unit.KindPressure)),
	nested("pressureRange", func(s *ShelfNozzleRequest) *Range { return &s.PressureRange }, pressureRangeTable),
)

var dropletEntryTable = objectOf(
	oneOf("size", func(e *DropletEntryRequest) *string { return &e.Size }, sizeNames()...),
	label("label", func(e *DropletEntryRequest) *string { return &e.Label }, longestLabel),
	require(nested("pressureRange", func(e *DropletEntryRequest) *Range { return &e.PressureRange }, pressureRangeTable)),
	require(oneOf("dropletClass", func(e *DropletEntryRequest) *string { return &e.DropletClass }, dropletWords[1:]...)),
)

var nozzleSelectionTable = objectOf(
	quantity("targetApplicationRate", func(r *NozzleSelectionRequest) *Quantity { return &r.TargetApplicationRate }, unit.KindApplicationRate),
	quantity("groundSpeed", func(r *NozzleSelectionRequest) *Quantity { return &r.GroundSpeed }, unit.KindSpeed),
	nested("speedRange", func(r *NozzleSelectionRequest) *Range { return &r.SpeedRange }, speedRangeTable),
	quantity("sprayedWidthPerNozzle", func(r *NozzleSelectionRequest) *Quantity { return &r.SprayedWidthPerNozzle }, unit.KindLength),
	quantity("width", func(r *NozzleSelectionRequest) *Quantity { return &r.Width }, unit.KindLength),
	count("nozzles", func(r *NozzleSelectionRequest) *int { return &r.Nozzles }, 1, mostNozzles),
	nested("pressureRange", func(r *NozzleSelectionRequest) *Range { return &r.PressureRange }, pressureRangeTable),
	quantity("relativeDensity", func(r *NozzleSelectionRequest) *Quantity { return &r.RelativeDensity }, unit.KindRatio),
	quantity("liquidDensity", func(r *NozzleSelectionRequest) *Quantity { return &r.LiquidDensity }, unit.KindDensity),
	wordList("sizes", func(r *NozzleSelectionRequest) *[]string { return &r.Sizes }, 1, len(sizeNames()), sizeNames()...),
	oneOf("sizeRating", func(r *NozzleSelectionRequest) *string { return &r.SizeRating }, ratingISO3Bar, ratingUS40PSI),
	list("shelf", func(r *NozzleSelectionRequest) *[]ShelfNozzleRequest { return &r.Shelf }, 1, mostShelf, shelfTable),
	list("dropletChart", func(r *NozzleSelectionRequest) *[]DropletEntryRequest { return &r.DropletChart }, 1, mostDropletEntries, dropletEntryTable),
	wordList("allowedDropletClasses", func(r *NozzleSelectionRequest) *[]string { return &r.AllowedDropletClasses }, 1, len(dropletWords)-1, dropletWords[1:]...),
	results(func(r *NozzleSelectionRequest) *Results { return &r.Results }),
	showing(func(r *NozzleSelectionRequest) *Showing { return &r.Showing }),
)

func nozzleSelection(ctx context.Context, r *NozzleSelectionRequest) (NozzleSelectionResponse, error) {
	var unread finding.Invalid
	if r.SizeRating != "" && len(r.Shelf) > 0 { // no size is read by it; calc cannot tell
		unread = finding.Invalid{{Place: finding.Member("sizeRating"), Code: finding.CodeConflict, Because: finding.Member("shelf")}}
	}
	result, err := calc.NozzleSelection(r.input())
	if err := combined(unread, err); err != nil {
		return NozzleSelectionResponse{}, err
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
		SizeRating:            sizeRating(r.SizeRating),
	}
	for _, s := range r.Shelf {
		in.Shelf = append(in.Shelf, calc.ShelfNozzle{
			Label: s.Label, RatedFlowRate: unit.FlowRate(s.RatedFlowRate.si()), RatedPressure: unit.Pressure(s.RatedPressure.si()),
			PressureRange: pressureRange(s.PressureRange),
		})
	}
	for _, e := range r.DropletChart {
		in.DropletChart = append(in.DropletChart, calc.DropletEntry{
			Size: e.Size, Label: e.Label, PressureRange: pressureRange(e.PressureRange), DropletClass: dropletClass(e.DropletClass),
		})
	}
	for _, word := range r.AllowedDropletClasses {
		in.AllowedDropletClasses = append(in.AllowedDropletClasses, dropletClass(word))
	}
	return in
}
