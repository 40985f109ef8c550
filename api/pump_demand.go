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
	Nozzles           int                  `json:"nozzles,omitzero" range:"1..1000"`
	NozzleFlowRate    Quantity             `json:"nozzleFlowRate,omitzero" is:"flow_rate"`
	Nozzle            NozzleRequest        `json:"nozzle,omitzero"`
	NozzleGroups      []NozzleGroupRequest `json:"nozzleGroups,omitzero" len:"1..100"`
	SprayPressure     Quantity             `json:"sprayPressure,omitzero" is:"pressure"`
	AgitationFlowRate Quantity             `json:"agitationFlowRate,omitzero" is:"flow_rate"`
	TankVolume        Quantity             `json:"tankVolume,omitzero" is:"volume"`
	AgitationShare    Quantity             `json:"agitationShare,omitzero" is:"ratio"`
	Reserve           Quantity             `json:"reserve,omitzero" is:"ratio" zero:"true"`
	RatedPumpFlowRate Quantity             `json:"ratedPumpFlowRate,omitzero" is:"flow_rate"`
	GroundSpeed       Quantity             `json:"groundSpeed,omitzero" is:"speed"`
	Width             Quantity             `json:"width,omitzero" is:"length"`
	Results
}

// NozzleGroupRequest is a number of nozzles of one kind.
type NozzleGroupRequest struct {
	Label          string        `json:"label,omitzero"`
	Nozzles        int           `json:"nozzles" validate:"required" range:"1..1000"`
	NozzleFlowRate Quantity      `json:"nozzleFlowRate,omitzero" is:"flow_rate"`
	Nozzle         NozzleRequest `json:"nozzle,omitzero"`
}

func pumpDemand(ctx context.Context, r *PumpDemandRequest) (PumpDemandAnswer, error) {
	unused := r.Nozzle.unusedSizeRating().Under(finding.Member("nozzle"))
	for i := range r.NozzleGroups {
		unused = append(unused, r.NozzleGroups[i].Nozzle.unusedSizeRating().Under(finding.Item("nozzleGroups", i).Member("nozzle"))...)
	}
	result, err := calc.PumpDemand(r.input())
	if err := combined(unused, err); err != nil {
		return PumpDemandAnswer{}, err
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
