package api

import (
	"context"

	"wetrun/calc"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// PumpDemandAnswer is the answer: the demand, and what the pump makes of it.
type PumpDemandAnswer struct {
	NozzleGroups           []NozzleGroupAnswer `json:"nozzleGroups"`
	SprayFlowRate          Quantity            `json:"sprayFlowRate"`
	AgitationFlowRate      Quantity            `json:"agitationFlowRate,omitzero"`
	AgitationShare         Quantity            `json:"agitationShare,omitzero"`
	Reserve                Quantity            `json:"reserve"`
	ReserveFlowRate        Quantity            `json:"reserveFlowRate"`
	TotalFlowRate          Quantity            `json:"totalFlowRate"`
	RatedPumpFlowRate      Quantity            `json:"ratedPumpFlowRate,omitzero"`
	Sufficient             *bool               `json:"sufficient,omitzero"`
	SpareFlowRate          Quantity            `json:"spareFlowRate,omitzero"`
	WornPumpFlowRate       Quantity            `json:"wornPumpFlowRate,omitzero"`
	SufficientWhenWorn     *bool               `json:"sufficientWhenWorn,omitzero"`
	LargestSprayFlowRate   Quantity            `json:"largestSprayFlowRate,omitzero"`
	LargestNozzles         *int                `json:"largestNozzles,omitzero"`
	ApplicationRate        Quantity            `json:"applicationRate,omitzero"`
	LargestApplicationRate Quantity            `json:"largestApplicationRate,omitzero"`
	NextSteps              []notice            `json:"nextSteps,omitzero"`
	Cautions               []notice            `json:"cautions"`
	Warnings               []warning           `json:"warnings,omitzero"`
	Explained
}

// NozzleGroupAnswer is what the nozzles of one kind give.
type NozzleGroupAnswer struct {
	Label          string        `json:"label,omitzero"`
	Nozzles        int           `json:"nozzles"`
	Nozzle         *NozzleAnswer `json:"nozzle,omitzero"`
	NozzleFlowRate Quantity      `json:"nozzleFlowRate"`
	SprayFlowRate  Quantity      `json:"sprayFlowRate"`
}

// pumpCautions go with every answer about a pump.
var pumpCautions = cautionsOf("pump_at_pressure", "worn_pump", "shaft_speed", "pressure_injects", "local_rules")

func pumpDemandAnswer(ctx context.Context, r *PumpDemandRequest, result calc.PumpDemandResult) PumpDemandAnswer {
	units := r.units()
	a := PumpDemandAnswer{
		NozzleGroups:       nozzleGroupAnswers(r, result, units.flow),
		SprayFlowRate:      in(result.SprayFlowRate, units.flow),
		Reserve:            r.Reserve.or(percent(result.Reserve)),
		ReserveFlowRate:    in(result.ReserveFlowRate, units.flow),
		TotalFlowRate:      in(result.TotalFlowRate, units.flow),
		RatedPumpFlowRate:  r.RatedPumpFlowRate,
		Sufficient:         within(result.Sufficient),
		SufficientWhenWorn: within(result.SufficientWhenWorn),
		Cautions:           pumpCautions.in(ctx),
		Warnings:           warnings(ctx, result.Warnings),
	}
	if result.AgitationFlowRate != 0 {
		a.AgitationFlowRate = r.AgitationFlowRate.or(in(result.AgitationFlowRate, units.flow))
	}
	if result.AgitationShare != 0 {
		a.AgitationShare = r.AgitationShare.or(percent(result.AgitationShare))
	}
	driven := r.GroundSpeed.given()
	if driven {
		a.ApplicationRate = in(result.ApplicationRate, units.rate)
	}
	if result.Sufficient == finding.NotJudged {
		return a
	}
	a.SpareFlowRate = in(result.SpareFlowRate, units.flow)
	a.WornPumpFlowRate = in(result.WornPumpFlowRate, units.flow)
	a.LargestSprayFlowRate = in(result.LargestSprayFlowRate, units.flow)
	if result.LargestNozzles >= 0 {
		a.LargestNozzles = &result.LargestNozzles
	}
	if driven {
		a.LargestApplicationRate = in(result.LargestApplicationRate, units.rate)
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
			Nozzle:         g.Nozzle.answer(unit.Pressure(r.SprayPressure.si())),
			NozzleFlowRate: g.NozzleFlowRate.or(in(q, flow)),
			SprayFlowRate:  in(q*unit.FlowRate(g.Nozzles), flow),
		}
	}
	return all
}
