package api

import (
	"context"

	"wetrun/calc"
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
	Results
}

// AcceptanceCatchRequest is a catch with its place.
type AcceptanceCatchRequest struct {
	Label         string   `json:"label,omitzero"`
	Position      string   `json:"position,omitzero"`
	Bed           int      `json:"bed,omitzero"`
	Nozzles       int      `json:"nozzles,omitzero"`
	Volume        Quantity `json:"volume"`
	Time          Quantity `json:"time"`
	SprayPressure Quantity `json:"sprayPressure,omitzero"`
}

// ToleranceRequest is how far a nozzle may be from what.
type ToleranceRequest struct {
	Limit Quantity `json:"limit"`
	Basis string   `json:"basis,omitzero"`
}

const (
	mostBeds        = 100
	mostCatchPoints = 10_000
)

var positions = []string{"left", "center", "right"}

var acceptanceCatchTable = objectOf(
	label("label", func(c *AcceptanceCatchRequest) *string { return &c.Label }, longestLabel),
	oneOf("position", func(c *AcceptanceCatchRequest) *string { return &c.Position }, positions...),
	count("bed", func(c *AcceptanceCatchRequest) *int { return &c.Bed }, 1, mostBeds),
	count("nozzles", func(c *AcceptanceCatchRequest) *int { return &c.Nozzles }, 1, mostNozzles),
	require(quantity("volume", func(c *AcceptanceCatchRequest) *Quantity { return &c.Volume }, unit.KindVolume)),
	require(quantity("time", func(c *AcceptanceCatchRequest) *Quantity { return &c.Time }, unit.KindTime)),
	quantity("sprayPressure", func(c *AcceptanceCatchRequest) *Quantity { return &c.SprayPressure }, unit.KindPressure),
)

var toleranceTable = objectOf(
	require(quantity("limit", func(t *ToleranceRequest) *Quantity { return &t.Limit }, unit.KindRatio)),
	oneOf("basis", func(t *ToleranceRequest) *string { return &t.Basis }, "rated", "mean", "both"),
)

var nozzleAcceptanceTable = objectOf(
	nested("nozzle", func(r *NozzleAcceptanceRequest) *NozzleRequest { return &r.Nozzle }, nozzleTable),
	quantity("sprayPressure", func(r *NozzleAcceptanceRequest) *Quantity { return &r.SprayPressure }, unit.KindPressure),
	list("catches", func(r *NozzleAcceptanceRequest) *[]AcceptanceCatchRequest { return &r.Catches }, 1, mostCatches, acceptanceCatchTable),
	nested("tolerance", func(r *NozzleAcceptanceRequest) *ToleranceRequest { return &r.Tolerance }, toleranceTable),
	count("catchPointsOnBoom", func(r *NozzleAcceptanceRequest) *int { return &r.CatchPointsOnBoom }, 1, mostCatchPoints),
	quantity("replaceAllAbove", func(r *NozzleAcceptanceRequest) *Quantity { return &r.ReplaceAllAbove }, unit.KindRatio),
	results(func(r *NozzleAcceptanceRequest) *Results { return &r.Results }),
)

func nozzleAcceptance(ctx context.Context, r *NozzleAcceptanceRequest) (NozzleAcceptanceResponse, error) {
	if unread := r.Nozzle.unread("Nozzle"); unread != nil {
		return NozzleAcceptanceResponse{}, unread
	}
	result, err := calc.NozzleAcceptance(r.input())
	if err != nil {
		return NozzleAcceptanceResponse{}, err
	}
	return r.answer(ctx, result), nil
}

func (r *NozzleAcceptanceRequest) input() calc.NozzleAcceptanceInput {
	in := calc.NozzleAcceptanceInput{
		Nozzle:            r.Nozzle.input(),
		SprayPressure:     unit.Pressure(r.SprayPressure.si()),
		Catches:           make([]calc.AcceptanceCatch, len(r.Catches)),
		Tolerance:         calc.OutputTolerance{Limit: unit.Ratio(r.Tolerance.Limit.si()), Basis: basis(r.Tolerance.Basis)},
		CatchPointsOnBoom: r.CatchPointsOnBoom,
		ReplaceAllAbove:   unit.Ratio(r.ReplaceAllAbove.si()),
	}
	for i := range r.Catches {
		c := &r.Catches[i]
		in.Catches[i] = calc.AcceptanceCatch{
			Catch: calc.Catch{
				Volume: unit.Volume(c.Volume.si()), Time: unit.Time(c.Time.si()),
				Nozzles: c.Nozzles, SprayPressure: unit.Pressure(c.SprayPressure.si()),
			},
			Position: position(c.Position),
		}
	}
	return in
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
