package api

import (
	"slices"

	"wetrun/calc"
	"wetrun/calc/unit"
)

// mostDropletRows holds a row for each class of each nozzle, the present one too.
const mostDropletRows = 8 * (mostShelfNozzles + 1)

// DropletRowRequest is one line of a maker's droplet chart.
type DropletRowRequest struct {
	Label         string `json:"label,omitzero"`
	PressureRange Range  `json:"pressureRange"`
	DropletClass  string `json:"dropletClass"`
}

// dropletWords are the classes in the order of calc's constants; a request cannot
// name the first one.
var dropletWords = []string{
	"unknown", "extremely_fine", "very_fine", "fine", "medium", "coarse", "very_coarse", "extremely_coarse", "ultra_coarse",
}

var dropletRowTable = objectOf(
	label("label", func(d *DropletRowRequest) *string { return &d.Label }, longestLabel),
	require(nested("pressureRange", func(d *DropletRowRequest) *Range { return &d.PressureRange }, pressureRangeTable)),
	require(oneOf("dropletClass", func(d *DropletRowRequest) *string { return &d.DropletClass }, dropletWords[1:]...)),
)

var rateRangeTable = rangeTable(unit.KindApplicationRate)

// labelInput fills in what label and chart say of droplets and rate.
func (r *CorrectionsRequest) labelInput(in *calc.CorrectionsInput) {
	if len(r.DropletChart) > 0 {
		in.DropletChart = make([]calc.DropletEntry, len(r.DropletChart))
	}
	for i, d := range r.DropletChart {
		in.DropletChart[i] = calc.DropletEntry{
			Label: d.Label, PressureRange: pressureRange(d.PressureRange), DropletClass: dropletClass(d.DropletClass),
		}
	}
	for _, word := range r.AllowedDropletClasses {
		in.AllowedDropletClasses = append(in.AllowedDropletClasses, dropletClass(word))
	}
	in.SprayVolumeRange = calc.RateRange{
		Low: unit.ApplicationRate(r.SprayVolumeRange.Low.si()), High: unit.ApplicationRate(r.SprayVolumeRange.High.si()),
	}
}

// dropletClass is the class of a word; unknown for none.
func dropletClass(word string) calc.DropletClass {
	return calc.DropletClass(max(0, slices.Index(dropletWords, word)))
}
