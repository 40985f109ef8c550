package calc

import "wetrun/calc/unit"

// rejection writes an attempt down as rejected.
func (x *planner) rejection(a attempt, reason RejectionReason) Rejection {
	no := Rejection{Change: a.changes.only(), Changes: a.changes, Reason: reason, Gear: a.to.gear, Nozzle: a.to.nozzle}
	no.DropletClass, _ = x.droplets(a.to)
	no.Attempt = a.exported()
	moved := func(c Change) bool { return a.changes.Has(c) && a.by != c }
	if moved(ChangeGear) || moved(ChangeSpeed) || moved(ChangeEngineSpeed) {
		no.GroundSpeed = unit.Speed(a.to.speed)
	}
	if moved(ChangePressure) {
		no.SprayPressure = unit.Pressure(a.to.pressure)
	}
	if moved(ChangeEngineSpeed) {
		no.EngineSpeed = unit.RotationalSpeed(a.to.engine)
	}
	if moved(ChangeDutyCycle) {
		no.DutyCycle = unit.Ratio(a.to.duty)
	}
	if a.solves {
		if a.by == ChangeEngineSpeed { // the limit of the speed may be the narrower one
			no.setNeeded(ChangeSpeed, a.needed*x.perTurn(a.to.gear), 0)
		}
		no.setNeeded(a.by, a.needed, 0)
	}
	rate, off := x.predict(a)
	if !a.atLimit {
		no.PredictedApplicationRate, no.Deviation = unit.ApplicationRate(rate), unit.Ratio(off)
		return no
	}
	no.ApplicationRateAtLimit, no.DeviationAtLimit = unit.ApplicationRate(rate), unit.Ratio(off)
	switch a.limited {
	case ChangeSpeed:
		no.SpeedLimit = unit.Speed(a.to.speed)
	case ChangePressure:
		no.PressureLimit = unit.Pressure(a.to.pressure)
	case ChangeEngineSpeed:
		no.EngineSpeedLimit = unit.RotationalSpeed(a.to.engine)
	case ChangeDutyCycle:
		no.DutyCycleLimit = unit.Ratio(a.to.duty)
	}
	return no
}

// unusable is the rejection of a single change that is no means: what it would need where
// that can be told, and no rate or limit, of which nothing is known.
func (x *planner) unusable(by Change, reason RejectionReason) Rejection {
	no := Rejection{Change: by, Changes: setOf(by), Reason: reason}
	switch reason {
	case ReasonPressureNotMeasured:
	case ReasonPumpFollowsEngine: // whatever the engine does, the rate stays
		no.PredictedApplicationRate, no.Deviation = x.in.Measured.ApplicationRate, x.r.Deviation
	default:
		needed := x.needed(x.now, by)
		a := attempt{to: x.with(x.now, by, needed), from: x.now, by: by, needed: needed, solves: true}
		no.Attempt = a.exported()
		no.setNeeded(by, needed, 0)
	}
	return no
}
