package operation

import (
	"context"

	"wetrun/api/wire"
	"wetrun/api/working"
	"wetrun/calc"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// PumpDemandRequest is the body of POST /v1/pump-demand. The nozzles are one kind,
// given here, or nozzleGroups.
type PumpDemandRequest struct {
	Nozzles           int                  `json:"nozzles,omitzero" range:"1..1000"`
	NozzleFlowRate    wire.Quantity        `json:"nozzleFlowRate,omitzero" is:"flow_rate"`
	Nozzle            NozzleRequest        `json:"nozzle,omitzero"`
	NozzleGroups      []NozzleGroupRequest `json:"nozzleGroups,omitzero" len:"1..100"`
	SprayPressure     wire.Quantity        `json:"sprayPressure,omitzero" is:"pressure"`
	AgitationFlowRate wire.Quantity        `json:"agitationFlowRate,omitzero" is:"flow_rate"`
	TankVolume        wire.Quantity        `json:"tankVolume,omitzero" is:"volume"`
	AgitationShare    wire.Quantity        `json:"agitationShare,omitzero" is:"ratio"`
	Reserve           wire.Quantity        `json:"reserve,omitzero" is:"ratio" zero:"true"`
	RatedPumpFlowRate wire.Quantity        `json:"ratedPumpFlowRate,omitzero" is:"flow_rate"`
	GroundSpeed       wire.Quantity        `json:"groundSpeed,omitzero" is:"speed"`
	Width             wire.Quantity        `json:"width,omitzero" is:"length"`
	Results
}

// NozzleGroupRequest is a number of nozzles of one kind.
type NozzleGroupRequest struct {
	Label          string        `json:"label,omitzero"`
	Nozzles        int           `json:"nozzles" validate:"required" range:"1..1000"`
	NozzleFlowRate wire.Quantity `json:"nozzleFlowRate,omitzero" is:"flow_rate"`
	Nozzle         NozzleRequest `json:"nozzle,omitzero"`
}

func pumpDemand(ctx context.Context, r *PumpDemandRequest) (PumpDemandAnswer, error) {
	unused := r.Nozzle.unusedSizeRating().Under(finding.Member("nozzle"))
	for i := range r.NozzleGroups {
		unused = append(unused, r.NozzleGroups[i].Nozzle.unusedSizeRating().Under(finding.Item("nozzleGroups", i).Member("nozzle"))...)
	}
	result, err := calc.PumpDemand(r.input())
	if err := wire.Combined(unused, err); err != nil {
		return PumpDemandAnswer{}, err
	}
	a := pumpDemandAnswer(ctx, r, result)
	w := working.New(r.shows())
	r.work(w, &a)
	a.Explained = w.Answer()
	return a, nil
}

func (r *PumpDemandRequest) input() calc.PumpDemandInput {
	in := calc.PumpDemandInput{
		Nozzles:           r.Nozzles,
		NozzleFlowRate:    unit.FlowRate(r.NozzleFlowRate.SI()),
		Nozzle:            r.Nozzle.input(),
		SprayPressure:     unit.Pressure(r.SprayPressure.SI()),
		AgitationFlowRate: unit.FlowRate(r.AgitationFlowRate.SI()),
		TankVolume:        unit.Volume(r.TankVolume.SI()),
		AgitationShare:    unit.Ratio(r.AgitationShare.SI()),
		Reserve:           unit.Ratio(r.Reserve.SI()),
		NoReserve:         r.Reserve.Given() && r.Reserve.SI() == 0,
		RatedPumpFlowRate: unit.FlowRate(r.RatedPumpFlowRate.SI()),
		GroundSpeed:       unit.Speed(r.GroundSpeed.SI()),
		Width:             unit.Length(r.Width.SI()),
	}
	for i := range r.NozzleGroups {
		g := &r.NozzleGroups[i]
		in.NozzleGroups = append(in.NozzleGroups, calc.NozzleGroup{
			Nozzles: g.Nozzles, NozzleFlowRate: unit.FlowRate(g.NozzleFlowRate.SI()), Nozzle: g.Nozzle.input(),
		})
	}
	return in
}
