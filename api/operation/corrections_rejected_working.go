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
func (k *correctionsWork) rejection(w working.Working, x *calc.Rejection, a *RejectionAnswer) {
	if x.Attempt == (calc.Attempt{}) {
		return
	}
	t := x.Attempt
	members := attemptMembers{
		speed: member{"/groundSpeed", a.GroundSpeed}, pressure: member{"/sprayPressure", a.SprayPressure},
		engine: member{"/engineSpeed", a.EngineSpeed}, duty: member{"/dutyCycle", a.DutyCycle},
		rate: member{"/predictedApplicationRate", a.PredictedApplicationRate}, deviation: member{"/deviation", a.Deviation},
	}
	if a.ApplicationRateAtLimit.Given() {
		members.rate, members.deviation = member{"/applicationRateAtLimit", a.ApplicationRateAtLimit}, member{"/deviationAtLimit", a.DeviationAtLimit}
	}
	if x.Reason == calc.ReasonPumpFollowsEngine && x.Change == calc.ChangeEngineSpeed {
		return // the rate stays as it was measured
	}
	if t.Solves {
		needed := map[calc.Change]member{
			calc.ChangeSpeed: {"/neededGroundSpeed", a.NeededGroundSpeed}, calc.ChangePressure: {"/neededPressure", a.NeededPressure},
			calc.ChangeEngineSpeed: {"/neededEngineSpeed", a.NeededEngineSpeed}, calc.ChangeDutyCycle: {"/neededDutyCycle", a.NeededDutyCycle},
		}[t.Solved]
		if !same(needed.value.SI(), t.Needed) {
			needed.value = wire.Quantity{}
		}
		*members.solved(t.Solved) = needed
	}
	k.attempt(w, &t, &members)
	k.needed(w, &t, a)
	for _, bound := range [...]member{
		{"/minimumGroundSpeed", a.MinimumGroundSpeed}, {"/maximumGroundSpeed", a.MaximumGroundSpeed},
		{"/minimumPressure", a.MinimumPressure}, {"/maximumPressure", a.MaximumPressure},
		{"/minimumEngineSpeed", a.MinimumEngineSpeed}, {"/maximumEngineSpeed", a.MaximumEngineSpeed},
		{"/minimumDutyCycle", a.MinimumDutyCycle}, {"/maximumDutyCycle", a.MaximumDutyCycle},
	} {
		if bound.value.Given() {
			w.Conversion(bound.name, bound.value, k.limit(bound.value))
		}
	}
}

// needed adds the needed values of a rejection that were not solved for.
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
		switch {
		case !q.answer.Given():
		case q.of == calc.ChangeSpeed && !needed(q.of) && !same(q.answer.SI(), m.GroundSpeed.SI()):
			w.Line(method.SpeedInGear, q.member, q.answer).With("v_g", speed).With("e", k.engineFor(t, q.answer)).With("e_g", turns)
		case needed(q.of) && same(q.answer.SI(), t.Needed): // it has its line
		case q.of == calc.ChangeEngineSpeed && !same(q.answer.SI(), m.EngineSpeed.SI()) && same(q.answer.SI(), float64(t.To.EngineSpeed)):
			w.Line(method.EngineSpeedInGear, q.member, q.answer).
				With("e_g", turns).With("v", k.limit(wire.In(t.To.GroundSpeed, k.units.speed))).With("v_g", speed)
		default:
			w.Conversion(q.member, q.answer, k.limit(q.measure))
		}
	}
}

// engineFor is the engine speed that goes with a speed of a rejection: the needed one,
// or the one that it ends in.
func (k *correctionsWork) engineFor(t *calc.Attempt, speed wire.Quantity) wire.Quantity {
	if same(speed.SI(), float64(t.To.GroundSpeed)) {
		return k.value(float64(t.To.EngineSpeed), k.r.Measured.EngineSpeed, unit.IDRpm)
	}
	return wire.In(t.Needed, unit.IDRpm)
}

// same compares what is computed in two ways, but for the rounding of doubles.
func same(a, b float64) bool { return math.Abs(a-b) <= 1e-12*math.Abs(b) }
