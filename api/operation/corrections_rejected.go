package operation

import (
	"wetrun/api/wire"
	"wetrun/calc"
	"wetrun/calc/unit"
	"wetrun/internal/text"
)

// RejectionAnswer is a change that cannot be made, with the numbers.
type RejectionAnswer struct {
	Change                   calc.Change          `json:"change"`
	Changes                  []calc.Change        `json:"changes"`
	Reason                   calc.RejectionReason `json:"reason"`
	Detail                   string               `json:"detail"`
	Gear                     string               `json:"gear,omitzero"`
	Nozzle                   *PlannedNozzle       `json:"nozzle,omitzero"`
	GroundSpeed              wire.Quantity        `json:"groundSpeed,omitzero"`
	SprayPressure            wire.Quantity        `json:"sprayPressure,omitzero"`
	EngineSpeed              wire.Quantity        `json:"engineSpeed,omitzero"`
	DutyCycle                wire.Quantity        `json:"dutyCycle,omitzero"`
	DropletClass             string               `json:"dropletClass,omitzero"`
	NeededGroundSpeed        wire.Quantity        `json:"neededGroundSpeed,omitzero"`
	MinimumGroundSpeed       wire.Quantity        `json:"minimumGroundSpeed,omitzero"`
	MaximumGroundSpeed       wire.Quantity        `json:"maximumGroundSpeed,omitzero"`
	NeededPressure           wire.Quantity        `json:"neededPressure,omitzero"`
	MinimumPressure          wire.Quantity        `json:"minimumPressure,omitzero"`
	MaximumPressure          wire.Quantity        `json:"maximumPressure,omitzero"`
	NeededEngineSpeed        wire.Quantity        `json:"neededEngineSpeed,omitzero"`
	MinimumEngineSpeed       wire.Quantity        `json:"minimumEngineSpeed,omitzero"`
	MaximumEngineSpeed       wire.Quantity        `json:"maximumEngineSpeed,omitzero"`
	NeededDutyCycle          wire.Quantity        `json:"neededDutyCycle,omitzero"`
	MinimumDutyCycle         wire.Quantity        `json:"minimumDutyCycle,omitzero"`
	MaximumDutyCycle         wire.Quantity        `json:"maximumDutyCycle,omitzero"`
	ApplicationRateAtLimit   wire.Quantity        `json:"applicationRateAtLimit,omitzero"`
	DeviationAtLimit         wire.Quantity        `json:"deviationAtLimit,omitzero"`
	PredictedApplicationRate wire.Quantity        `json:"predictedApplicationRate,omitzero"`
	Deviation                wire.Quantity        `json:"deviation,omitzero"`
}

func (r *CorrectionsRequest) rejectionAnswer(lang text.Language, x calc.Rejection) RejectionAnswer {
	units := r.units()
	a := RejectionAnswer{
		Change: x.Change, Changes: x.Changes.All(), Gear: r.gearLabel(x.Gear), Nozzle: r.plannedNozzle(x.Nozzle),
		Reason: x.Reason, Detail: text.Coded(lang, "rejected", string(x.Reason)),
	}
	bounded(&a.NeededGroundSpeed, &a.MinimumGroundSpeed, &a.MaximumGroundSpeed, x.NeededGroundSpeed, x.SpeedLimit, units.speed)
	bounded(&a.NeededPressure, &a.MinimumPressure, &a.MaximumPressure, x.NeededPressure, x.PressureLimit, units.pressure)
	bounded(&a.NeededEngineSpeed, &a.MinimumEngineSpeed, &a.MaximumEngineSpeed, x.NeededEngineSpeed, x.EngineSpeedLimit, unit.IDRpm)
	bounded(&a.NeededDutyCycle, &a.MinimumDutyCycle, &a.MaximumDutyCycle, x.NeededDutyCycle, x.DutyCycleLimit, unit.IDPct)
	if x.ApplicationRateAtLimit != 0 {
		a.ApplicationRateAtLimit = wire.In(x.ApplicationRateAtLimit, units.rate)
		a.DeviationAtLimit = percent(x.DeviationAtLimit)
	}
	if x.DropletClass != calc.DropletClassUnknown {
		a.DropletClass = string(x.DropletClass)
	}
	if x.GroundSpeed != 0 {
		a.GroundSpeed = wire.In(x.GroundSpeed, units.speed)
	}
	if x.SprayPressure != 0 {
		a.SprayPressure = wire.In(x.SprayPressure, units.pressure)
	}
	if x.EngineSpeed != 0 {
		a.EngineSpeed = wire.In(x.EngineSpeed, unit.IDRpm)
	}
	if x.DutyCycle != 0 {
		a.DutyCycle = percent(x.DutyCycle)
	}
	if x.PredictedApplicationRate != 0 {
		a.PredictedApplicationRate = wire.In(x.PredictedApplicationRate, units.rate)
		a.Deviation = percent(x.Deviation)
	}
	return a
}

// bounded writes what was needed, and the limit in its way as the lowest or the
// highest that is allowed. Zero is not known, or not in the way.
func bounded[T ~float64](value, low, high *wire.Quantity, needed, limit T, u unit.ID) {
	if needed != 0 {
		*value = wire.In(needed, u)
	}
	if limit == 0 {
		return
	}
	if needed < limit {
		*low = wire.In(limit, u)
	} else {
		*high = wire.In(limit, u)
	}
}
