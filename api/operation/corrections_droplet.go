package operation

import (
	"cmp"

	"wetrun/api/wire"
	"wetrun/calc"
	"wetrun/calc/unit"
)

// DropletRowRequest is one line of a maker's droplet chart.
type DropletRowRequest struct {
	Label         string            `json:"label,omitzero"`
	PressureRange wire.Range        `json:"pressureRange" validate:"required" is:"pressure"`
	DropletClass  calc.DropletClass `json:"dropletClass" validate:"required"`
}

// labelInput fills in what label and chart say of droplets and rate.
func (r *CorrectionsRequest) labelInput(in *calc.CorrectionsInput) {
	if len(r.DropletChart) > 0 {
		in.DropletChart = make([]calc.DropletEntry, len(r.DropletChart))
	}
	for i, d := range r.DropletChart {
		in.DropletChart[i] = calc.DropletEntry{
			Label: d.Label, PressureRange: pressureRange(d.PressureRange), DropletClass: d.DropletClass,
		}
	}
	in.AllowedDropletClasses = r.AllowedDropletClasses
	in.SprayVolumeRange = calc.RateRange{
		Low: unit.ApplicationRate(r.SprayVolumeRange.Low.SI()), High: unit.ApplicationRate(r.SprayVolumeRange.High.SI()),
	}
}

// dropletWord is the word of a class in an answer.
func dropletWord(class calc.DropletClass) string { return cmp.Or(string(class), "unknown") }
