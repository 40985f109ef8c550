package operation

import (
	"context"

	"wetrun/api/wire"
	"wetrun/api/working"
	"wetrun/calc"
	"wetrun/calc/finding"
	"wetrun/calc/method"
	"wetrun/calc/unit"
)

// PumpDemandAnswer is the answer of POST /v1/pump-demand.
type PumpDemandAnswer struct {
	NozzleGroups           []NozzleGroupAnswer `json:"nozzleGroups"`
	SprayFlowRate          wire.Quantity       `json:"sprayFlowRate"`
	AgitationFlowRate      wire.Quantity       `json:"agitationFlowRate,omitzero"`
	AgitationShare         wire.Quantity       `json:"agitationShare,omitzero"`
	Reserve                wire.Quantity       `json:"reserve"`
	ReserveFlowRate        wire.Quantity       `json:"reserveFlowRate"`
	TotalFlowRate          wire.Quantity       `json:"totalFlowRate"`
	RatedPumpFlowRate      wire.Quantity       `json:"ratedPumpFlowRate,omitzero"`
	Sufficient             *bool               `json:"sufficient,omitzero"`
	SpareFlowRate          wire.Quantity       `json:"spareFlowRate,omitzero"`
	WornPumpFlowRate       wire.Quantity       `json:"wornPumpFlowRate,omitzero"`
	SufficientWhenWorn     *bool               `json:"sufficientWhenWorn,omitzero"`
	LargestSprayFlowRate   wire.Quantity       `json:"largestSprayFlowRate,omitzero"`
	LargestNozzles         *int                `json:"largestNozzles,omitzero"`
	ApplicationRate        wire.Quantity       `json:"applicationRate,omitzero"`
	LargestApplicationRate wire.Quantity       `json:"largestApplicationRate,omitzero"`
	NextSteps              []Notice            `json:"nextSteps,omitzero"`
	Cautions               []Notice            `json:"cautions"`
	Warnings               []Warning           `json:"warnings,omitzero"`
	working.Explained
}

// NozzleGroupAnswer is what the nozzles of one kind give.
type NozzleGroupAnswer struct {
	Label          string        `json:"label,omitzero"`
	Nozzles        int           `json:"nozzles"`
	Nozzle         *NozzleAnswer `json:"nozzle,omitzero"`
	NozzleFlowRate wire.Quantity `json:"nozzleFlowRate"`
	SprayFlowRate  wire.Quantity `json:"sprayFlowRate"`
}

func pumpDemandAnswer(ctx context.Context, r *PumpDemandRequest, result calc.PumpDemandResult) PumpDemandAnswer {
	units := r.units()
	a := PumpDemandAnswer{
		NozzleGroups:       nozzleGroupAnswers(r, result, units.flow),
		SprayFlowRate:      wire.In(result.SprayFlowRate, units.flow),
		Reserve:            r.Reserve.Or(percent(result.Reserve)),
		ReserveFlowRate:    wire.In(result.ReserveFlowRate, units.flow),
		TotalFlowRate:      wire.In(result.TotalFlowRate, units.flow),
		RatedPumpFlowRate:  r.RatedPumpFlowRate,
		Sufficient:         within(result.Sufficient),
		SufficientWhenWorn: within(result.SufficientWhenWorn),
		Cautions:           pumpCautions.in(ctx),
		Warnings:           warnings(ctx, result.Warnings),
	}
	if result.AgitationFlowRate != 0 {
		a.AgitationFlowRate = r.AgitationFlowRate.Or(wire.In(result.AgitationFlowRate, units.flow))
	}
	if result.AgitationShare != 0 {
		a.AgitationShare = r.AgitationShare.Or(percent(result.AgitationShare))
	}
	driven := r.GroundSpeed.Given()
	if driven {
		a.ApplicationRate = wire.In(result.ApplicationRate, units.rate)
	}
	if result.Sufficient == finding.NotJudged {
		return a
	}
	a.SpareFlowRate = wire.In(result.SpareFlowRate, units.flow)
	a.WornPumpFlowRate = wire.In(result.WornPumpFlowRate, units.flow)
	a.LargestSprayFlowRate = wire.In(result.LargestSprayFlowRate, units.flow)
	if result.LargestNozzles >= 0 {
		a.LargestNozzles = &result.LargestNozzles
	}
	if driven {
		a.LargestApplicationRate = wire.In(result.LargestApplicationRate, units.rate)
	}
	if result.Sufficient == finding.Outside {
		a.NextSteps = nextSteps(ctx, "reduce_pump_demand")
	}
	return a
}

func nozzleGroupAnswers(r *PumpDemandRequest, result calc.PumpDemandResult, flow unit.ID) []NozzleGroupAnswer {
	groups := r.groups()
	all := make([]NozzleGroupAnswer, len(groups))
	for i := range groups {
		g, q := &groups[i], result.NozzleFlowRates[i]
		all[i] = NozzleGroupAnswer{
			Label:          g.Label,
			Nozzles:        g.Nozzles,
			Nozzle:         g.Nozzle.answer(unit.Pressure(r.SprayPressure.SI())),
			NozzleFlowRate: g.NozzleFlowRate.Or(wire.In(q, flow)),
			SprayFlowRate:  wire.In(q*unit.FlowRate(g.Nozzles), flow),
		}
	}
	return all
}

// groups are the nozzles as groups, however they were given.
func (r *PumpDemandRequest) groups() []NozzleGroupRequest {
	if len(r.NozzleGroups) > 0 {
		return r.NozzleGroups
	}
	return []NozzleGroupRequest{{Nozzles: r.Nozzles, NozzleFlowRate: r.NozzleFlowRate, Nozzle: r.Nozzle}}
}

func (r *PumpDemandRequest) work(w working.Working, a *PumpDemandAnswer) {
	groups := r.groups()
	for i := range groups {
		g, x, w := &groups[i], &a.NozzleGroups[i], w.Item("/nozzleGroups", i)
		if !g.NozzleFlowRate.Given() {
			g.Nozzle.workFlow(w, "/nozzleFlowRate", x.NozzleFlowRate, r.SprayPressure)
		}
		w.Line(method.GroupFlow, "/sprayFlowRate", x.SprayFlowRate).Count("n", x.Nozzles).With("q", x.NozzleFlowRate)
	}
	flows := working.Listed(w, a.NozzleGroups, func(x *NozzleGroupAnswer) wire.Quantity { return x.SprayFlowRate })
	w.Line(method.SprayFlow, "/sprayFlowRate", a.SprayFlowRate).Each("Q_i", flows)
	switch {
	case !r.TankVolume.Given():
	case r.AgitationFlowRate.Given():
		w.Line(method.AgitationShare, "/agitationShare", a.AgitationShare).
			With("a", r.AgitationFlowRate).With("t", wire.Quantity{Value: 1, Unit: unit.IDMin}).With("V", r.TankVolume)
	default:
		w.Line(method.AgitationFlow, "/agitationFlowRate", a.AgitationFlowRate).
			With("s", a.AgitationShare).With("V", r.TankVolume).With("t", wire.Quantity{Value: 1, Unit: unit.IDMin})
	}
	agitation := a.AgitationFlowRate.Or(wire.Quantity{Value: 0, Unit: a.SprayFlowRate.Unit})
	w.Line(method.ReserveFlow, "/reserveFlowRate", a.ReserveFlowRate).With("Q", a.SprayFlowRate).With("a", agitation).With("e", a.Reserve)
	w.Line(method.PumpDemand, "/totalFlowRate", a.TotalFlowRate).With("Q", a.SprayFlowRate).With("a", agitation).With("r", a.ReserveFlowRate)
	if r.RatedPumpFlowRate.Given() {
		w.Line(method.SpareFlow, "/spareFlowRate", a.SpareFlowRate).With("P", r.RatedPumpFlowRate).With("T", a.TotalFlowRate)
		w.Line(method.WornPumpFlow, "/wornPumpFlowRate", a.WornPumpFlowRate).With("P", r.RatedPumpFlowRate).With("u", percent(calc.WornPump))
		w.Line(method.LargestSprayFlow, "/largestSprayFlowRate", a.LargestSprayFlowRate).
			With("P", r.RatedPumpFlowRate).With("e", a.Reserve).With("a", agitation)
	}
	if !r.GroundSpeed.Given() {
		return
	}
	w.Line(method.BoomRate, "/applicationRate", a.ApplicationRate).With("Q", a.SprayFlowRate).With("v", r.GroundSpeed).With("W", r.Width)
	if a.LargestApplicationRate.Given() {
		w.Line(method.BoomRate, "/largestApplicationRate", a.LargestApplicationRate).
			With("Q", a.LargestSprayFlowRate).With("v", r.GroundSpeed).With("W", r.Width)
	}
}
