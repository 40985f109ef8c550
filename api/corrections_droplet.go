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
	Nozzle       string   `json:"nozzle,omitzero"`
	Low          Quantity `json:"low"`
	High         Quantity `json:"high"`
	DropletClass string   `json:"dropletClass"`
}

// dropletWords are the classes in the order of calc's constants; a request cannot
// name the first one.
var dropletWords = []string{
	"unknown", "extremely_fine", "very_fine", "fine", "medium", "coarse", "very_coarse", "extremely_coarse", "ultra_coarse",
}

var dropletRowTable = objectOf(
	label("nozzle", func(d *DropletRowRequest) *string { return &d.Nozzle }, longestLabel),
	require(quantity("low", func(d *DropletRowRequest) *Quantity { return &d.Low }, unit.KindPressure)),
	require(quantity("high", func(d *DropletRowRequest) *Quantity { return &d.High }, unit.KindPressure)),
	require(oneOf("dropletClass", func(d *DropletRowRequest) *string { return &d.DropletClass }, dropletWords[1:]...)),
)

var rateRangeTable = rangeTable(unit.KindApplicationRate)

// labelInput fills in what label and chart say of droplets and rate.
func (r *CorrectionsRequest) labelInput(in *calc.CorrectionsInput) {
	if len(r.DropletChart) > 0 {
		in.DropletChart = make([]calc.DropletRow, len(r.DropletChart))
	}
	for i, d := range r.DropletChart {
		in.DropletChart[i] = calc.DropletRow{
			Nozzle: d.Nozzle, Low: unit.Pressure(d.Low.si()), High: unit.Pressure(d.High.si()), DropletClass: dropletClass(d.DropletClass),
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
