package operation

import (
	"math"

	"wetrun/api/wire"
	"wetrun/api/working"
	"wetrun/calc"
	"wetrun/calc/method"
	"wetrun/calc/unit"
)

// rejection adds the numbers of a change that cannot be made.
func (k *correctionsWork) rejection(w working.Working, no *calc.Rejection, a *RejectionAnswer) {
	if no.Attempt == (calc.Attempt{}) {
		return
	}
	t := no.Attempt
	y := attemptMembers{names: [6]string{"/neededGroundSpeed", "/neededPressure", "/neededEngineSpeed", "/neededDutyCycle", "/predictedApplicationRate", "/deviation"}}
	y.rate, y.deviation = a.PredictedApplicationRate, a.Deviation
	if a.ApplicationRateAtLimit.Given() {
		y.rate, y.deviation = a.ApplicationRateAtLimit, a.DeviationAtLimit
		y.names[4], y.names[5] = "/applicationRateAtLimit", "/deviationAtLimit"
	}
	if no.Reason == calc.ReasonPumpFollowsEngine && no.Change == calc.ChangeEngineSpeed {
		return // the rate stays as it was measured
	}
	if t.Solves {
		own, needed := [...]*wire.Quantity{&y.speed, &y.pressure, &y.engine, &y.duty}, [...]wire.Quantity{a.NeededGroundSpeed, a.NeededPressure, a.NeededEngineSpeed, a.NeededDutyCycle}
		i := map[calc.Change]int{calc.ChangeSpeed: 0, calc.ChangePressure: 1, calc.ChangeEngineSpeed: 2, calc.ChangeDutyCycle: 3}[t.Solved]
		if same(needed[i].SI(), t.Needed) {
			*own[i] = needed[i]
		}
	}
	k.attempt(w, &t, &y)
	k.needed(w, &t, a)
	for _, l := range [...]struct {
		member string
		value  wire.Quantity
	}{
		{"/minimumGroundSpeed", a.MinimumGroundSpeed}, {"/maximumGroundSpeed", a.MaximumGroundSpeed},
		{"/minimumPressure", a.MinimumPressure}, {"/maximumPressure", a.MaximumPressure},
		{"/minimumEngineSpeed", a.MinimumEngineSpeed}, {"/maximumEngineSpeed", a.MaximumEngineSpeed},
		{"/minimumDutyCycle", a.MinimumDutyCycle}, {"/maximumDutyCycle", a.MaximumDutyCycle},
	} {
		if l.value.Given() {
			w.Conversion(l.member, l.value, k.limit(l.value))
		}
	}
}

// needed adds the needed values of a rejection, and the speed in its gear.
func (k *correctionsWork) needed(w working.Working, t *calc.Attempt, a *RejectionAnswer) {
	m := &k.r.Measured
	speed, turns := k.gear(t.To.Gear)
	needed := func(of calc.Change) bool { return t.Solves && t.Solved == of }
	for _, q := range [...]struct {
		of              calc.Change
		member          string
		answer, measure wire.Quantity
	}{
		{calc.ChangeSpeed, "/neededGroundSpeed", a.NeededGroundSpeed, m.GroundSpeed},
		{calc.ChangePressure, "/neededPressure", a.NeededPressure, m.SprayPressure},
		{calc.ChangeEngineSpeed, "/neededEngineSpeed", a.NeededEngineSpeed, m.EngineSpeed},
		{calc.ChangeDutyCycle, "/neededDutyCycle", a.NeededDutyCycle, m.DutyCycle},
	} {
		engine := m.EngineSpeed
		switch {
		case !q.answer.Given():
		case q.of == calc.ChangeSpeed && !needed(q.of) && !same(q.answer.SI(), m.GroundSpeed.SI()):
			if needed(calc.ChangeEngineSpeed) {
				engine = k.engineFor(t, q.answer)
			}
			w.Line(method.SpeedInGear, q.member, q.answer).With("v_g", speed).With("e", engine).With("e_g", turns)
		case needed(q.of) && same(q.answer.SI(), t.Needed): // it has its line
		case q.of == calc.ChangeEngineSpeed && same(q.answer.SI(), float64(t.To.EngineSpeed)) && (!t.Solves || t.Limited == calc.ChangeSpeed):
			w.Line(method.EngineSpeedInGear, q.member, q.answer).
				With("e_g", turns).With("v", k.limit(wire.In(t.To.GroundSpeed, k.units.speed))).With("v_g", speed)
		default:
			w.Conversion(q.member, q.answer, k.limit(q.measure))
		}
	}
	if a.GroundSpeed.Given() {
		engine := m.EngineSpeed
		if needed(calc.ChangeEngineSpeed) {
			engine = wire.In(t.To.EngineSpeed, unit.IDRpm)
		}
		w.Line(method.SpeedInGear, "/groundSpeed", a.GroundSpeed).With("v_g", speed).With("e", engine).With("e_g", turns)
	}
}

// engineFor is the engine speed that goes with a speed of a rejection: the needed one,
// or the one that it ends in.
func (k *correctionsWork) engineFor(t *calc.Attempt, speed wire.Quantity) wire.Quantity {
	if same(speed.SI(), float64(t.To.GroundSpeed)) {
		return wire.In(t.To.EngineSpeed, unit.IDRpm)
	}
	return wire.In(t.Needed, unit.IDRpm)
}

// same compares what is computed in two ways, but for the rounding of doubles.
func same(a, b float64) bool { return math.Abs(a-b) <= 1e-12*math.Abs(b) }
