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
	Changes                  []calc.Change        `json:"changes,omitzero"`
	Reason                   calc.RejectionReason `json:"reason"`
	Detail                   string               `json:"detail"`
	Gear                     string               `json:"gear,omitzero"`
	Nozzle                   *PlannedNozzle       `json:"nozzle,omitzero"`
	GroundSpeed              wire.Quantity        `json:"groundSpeed,omitzero"`
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

func (r *CorrectionsRequest) rejectionAnswer(lang text.Language, no calc.Rejection) RejectionAnswer {
	units := r.units()
	a := RejectionAnswer{Change: no.Change, Reason: no.Reason, Detail: text.Coded(lang, "rejected", string(no.Reason))}
	bounded(&a.NeededGroundSpeed, &a.MinimumGroundSpeed, &a.MaximumGroundSpeed, no.NeededGroundSpeed, no.SpeedLimit, units.speed)
	bounded(&a.NeededPressure, &a.MinimumPressure, &a.MaximumPressure, no.NeededPressure, no.PressureLimit, units.pressure)
	bounded(&a.NeededEngineSpeed, &a.MinimumEngineSpeed, &a.MaximumEngineSpeed, no.NeededEngineSpeed, no.EngineSpeedLimit, unit.IDRpm)
	bounded(&a.NeededDutyCycle, &a.MinimumDutyCycle, &a.MaximumDutyCycle, no.NeededDutyCycle, no.DutyCycleLimit, unit.IDPct)
	if no.ApplicationRateAtLimit != 0 {
		a.ApplicationRateAtLimit = wire.In(no.ApplicationRateAtLimit, units.rate)
		a.DeviationAtLimit = percent(no.DeviationAtLimit)
	}
	if r.sheet {
		return a
	}
	a.Changes, a.Gear = no.Changes.All(), r.gearLabel(no.Gear)
	if no.DropletClass != calc.DropletClassUnknown {
		a.DropletClass = string(no.DropletClass)
	}
	a.Nozzle = r.plannedNozzle(no.Nozzle)
	if no.GroundSpeed != 0 {
		a.GroundSpeed = wire.In(no.GroundSpeed, units.speed)
	}
	if no.PredictedApplicationRate != 0 {
		a.PredictedApplicationRate = wire.In(no.PredictedApplicationRate, units.rate)
		a.Deviation = percent(no.Deviation)
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
