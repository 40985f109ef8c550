package calc

import "wetrun/calc/finding"

// A span is a lowest and a highest value, zero where nothing bounds it, and whose limits
// they are.
type span struct {
	low, high float64
	of        [3]Change // by end
}

// bounded is a value within two limits.
type bounded struct {
	value   float64
	atLimit bool
	end     end // that it stands at; neither, where it stands at none
}

// bound puts a value into its limits, inclusive like every limit here.
func (s span) bound(value float64) bounded {
	switch {
	case s.high != 0 && !finding.AtMost(value/s.high, 1):
		return bounded{s.high, true, maximum}
	case !finding.AtMost(s.low/value, 1):
		return bounded{s.low, true, minimum}
	}
	return bounded{value: value}
}

// apart tells that no value lies between the two.
func (s span) apart() bool { return s.high != 0 && !finding.AtMost(s.low/s.high, 1) }

// narrowed is what two spans allow together; of each end the narrower holds.
func (s span) narrowed(other span) span {
	if other.low > s.low {
		s.low, s.of[minimum] = other.low, other.of[minimum]
	}
	if other.high != 0 && (s.high == 0 || other.high < s.high) {
		s.high, s.of[maximum] = other.high, other.of[maximum]
	}
	return s
}

// value is what a lever sets, in a state; zero where it is not known.
func (s machineState) value(of Change) float64 {
	switch of {
	case ChangeSpeed:
		return s.speed
	case ChangePressure:
		return s.pressure
	case ChangeEngineSpeed:
		return s.engine
	}
	return s.duty
}

// with is a state with another value. How another speed is reached is left open, except
// that an engine that the pump follows has to stay as it is.
func (x *planner) with(s machineState, of Change, value float64) machineState {
	switch of {
	case ChangeSpeed:
		s.speed = value
		if !x.in.Pump.follows() {
			s.engine = 0
		}
	case ChangePressure:
		s.pressure = value
	case ChangeEngineSpeed:
		s.engine, s.speed = value, value*x.perTurn(s.gear)
	case ChangeDutyCycle:
		s.duty = value
	}
	return s
}

// limits are those of what a change changes, in a state.
func (x *planner) limits(s machineState, of Change) span {
	l := span{of: [...]Change{minimum: of, maximum: of}}
	switch of {
	case ChangeSpeed:
		l.low, l.high = float64(x.in.Limits.GroundSpeed.Low), float64(x.in.Limits.GroundSpeed.High)
	case ChangePressure:
		own := x.in.nozzle(s.nozzle).PressureRange
		l.low, l.high = float64(x.in.Limits.SprayPressure.Low), float64(x.in.Limits.SprayPressure.High)
		l = l.narrowed(span{float64(own.Low), float64(own.High), l.of})
	case ChangeEngineSpeed:
		l.low, l.high = float64(x.in.EngineSpeedLimits.Low), float64(x.in.EngineSpeedLimits.High)
		l = l.narrowed(span{high: float64(x.in.RatedShaft.EngineSpeed), of: l.of})
	case ChangeDutyCycle:
		l.low, l.high = float64(x.in.DutyCycleLimits.Low), float64(x.in.DutyCycleLimits.High)
	}
	return l
}

// reach is within what a lever can be set: of the engine, the limits of the ground speed
// bound it as well.
func (x *planner) reach(s machineState, of Change) span {
	l := x.limits(s, of)
	if of == ChangeEngineSpeed {
		perTurn, speed := x.perTurn(s.gear), x.limits(s, ChangeSpeed)
		l = l.narrowed(span{speed.low / perTurn, speed.high / perTurn, speed.of})
	}
	return l
}

// needed is what brings a state to the aim.
func (x *planner) needed(s machineState, by Change) float64 {
	rate := x.rate(s)
	switch by {
	case ChangePressure:
		return x.pressureFor(s.nozzle, rate, x.aim)
	case ChangeDutyCycle:
		return s.duty * x.aim / rate
	}
	return s.value(by) * rate / x.aim
}

// solve finds what a lever has to be set to, everything else being as in the state that an
// attempt has come to, and stops at its limits.
func (x *planner) solve(a attempt, by Change) attempt {
	a.from = x.with(a.to, by, x.now.value(by))
	a.needed, a.by, a.solves = x.needed(a.from, by), by, true
	reach := x.reach(a.from, by)
	a.bounded = reach.bound(a.needed)
	a.limited = reach.of[a.end]
	a.to = x.with(a.from, by, a.value)
	a.changes |= setOf(by)
	return a
}

// inside brings every lever but one that is outside its limits to the nearer of them.
func (x *planner) inside(a attempt, levers []Change, except Change) attempt {
	for _, l := range levers {
		if s := x.reach(a.to, l).bound(a.to.value(l)); l != except && s.atLimit {
			a.to = x.with(a.to, l, s.value)
			a.changes |= setOf(l)
		}
	}
	return a
}

// usable tells why a single change cannot be planned; empty where it can.
func (x *planner) usable(s machineState, by Change) RejectionReason {
	switch l := x.limits(s, by); {
	case by == ChangePressure && s.pressure == 0:
		return ReasonPressureNotMeasured
	case by == ChangePressure && l.high == 0:
		return ReasonPressureLimitsNotGiven
	case by == ChangePressure && l.apart():
		return ReasonPressureRangesApart
	case by == ChangeDutyCycle && l.high == 0:
		return ReasonDutyCycleLimitsNotGiven
	case by == ChangeEngineSpeed && x.in.Pump == Pump{}:
		return ReasonPumpNotGiven
	case by == ChangeEngineSpeed && x.in.Pump.follows():
		return ReasonPumpFollowsEngine
	case by == ChangeEngineSpeed && l.high == 0:
		return ReasonEngineLimitsNotGiven
	}
	return ""
}
