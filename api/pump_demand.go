package api

import (
	"context"

	"wetrun/calc"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// PumpDemandRequest is the body of POST /v1/pump-demand. The nozzles are one kind,
// given here, or nozzleGroups.
type PumpDemandRequest struct {
	Nozzles           int                  `json:"nozzles,omitzero"`
	NozzleFlowRate    Quantity             `json:"nozzleFlowRate,omitzero"`
	Nozzle            NozzleRequest        `json:"nozzle,omitzero"`
	NozzleGroups      []NozzleGroupRequest `json:"nozzleGroups,omitzero"`
	SprayPressure     Quantity             `json:"sprayPressure,omitzero"`
	AgitationFlowRate Quantity             `json:"agitationFlowRate,omitzero"`
	TankVolume        Quantity             `json:"tankVolume,omitzero"`
	AgitationShare    Quantity             `json:"agitationShare,omitzero"`
	Reserve           Quantity             `json:"reserve,omitzero"`
	RatedPumpFlowRate Quantity             `json:"ratedPumpFlowRate,omitzero"`
	GroundSpeed       Quantity             `json:"groundSpeed,omitzero"`
	Width             Quantity             `json:"width,omitzero"`
	Results
}

// NozzleGroupRequest is a number of nozzles of one kind.
type NozzleGroupRequest struct {
	Label          string        `json:"label,omitzero"`
	Nozzles        int           `json:"nozzles"`
	NozzleFlowRate Quantity      `json:"nozzleFlowRate,omitzero"`
	Nozzle         NozzleRequest `json:"nozzle,omitzero"`
}

var nozzleGroupTable = objectOf(
	label("label", func(g *NozzleGroupRequest) *string { return &g.Label }, longestLabel),
	require(count("nozzles", func(g *NozzleGroupRequest) *int { return &g.Nozzles }, 1, mostNozzles)),
	quantity("nozzleFlowRate", func(g *NozzleGroupRequest) *Quantity { return &g.NozzleFlowRate }, unit.KindFlowRate),
	nested("nozzle", func(g *NozzleGroupRequest) *NozzleRequest { return &g.Nozzle }, nozzleTable),
)

var pumpDemandTable = objectOf(
	count("nozzles", func(r *PumpDemandRequest) *int { return &r.Nozzles }, 1, mostNozzles),
	quantity("nozzleFlowRate", func(r *PumpDemandRequest) *Quantity { return &r.NozzleFlowRate }, unit.KindFlowRate),
	nested("nozzle", func(r *PumpDemandRequest) *NozzleRequest { return &r.Nozzle }, nozzleTable),
	list("nozzleGroups", func(r *PumpDemandRequest) *[]NozzleGroupRequest { return &r.NozzleGroups }, 1, mostNozzleGroups, nozzleGroupTable),
	quantity("sprayPressure", func(r *PumpDemandRequest) *Quantity { return &r.SprayPressure }, unit.KindPressure),
	quantity("agitationFlowRate", func(r *PumpDemandRequest) *Quantity { return &r.AgitationFlowRate }, unit.KindFlowRate),
	quantity("tankVolume", func(r *PumpDemandRequest) *Quantity { return &r.TankVolume }, unit.KindVolume),
	quantity("agitationShare", func(r *PumpDemandRequest) *Quantity { return &r.AgitationShare }, unit.KindRatio),
	amount("reserve", func(r *PumpDemandRequest) *Quantity { return &r.Reserve }, unit.KindRatio),
	quantity("ratedPumpFlowRate", func(r *PumpDemandRequest) *Quantity { return &r.RatedPumpFlowRate }, unit.KindFlowRate),
	quantity("groundSpeed", func(r *PumpDemandRequest) *Quantity { return &r.GroundSpeed }, unit.KindSpeed),
	quantity("width", func(r *PumpDemandRequest) *Quantity { return &r.Width }, unit.KindLength),
	results(func(r *PumpDemandRequest) *Results { return &r.Results }),
	showing(func(r *PumpDemandRequest) *Showing { return &r.Showing }),
)

func pumpDemand(ctx context.Context, r *PumpDemandRequest) (PumpDemandResponse, error) {
	unread := r.Nozzle.unread().Under(finding.Member("nozzle"))
	for i := range r.NozzleGroups {
		unread = append(unread, r.NozzleGroups[i].Nozzle.unread().Under(finding.Item("nozzleGroups", i).Member("nozzle"))...)
	}
	result, err := calc.PumpDemand(r.input())
	if err := combined(unread, err); err != nil {
		return PumpDemandResponse{}, err
	}
	a := pumpDemandAnswer(ctx, r, result)
	w := explaining(r.shows())
	r.work(w, &a)
	a.Explained = w.answer()
	return a, nil
}

func (r *PumpDemandRequest) input() calc.PumpDemandInput {
	in := calc.PumpDemandInput{
		Nozzles:           r.Nozzles,
		NozzleFlowRate:    unit.FlowRate(r.NozzleFlowRate.si()),
		Nozzle:            r.Nozzle.input(),
		SprayPressure:     unit.Pressure(r.SprayPressure.si()),
		AgitationFlowRate: unit.FlowRate(r.AgitationFlowRate.si()),
		TankVolume:        unit.Volume(r.TankVolume.si()),
		AgitationShare:    unit.Ratio(r.AgitationShare.si()),
		Reserve:           unit.Ratio(r.Reserve.si()),
		NoReserve:         r.Reserve.given() && r.Reserve.si() == 0,
		RatedPumpFlowRate: unit.FlowRate(r.RatedPumpFlowRate.si()),
		GroundSpeed:       unit.Speed(r.GroundSpeed.si()),
		Width:             unit.Length(r.Width.si()),
	}
	for i := range r.NozzleGroups {
		g := &r.NozzleGroups[i]
		in.NozzleGroups = append(in.NozzleGroups, calc.NozzleGroup{
			Nozzles: g.Nozzles, NozzleFlowRate: unit.FlowRate(g.NozzleFlowRate.si()), Nozzle: g.Nozzle.input(),
		})
	}
	return in
}
