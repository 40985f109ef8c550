package operation

import (
	"wetrun/api/wire"
	"wetrun/calc"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// LabeledNozzleRequest is a nozzle with a label to find it by.
type LabeledNozzleRequest struct {
	Label string `json:"label,omitzero"`
	NozzleRequest
}

// PlannedNozzle is a nozzle of the request with the rating that was used.
type PlannedNozzle struct {
	Pointer string `json:"pointer"`
	Label   string `json:"label,omitzero"`
	NozzleAnswer
}

// nozzlesInput fills in the present nozzle and the shelf.
func (r *CorrectionsRequest) nozzlesInput(in *calc.CorrectionsInput) {
	in.Nozzle = calc.LabeledNozzle{Label: r.Nozzle.Label, Nozzle: r.Nozzle.input()}
	if len(r.Nozzles) > 0 {
		in.Nozzles = make([]calc.LabeledNozzle, len(r.Nozzles))
	}
	for i := range r.Nozzles {
		n := &r.Nozzles[i]
		in.Nozzles[i] = calc.LabeledNozzle{Label: n.Label, Nozzle: n.input()}
	}
}

// unusedSizeRatings reports every sizeRating that no size is read by.
func (r *CorrectionsRequest) unusedSizeRatings() finding.Invalid {
	v := r.Nozzle.unusedSizeRating().Under(finding.Member("nozzle"))
	for i := range r.Nozzles {
		v = append(v, r.Nozzles[i].unusedSizeRating().Under(finding.Item("nozzles", i))...)
	}
	return v
}

// plannedNozzle is a nozzle counted from one; nil for the present one.
func (r *CorrectionsRequest) plannedNozzle(n int) *PlannedNozzle {
	if n == 0 {
		return nil
	}
	x := &r.Nozzles[n-1]
	return &PlannedNozzle{Pointer: wire.Pointer(finding.Item("nozzles", n-1).Under(r.part)), Label: x.Label, NozzleAnswer: *x.answer(unit.Pressure(r.Measured.SprayPressure.SI()))}
}
