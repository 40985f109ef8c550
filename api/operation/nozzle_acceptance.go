package operation

import (
	"context"

	"wetrun/api/wire"
	"wetrun/api/working"
	"wetrun/calc"
	"wetrun/calc/certainty"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// NozzleAcceptanceRequest is the body of POST /v1/nozzle-acceptance.
type NozzleAcceptanceRequest struct {
	MeasuringRequest
	Gauge             string                   `json:"gauge,omitzero"`
	Nozzle            NozzleRequest            `json:"nozzle,omitzero"`
	SprayPressure     wire.Quantity            `json:"sprayPressure,omitzero" is:"pressure"`
	Catches           []AcceptanceCatchRequest `json:"catches" validate:"required" len:"1..1000"`
	Tolerance         ToleranceRequest         `json:"tolerance,omitzero"`
	CatchPointsOnBoom int                      `json:"catchPointsOnBoom,omitzero" range:"1..10000"`
	ReplaceAllAbove   wire.Quantity            `json:"replaceAllAbove,omitzero" is:"ratio"`
	DutyCycle         wire.Quantity            `json:"dutyCycle,omitzero" is:"ratio"`
	Results

	origins catchOrigins // of Catches
}

// AcceptanceCatchRequest is a catch with its place.
type AcceptanceCatchRequest struct {
	CatchRequest  `zero:"volume"`
	Position      certainty.Position  `json:"position,omitzero"`
	Bed           int                 `json:"bed,omitzero" range:"1..100"`
	NozzlesOnDrop []DropNozzleRequest `json:"nozzlesOnDrop,omitzero" len:"1..10"`

	samePoint bool // as the catch before it; set for follow-ups
}

// DropNozzleRequest is one kind of nozzle on a drop that carries different ones.
type DropNozzleRequest struct {
	Nozzle NozzleRequest `json:"nozzle" validate:"required"`
	Count  int           `json:"count" validate:"required" range:"1..1000"`
}

// ToleranceRequest is how far a nozzle may be from what.
type ToleranceRequest struct {
	Limit wire.Quantity `json:"limit" validate:"required" is:"ratio"`
	Basis calc.Basis    `json:"basis,omitzero"`
}

func nozzleAcceptance(ctx context.Context, r *NozzleAcceptanceRequest) (NozzleAcceptanceAnswer, error) {
	if unused := append(r.Nozzle.unusedSizeRating().Under(finding.Member("nozzle")), unusedSizeRatings(r.Catches)...); unused != nil {
		return NozzleAcceptanceAnswer{}, unused
	}
	in := r.input()
	var err error
	if in.Measuring, err = r.MeasuringRequest.input(); err != nil {
		return NozzleAcceptanceAnswer{}, err
	}
	in.Measuring.Explain = r.shows()
	result, err := calc.NozzleAcceptance(in)
	if err != nil {
		return NozzleAcceptanceAnswer{}, err
	}
	a := r.answer(ctx, result)
	w := working.New(r.shows())
	r.work(w, &result, &a)
	a.Explained = w.Answer()
	return a, nil
}

func (r *NozzleAcceptanceRequest) input() calc.NozzleAcceptanceInput {
	in := calc.NozzleAcceptanceInput{
		Nozzle:            r.Nozzle.input(),
		SprayPressure:     unit.Pressure(r.SprayPressure.SI()),
		Catches:           make([]calc.AcceptanceCatch, len(r.Catches)),
		Tolerance:         calc.OutputTolerance{Limit: unit.Ratio(r.Tolerance.Limit.SI()), Basis: r.Tolerance.Basis},
		CatchPointsOnBoom: r.CatchPointsOnBoom,
		Gauge:             r.Gauge,
		ReplaceAllAbove:   unit.Ratio(r.ReplaceAllAbove.SI()),
		DutyCycle:         unit.Ratio(r.DutyCycle.SI()),
	}
	for i := range r.Catches {
		c := &r.Catches[i]
		in.Catches[i] = calc.AcceptanceCatch{Catch: c.input(), Position: c.Position, SamePoint: c.samePoint}
		for j := range c.NozzlesOnDrop {
			d := &c.NozzlesOnDrop[j]
			in.Catches[i].NozzlesOnDrop = append(in.Catches[i].NozzlesOnDrop, calc.DropNozzle{Nozzle: d.Nozzle.input(), Count: d.Count})
		}
	}
	return in
}

// unusedSizeRatings is unusedSizeRating for the nozzles of drops that carry different ones.
func unusedSizeRatings(catches []AcceptanceCatchRequest) (unused finding.Invalid) {
	for i := range catches {
		for j := range catches[i].NozzlesOnDrop {
			if wrong := catches[i].NozzlesOnDrop[j].Nozzle.unusedSizeRating(); wrong != nil {
				unused = append(unused, wrong.Under(finding.Item("catches", i).Item("nozzlesOnDrop", j).Member("nozzle"))...)
			}
		}
	}
	return unused
}
