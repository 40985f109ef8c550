package operation

import (
	"math"

	"wetrun/api/wire"
	"wetrun/api/working"
	"wetrun/calc"
	"wetrun/calc/method"
	"wetrun/calc/unit"
)

// correctionsWork is the working of one request. Its request holds what was measured,
// on a sheet as the other parts answered it.
type correctionsWork struct {
	r        *CorrectionsRequest
	x        *calc.CorrectionsResult
	units    *resultUnits
	exponent wire.Quantity
	aim      wire.Quantity // what plans were solved for
}

func (r *CorrectionsRequest) work(w working.Working, x *calc.CorrectionsResult, a *CorrectionsAnswer) {
	k := &correctionsWork{r, x, r.units(), working.PlainNumber(calc.SquareRoot), r.TargetApplicationRate}
	if r.PressureExponent.Given() {
		k.exponent = working.PlainNumber(r.PressureExponent.SI())
	}
	if x.Aim != 0 && float64(x.Aim) != r.TargetApplicationRate.SI() {
		k.aim = wire.In(x.Aim, k.units.rate)
	}
	w.Line(method.RateDeviation, "/deviation", a.Deviation).With("R", r.Measured.ApplicationRate).With("R_t", r.TargetApplicationRate)
	for i := range x.Plans {
		plan, answer, w := &x.Plans[i], &a.Plans[i], w.Item("/plans", i)
		if answer.Aim.Given() {
			k.aimed(w)
		}
		k.attempt(w, &plan.Attempt, &attemptMembers{
			speed: member{"/groundSpeed", answer.GroundSpeed}, pressure: member{"/sprayPressure", answer.SprayPressure},
			engine: member{"/engineSpeed", answer.EngineSpeed}, duty: member{"/dutyCycle", answer.DutyCycle},
			rate: member{"/predictedApplicationRate", answer.PredictedApplicationRate}, deviation: member{"/deviation", answer.Deviation},
		})
		k.size(w, plan, answer)
	}
	for i := range x.Rejected {
		k.rejection(w.Item("/rejected", i), &x.Rejected[i], &a.Rejected[i])
	}
}

// aimed adds the line of the rate that a plan aims at in the place of the target.
func (k *correctionsWork) aimed(w working.Working) {
	for _, l := range [...]struct {
		limit wire.Quantity
		guard float64
	}{{k.r.LabelMaximum, -float64(k.x.Guard)}, {k.r.LabelMinimum, float64(k.x.Guard)}} {
		if l.limit.Given() && same(k.aim.SI(), l.limit.SI()*(1+2*l.guard)) {
			w.Line(method.GuardedAim, "/aim", k.aim).With("R_m", l.limit).With("g", percent(unit.Ratio(l.guard)))
			return
		}
	}
	w.Line(method.MiddleAim, "/aim", k.aim).With("R_l", wire.In(k.x.Allowed.Low, k.units.rate)).With("R_h", wire.In(k.x.Allowed.High, k.units.rate))
}

// attemptMembers are the members of an answer that an attempt fills, where it has them.
type attemptMembers struct{ speed, pressure, engine, duty, rate, deviation member }

// A member is one of them; its value is not given where the answer does not have it.
type member struct {
	name  string
	value wire.Quantity
}

// solved is the member of what was solved for.
func (a *attemptMembers) solved(change calc.Change) *member {
	switch change {
	case calc.ChangeSpeed:
		return &a.speed
	case calc.ChangePressure:
		return &a.pressure
	case calc.ChangeEngineSpeed:
		return &a.engine
	}
	return &a.duty
}

// value is one of a state: as it was given where it is the measured one.
func (k *correctionsWork) value(si float64, measured wire.Quantity, u unit.ID) wire.Quantity {
	if same(si, measured.SI()) {
		return measured
	}
	return wire.In(si, u)
}

func (k *correctionsWork) speed(s *calc.MachineState) wire.Quantity {
	return k.value(float64(s.GroundSpeed), k.r.Measured.GroundSpeed, k.units.speed)
}

// gear is the listed or measured pair of speed and engine speed of a gear.
func (k *correctionsWork) gear(n int) (speed, engine wire.Quantity) {
	if n == 0 {
		return k.r.Measured.GroundSpeed, k.r.Measured.EngineSpeed
	}
	return k.r.Gears[n-1].GroundSpeed, k.r.Gears[n-1].EngineSpeed
}

// flowRatio adds the lines of what other nozzles do to the flow; 1 for the present ones.
func (k *correctionsWork) flowRatio(w working.Working, n int) wire.Quantity {
	if n == 0 {
		return working.PlainNumber(1)
	}
	q1, p1 := k.knownFlow(w, 0)
	q2, p2 := k.knownFlow(w, n)
	f := working.Dimensionless(q2.SI() / q1.SI() * math.Pow(p1.SI()/p2.SI(), k.exponent.Value))
	w.Intermediate(method.FlowRatio, f).With("q_2", q2).With("q_1", q1).With("p_1", p1).With("p_2", p2).With("n", k.exponent)
	return f
}

// nozzle is one of the shelf, from 1, or the present one, 0.
func (k *correctionsWork) nozzle(n int) *NozzleRequest {
	if n == 0 {
		return &k.r.Nozzle.NozzleRequest
	}
	return &k.r.Nozzles[n-1].NozzleRequest
}

// knownFlow is a flow that a nozzle is known to give, and at which pressure: that of its
// chart at the measured pressure, or its rating.
func (k *correctionsWork) knownFlow(w working.Working, n int) (flow, pressure wire.Quantity) {
	if len(k.nozzle(n).FlowChart) > 0 {
		return k.chartFlow(w, n, k.r.Measured.SprayPressure), k.r.Measured.SprayPressure
	}
	a := k.nozzle(n).answer(0)
	return a.RatedFlowRate, a.RatedPressure
}

// rate adds the line of the rate in a state, by what differs from the measured one.
func (k *correctionsWork) rate(w working.Working, s *calc.MachineState, f wire.Quantity, answer member) wire.Quantity {
	m, one := &k.r.Measured, working.PlainNumber(1)
	v, vp, p, pp, d, dp := one, one, one, one, one, one
	moved := !same(float64(s.SprayPressure), m.SprayPressure.SI())
	if moved && k.byChart(s.Nozzle) {
		f, moved = k.flowRatioByChart(w, s, f), false
	}
	rate := m.ApplicationRate.SI() * f.Value
	if !same(float64(s.GroundSpeed), m.GroundSpeed.SI()) {
		v, vp = m.GroundSpeed, k.speed(s)
		rate *= v.SI() / vp.SI()
	}
	if moved {
		p, pp = m.SprayPressure, wire.In(s.SprayPressure, k.units.pressure)
		rate *= math.Pow(pp.SI()/p.SI(), k.exponent.Value)
	}
	if !same(float64(s.DutyCycle), m.DutyCycle.SI()) {
		d, dp = m.DutyCycle, percent(s.DutyCycle)
		rate *= dp.SI() / d.SI()
	}
	value := wire.In(rate, k.units.rate)
	w.LineOr(method.PredictedRate, answer.name, answer.value, value).
		With("R", m.ApplicationRate).With("f", f).With("v", v).With("v_p", vp).With("p_p", pp).With("p", p).With("n", k.exponent).With("d_p", dp).With("d", d)
	return value
}

// attempt adds how a state was found, the rate in it and how far that is off.
func (k *correctionsWork) attempt(w working.Working, t *calc.Attempt, a *attemptMembers) {
	f := k.flowRatio(w, t.To.Nozzle)
	k.standing(w, t, a)
	if t.Solves {
		k.solved(w, t, f, a)
		if t.Solved == calc.ChangeEngineSpeed {
			k.inGear(w, &t.To, a.speed.name, a.speed.value)
		}
	}
	if a.rate.value.Given() {
		k.rate(w, &t.To, f, a.rate)
		w.Line(method.RateDeviation, a.deviation.name, a.deviation.value).With("R", a.rate.value).With("R_t", k.r.TargetApplicationRate)
	}
}

// inGear adds the line of the speed in the gear of a state.
func (k *correctionsWork) inGear(w working.Working, s *calc.MachineState, name string, answered wire.Quantity) {
	speed, engine := k.gear(s.Gear)
	w.LineOr(method.SpeedInGear, name, answered, wire.In(s.GroundSpeed, k.units.speed)).
		With("v_g", speed).With("e", k.value(float64(s.EngineSpeed), k.r.Measured.EngineSpeed, unit.IDRpm)).With("e_g", engine)
}

// standing adds what stands as it is while another is solved: what was brought to its limit,
// the speed in another gear, the pressure of other nozzles.
func (k *correctionsWork) standing(w working.Working, t *calc.Attempt, a *attemptMembers) {
	s, m := &t.From, &k.r.Measured
	solved := func(c calc.Change) bool { return t.Solves && t.Solved == c }
	turned := s.EngineSpeed != 0 && !same(float64(s.EngineSpeed), m.EngineSpeed.SI())
	if turned && !solved(calc.ChangeEngineSpeed) {
		k.engineAtLimit(w, s, a.engine.name, a.engine.value)
	} else if !solved(calc.ChangeEngineSpeed) && a.engine.value.Given() {
		w.Conversion(a.engine.name, a.engine.value, m.EngineSpeed)
	}
	switch {
	case solved(calc.ChangeSpeed):
	case s.Gear != 0 || turned:
		answered := a.speed.value
		if solved(calc.ChangeEngineSpeed) {
			answered = wire.Quantity{}
		}
		k.inGear(w, s, a.speed.name, answered)
	case a.speed.value.Given() && !solved(calc.ChangeEngineSpeed):
		w.Conversion(a.speed.name, a.speed.value, k.limit(a.speed.value))
	}
	if a.pressure.value.Given() && !solved(calc.ChangePressure) {
		w.Conversion(a.pressure.name, a.pressure.value, k.limit(k.value(float64(s.SprayPressure), m.SprayPressure, k.units.pressure)))
	}
	if a.duty.value.Given() && !solved(calc.ChangeDutyCycle) {
		w.Conversion(a.duty.name, a.duty.value, k.limit(a.duty.value))
	}
}

// engineAtLimit adds the line of an engine speed that stands at its own limit or at that of
// the ground speed.
func (k *correctionsWork) engineAtLimit(w working.Working, s *calc.MachineState, name string, answered wire.Quantity) {
	value := wire.In(s.EngineSpeed, unit.IDRpm)
	if limit, own := k.limitOf(value); own {
		if answered.Given() {
			w.Conversion(name, answered, limit)
		}
		return
	}
	speed, engine := k.gear(s.Gear)
	w.LineOr(method.EngineSpeedInGear, name, answered, value).
		With("e_g", engine).With("v", k.limit(wire.In(s.GroundSpeed, k.units.speed))).With("v_g", speed)
}

// solved adds what was solved for, and the limit that it stands at.
func (k *correctionsWork) solved(w working.Working, t *calc.Attempt, f wire.Quantity, a *attemptMembers) {
	m := &k.r.Measured
	base := m.ApplicationRate
	if s := &t.From; s.Gear != 0 || s.Nozzle != 0 || !same(float64(s.GroundSpeed), m.GroundSpeed.SI()) ||
		!same(float64(s.SprayPressure), m.SprayPressure.SI()) || !same(float64(s.DutyCycle), m.DutyCycle.SI()) {
		base = k.rate(w, s, f, member{})
	}
	name, answered := a.solved(t.Solved).name, a.solved(t.Solved).value
	needed := answered
	if !same(answered.SI(), t.Needed) {
		needed = wire.Quantity{} // the answer stands at the limit
	}
	switch t.Solved {
	case calc.ChangeSpeed:
		w.LineOr(method.CorrectedSpeed, name, needed, wire.In(t.Needed, k.units.speed)).
			With("v", k.speed(&t.From)).With("R", base).With("R_t", k.aim)
	case calc.ChangePressure:
		if k.byChart(t.From.Nozzle) {
			k.pressureByChart(w, t, name, needed, base)
			break
		}
		w.LineOr(method.CorrectedPressure, name, needed, wire.In(t.Needed, k.units.pressure)).
			With("p", m.SprayPressure).With("R", base).With("R_t", k.aim).With("n", k.exponent)
	case calc.ChangeEngineSpeed:
		w.LineOr(method.CorrectedEngineSpeed, name, needed, wire.In(t.Needed, unit.IDRpm)).
			With("e", m.EngineSpeed).With("R", base).With("R_t", k.aim)
	case calc.ChangeDutyCycle:
		w.LineOr(method.CorrectedDutyCycle, name, needed, wire.In(t.Needed, unit.IDPct)).
			With("d", m.DutyCycle).With("R", base).With("R_t", k.aim)
	}
	switch {
	case !t.AtLimit || needed.Given():
	case t.Solved == calc.ChangeEngineSpeed && t.Limited == calc.ChangeSpeed:
		speed, engine := k.gear(t.To.Gear)
		w.LineOr(method.EngineSpeedInGear, name, answered, wire.In(t.To.EngineSpeed, unit.IDRpm)).
			With("e_g", engine).With("v", k.limit(wire.In(t.To.GroundSpeed, k.units.speed))).With("v_g", speed)
	case answered.Given():
		w.Conversion(name, answered, k.limit(answered))
	}
}

// limit is the limit of the request that an answer stands at, as it was given.
func (k *correctionsWork) limit(q wire.Quantity) wire.Quantity {
	l, _ := k.limitOf(q)
	return l
}

// limitOf is the same, and tells whether there is one; else it is the answer itself.
func (k *correctionsWork) limitOf(q wire.Quantity) (limit wire.Quantity, found bool) {
	r, meant := k.r, func(l wire.Quantity) bool {
		return l.Given() && l.Unit.Kind() == q.Unit.Kind() && same(l.SI(), q.SI())
	}
	for _, l := range [...]wire.Quantity{
		r.Limits.GroundSpeed.Low, r.Limits.GroundSpeed.High, r.Limits.SprayPressure.Low, r.Limits.SprayPressure.High,
		r.EngineSpeedLimits.Low, r.EngineSpeedLimits.High, r.RatedShaft.EngineSpeed, r.DutyCycleLimits.Low, r.DutyCycleLimits.High,
		r.Nozzle.PressureRange.Low, r.Nozzle.PressureRange.High,
	} {
		if meant(l) {
			return l, true
		}
	}
	for i := range r.Nozzles {
		switch own := &r.Nozzles[i].PressureRange; {
		case meant(own.Low):
			return own.Low, true
		case meant(own.High):
			return own.High, true
		}
	}
	return q, false
}

// size adds how much a plan changes.
func (k *correctionsWork) size(w working.Working, p *calc.Plan, a *PlanAnswer) {
	m, t := &k.r.Measured, &p.Attempt.To
	if a.RelativeChange.Given() {
		now, then := m.GroundSpeed, wire.In(t.GroundSpeed, k.units.speed)
		switch p.Change {
		case calc.ChangePressure:
			now, then = m.SprayPressure, wire.In(t.SprayPressure, k.units.pressure)
		case calc.ChangeDutyCycle:
			now, then = m.DutyCycle, percent(t.DutyCycle)
		case calc.ChangeNozzle:
			now, then = working.PlainNumber(1), working.Dimensionless(1+float64(p.RelativeChange))
		}
		w.Line(method.RelativeChange, "/relativeChange", a.RelativeChange).With("x", then).With("x_0", now)
	}
	one := working.PlainNumber(1)
	pressure, pressureThen, duty, dutyThen, gear, nozzle := one, one, one, one, 0.0, 0.0
	if !same(float64(t.SprayPressure), m.SprayPressure.SI()) {
		pressure, pressureThen = m.SprayPressure, wire.In(t.SprayPressure, k.units.pressure)
	}
	if !same(float64(t.DutyCycle), m.DutyCycle.SI()) {
		duty, dutyThen = m.DutyCycle, percent(t.DutyCycle)
	}
	if t.Gear != 0 {
		gear = calc.GearChangeCost
	}
	if t.Nozzle != 0 {
		nozzle = calc.NozzleChangeCost
	}
	w.Line(method.ChangeSize, "/changeSize", working.Dimensionless(p.Size)).
		With("v_p", k.speed(t)).With("v", m.GroundSpeed).With("p_p", pressureThen).With("p", pressure).
		With("d_p", dutyThen).With("d", duty).Number("g", gear).Number("z", nozzle)
}
