package api

import (
	"context"

	"wetrun/calc"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// NozzleAcceptanceRequest is the body of POST /v1/nozzle-acceptance.
type NozzleAcceptanceRequest struct {
	Nozzle            NozzleRequest            `json:"nozzle,omitzero"`
	SprayPressure     Quantity                 `json:"sprayPressure,omitzero"`
	Catches           []AcceptanceCatchRequest `json:"catches" validate:"required"`
	Tolerance         ToleranceRequest         `json:"tolerance,omitzero"`
	CatchPointsOnBoom int                      `json:"catchPointsOnBoom,omitzero"`
	ReplaceAllAbove   Quantity                 `json:"replaceAllAbove,omitzero"`
	Gauge             string                   `json:"gauge,omitzero"`
	MeasuringRequest
	Results

	round round
}

// AcceptanceCatchRequest is a catch with its place.
type AcceptanceCatchRequest struct {
	CatchRequest
	Position      string              `json:"position,omitzero"`
	Bed           int                 `json:"bed,omitzero"`
	NozzlesOnDrop []DropNozzleRequest `json:"nozzlesOnDrop,omitzero"`

	samePoint bool // as the catch before it; set for follow-ups
}

// DropNozzleRequest is one kind of nozzle on a drop that carries different ones.
type DropNozzleRequest struct {
	Nozzle NozzleRequest `json:"nozzle"`
	Count  int           `json:"count"`
}

// ToleranceRequest is how far a nozzle may be from what.
type ToleranceRequest struct {
	Limit Quantity `json:"limit"`
	Basis string   `json:"basis,omitzero"`
}

const (
	mostBeds        = 100
	mostCatchPoints = 10_000
	mostDropNozzles = 10
)

var positions = []string{"left", "center", "right"}

var acceptanceCatchTable = objectOf(append(
	part(func(c *AcceptanceCatchRequest) *CatchRequest { return &c.CatchRequest }, dryCatchTable),
	oneOf("position", func(c *AcceptanceCatchRequest) *string { return &c.Position }, positions...),
	count("bed", func(c *AcceptanceCatchRequest) *int { return &c.Bed }, 1, mostBeds),
	list("nozzlesOnDrop", func(c *AcceptanceCatchRequest) *[]DropNozzleRequest { return &c.NozzlesOnDrop }, 1, mostDropNozzles, dropNozzleTable),
)...)

var dropNozzleTable = objectOf(
	require(nested("nozzle", func(d *DropNozzleRequest) *NozzleRequest { return &d.Nozzle }, nozzleTable)),
	require(count("count", func(d *DropNozzleRequest) *int { return &d.Count }, 1, mostNozzles)),
)

var toleranceTable = objectOf(
	require(quantity("limit", func(t *ToleranceRequest) *Quantity { return &t.Limit }, unit.KindRatio)),
	oneOf("basis", func(t *ToleranceRequest) *string { return &t.Basis }, "rated", "mean", "both"),
)

var nozzleAcceptanceTable = objectOf(measuring(func(r *NozzleAcceptanceRequest) *MeasuringRequest { return &r.MeasuringRequest },
	instrumentID("gauge", func(r *NozzleAcceptanceRequest) *string { return &r.Gauge }),
	nested("nozzle", func(r *NozzleAcceptanceRequest) *NozzleRequest { return &r.Nozzle }, nozzleTable),
	quantity("sprayPressure", func(r *NozzleAcceptanceRequest) *Quantity { return &r.SprayPressure }, unit.KindPressure),
	list("catches", func(r *NozzleAcceptanceRequest) *[]AcceptanceCatchRequest { return &r.Catches }, 1, mostCatches, acceptanceCatchTable),
	nested("tolerance", func(r *NozzleAcceptanceRequest) *ToleranceRequest { return &r.Tolerance }, toleranceTable),
	count("catchPointsOnBoom", func(r *NozzleAcceptanceRequest) *int { return &r.CatchPointsOnBoom }, 1, mostCatchPoints),
	quantity("replaceAllAbove", func(r *NozzleAcceptanceRequest) *Quantity { return &r.ReplaceAllAbove }, unit.KindRatio),
	results(func(r *NozzleAcceptanceRequest) *Results { return &r.Results }),
	showing(func(r *NozzleAcceptanceRequest) *Showing { return &r.Showing }),
)...)

func nozzleAcceptance(ctx context.Context, r *NozzleAcceptanceRequest) (NozzleAcceptanceResponse, error) {
	if unread := append(r.Nozzle.unread().Under(finding.Member("nozzle")), unreadDrops(r.Catches)...); unread != nil {
		return NozzleAcceptanceResponse{}, unread
	}
	in := r.input()
	var err error
	if in.Measuring, err = r.MeasuringRequest.input(); err != nil {
		return NozzleAcceptanceResponse{}, err
	}
	in.Measuring.Explain = r.shows()
	result, err := calc.NozzleAcceptance(in)
	if err != nil {
		return NozzleAcceptanceResponse{}, err
	}
	a := r.answer(ctx, result)
	w := explaining(r.shows())
	r.work(w, &result, &a)
	a.Explained = w.answer()
	return a, nil
}

func (r *NozzleAcceptanceRequest) input() calc.NozzleAcceptanceInput {
	in := calc.NozzleAcceptanceInput{
		Nozzle:            r.Nozzle.input(),
		SprayPressure:     unit.Pressure(r.SprayPressure.si()),
		Catches:           make([]calc.AcceptanceCatch, len(r.Catches)),
		Tolerance:         calc.OutputTolerance{Limit: unit.Ratio(r.Tolerance.Limit.si()), Basis: basis(r.Tolerance.Basis)},
		CatchPointsOnBoom: r.CatchPointsOnBoom,
		Gauge:             r.Gauge,
		ReplaceAllAbove:   unit.Ratio(r.ReplaceAllAbove.si()),
	}
	for i := range r.Catches {
		c := &r.Catches[i]
		in.Catches[i] = calc.AcceptanceCatch{Catch: c.input(), Position: position(c.Position), SamePoint: c.samePoint}
		for j := range c.NozzlesOnDrop {
			d := &c.NozzlesOnDrop[j]
			in.Catches[i].NozzlesOnDrop = append(in.Catches[i].NozzlesOnDrop, calc.DropNozzle{Nozzle: d.Nozzle.input(), Count: d.Count})
		}
	}
	return in
}

// unreadDrops is unread for the nozzles of drops that carry different ones.
func unreadDrops(catches []AcceptanceCatchRequest) (unread finding.Invalid) {
	for i := range catches {
		for j := range catches[i].NozzlesOnDrop {
			if wrong := catches[i].NozzlesOnDrop[j].Nozzle.unread(); wrong != nil {
				unread = append(unread, wrong.Under(finding.Item("catches", i).Item("nozzlesOnDrop", j).Member("nozzle"))...)
			}
		}
	}
	return unread
}

func basis(word string) calc.Basis {
	switch word {
	case "rated":
		return calc.RatedBasis
	case "mean":
		return calc.MeanBasis
	case "both":
		return calc.BothBases
	}
	return calc.DefaultBasis
}

func position(word string) calc.Position {
	for i, p := range positions {
		if p == word {
			return calc.Position(i + 1)
		}
	}
	return calc.Unplaced
}
