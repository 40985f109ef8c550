package api

import (
	"math"

	"wetrun/calc"
	"wetrun/calc/method"
)

// rejection adds the numbers of a change that cannot be made.
func (k *correctionsWork) rejection(w working, no *calc.Rejection, a *RejectionAnswer) {
	if no.Attempt == (calc.Attempt{}) {
		return
	}
	t := no.Attempt
	y := attemptMembers{names: [6]string{"/neededGroundSpeed", "/neededPressure", "/neededEngineSpeed", "/neededDutyCycle", "/predictedApplicationRate", "/deviation"}}
	y.rate, y.deviation = a.PredictedApplicationRate, a.Deviation
	if a.ApplicationRateAtLimit.given() {
		y.rate, y.deviation = a.ApplicationRateAtLimit, a.DeviationAtLimit
		y.names[4], y.names[5] = "/applicationRateAtLimit", "/deviationAtLimit"
	}
	if no.Reason == calc.ReasonPumpFollowsEngine && no.Change == calc.ChangeEngineSpeed {
		return // the rate stays as it was measured
	}
	if t.Solves {
		own, needed := [...]*Quantity{&y.speed, &y.pressure, &y.engine, &y.duty}, [...]Quantity{a.NeededGroundSpeed, a.NeededPressure, a.NeededEngineSpeed, a.NeededDutyCycle}
		i := map[calc.Change]int{calc.ChangeSpeed: 0, calc.ChangePressure: 1, calc.ChangeEngineSpeed: 2, calc.ChangeDutyCycle: 3}[t.Solved]
		if near(needed[i].si(), t.Needed) {
			*own[i] = needed[i]
		}
	}
	k.attempt(w, &t, &y)
	k.needed(w, &t, a)
	for _, l := range [...]struct {
		member string
		value  Quantity
	}{
		{"/minimumGroundSpeed", a.MinimumGroundSpeed}, {"/maximumGroundSpeed", a.MaximumGroundSpeed},
		{"/minimumPressure", a.MinimumPressure}, {"/maximumPressure", a.MaximumPressure},
		{"/minimumEngineSpeed", a.MinimumEngineSpeed}, {"/maximumEngineSpeed", a.MaximumEngineSpeed},
		{"/minimumDutyCycle", a.MinimumDutyCycle}, {"/maximumDutyCycle", a.MaximumDutyCycle},
	} {
		if l.value.given() {
			w.conversion(l.member, l.value, k.limit(l.value))
		}
	}
}

// needed adds the needed values of a rejection, and the speed in its gear.
func (k *correctionsWork) needed(w working, t *calc.Attempt, a *RejectionAnswer) {
	m := &k.r.Measured
	speed, turns := k.gear(t.To.Gear)
	needed := func(of calc.Change) bool { return t.Solves && t.Solved == of }
	for _, q := range [...]struct {
		of              calc.Change
		member          string
		answer, measure Quantity
	}{
		{calc.ChangeSpeed, "/neededGroundSpeed", a.NeededGroundSpeed, m.GroundSpeed},
		{calc.ChangePressure, "/neededPressure", a.NeededPressure, m.SprayPressure},
		{calc.ChangeEngineSpeed, "/neededEngineSpeed", a.NeededEngineSpeed, m.EngineSpeed},
		{calc.ChangeDutyCycle, "/neededDutyCycle", a.NeededDutyCycle, m.DutyCycle},
	} {
		engine := m.EngineSpeed
		switch {
		case !q.answer.given():
		case q.of == calc.ChangeSpeed && !needed(q.of) && !near(q.answer.si(), m.GroundSpeed.si()):
			if needed(calc.ChangeEngineSpeed) {
				engine = k.engineFor(t, q.answer)
			}
			w.line(method.SpeedInGear, q.member, q.answer).with("v_g", speed).with("e", engine).with("e_g", turns)
		case needed(q.of) && near(q.answer.si(), t.Needed): // it has its line
		case q.of == calc.ChangeEngineSpeed && near(q.answer.si(), float64(t.To.EngineSpeed)) && (!t.Solves || t.Limited == calc.ChangeSpeed):
			w.line(method.EngineSpeedInGear, q.member, q.answer).
				with("e_g", turns).with("v", k.limit(in(t.To.GroundSpeed, k.units.speed))).with("v_g", speed)
		default:
			w.conversion(q.member, q.answer, k.limit(q.measure))
		}
	}
	if a.GroundSpeed.given() {
		engine := m.EngineSpeed
		if needed(calc.ChangeEngineSpeed) {
			engine = in(t.To.EngineSpeed, unitRpm)
		}
		w.line(method.SpeedInGear, "/groundSpeed", a.GroundSpeed).with("v_g", speed).with("e", engine).with("e_g", turns)
	}
}

// engineFor is the engine speed that goes with a speed of a rejection: the needed one,
// or the one that it ends in.
func (k *correctionsWork) engineFor(t *calc.Attempt, speed Quantity) Quantity {
	if near(speed.si(), float64(t.To.GroundSpeed)) {
		return in(t.To.EngineSpeed, unitRpm)
	}
	return in(t.Needed, unitRpm)
}

func near(a, b float64) bool { return math.Abs(a-b) <= 1e-12*math.Abs(b) }
