package api

import (
	"math"

	"wetrun/calc"
	"wetrun/calc/method"
	"wetrun/calc/unit"
)

// correctionsWork is the working of one request. Its request holds what was measured,
// on a sheet as the other parts answered it.
type correctionsWork struct {
	r        *CorrectionsRequest
	units    *resultUnits
	exponent Quantity
}

func (r *CorrectionsRequest) work(w working, x *calc.CorrectionsResult, a *CorrectionsAnswer) {
	k := &correctionsWork{r, r.units(), plainNumber(calc.SquareRoot)}
	if r.PressureExponent.given() {
		k.exponent = plainNumber(r.PressureExponent.si())
	}
	w.line(method.RateDeviation, "/deviation", a.Deviation).with("R", r.Measured.ApplicationRate).with("R_t", r.TargetApplicationRate)
	for i := range x.Plans {
		p, y, w := &x.Plans[i], &a.Plans[i], w.item("/plans", i)
		k.attempt(w, &p.Attempt, &attemptMembers{
			speed: y.GroundSpeed, pressure: y.SprayPressure, engine: y.EngineSpeed, duty: y.DutyCycle,
			rate: y.PredictedApplicationRate, deviation: y.Deviation,
			names: [6]string{"/groundSpeed", "/sprayPressure", "/engineSpeed", "/dutyCycle", "/predictedApplicationRate", "/deviation"},
		})
		k.size(w, p, y)
	}
	for i := range x.Rejected {
		k.rejection(w.item("/rejected", i), &x.Rejected[i], &a.Rejected[i])
	}
}

// attemptMembers are the members of an answer that an attempt fills, where it has them.
type attemptMembers struct {
	speed, pressure, engine, duty, rate, deviation Quantity
	names                                          [6]string
}

// measured or planned: a value of a state, as given where it is the measured one.
func (k *correctionsWork) value(si float64, measured Quantity, u unit.ID) Quantity {
	if near(si, measured.si()) {
		return measured
	}
	return in(si, u)
}

func (k *correctionsWork) speed(s *calc.MachineState) Quantity {
	return k.value(float64(s.GroundSpeed), k.r.Measured.GroundSpeed, k.units.speed)
}

// gear is the listed or measured pair of speed and engine speed of a gear.
func (k *correctionsWork) gear(n int) (speed, engine Quantity) {
	if n == 0 {
		return k.r.Measured.GroundSpeed, k.r.Measured.EngineSpeed
	}
	return k.r.Gears[n-1].GroundSpeed, k.r.Gears[n-1].EngineSpeed
}

// flowRatio adds the lines of what other nozzles do to the flow; 1 for the present ones.
func (k *correctionsWork) flowRatio(w working, n int) Quantity {
	if n == 0 {
		return plainNumber(1)
	}
	q1, p1 := k.known(w, 0)
	q2, p2 := k.known(w, n)
	f := dimensionless(q2.si() / q1.si() * math.Pow(p1.si()/p2.si(), k.exponent.Value))
	w.intermediate(method.FlowRatio, f).with("q_2", q2).with("q_1", q1).with("p_1", p1).with("p_2", p2).with("n", k.exponent)
	return f
}

// nozzle is one of the shelf, from 1, or the present one, 0.
func (k *correctionsWork) nozzle(n int) *NozzleRequest {
	if n == 0 {
		return &k.r.Nozzle.NozzleRequest
	}
	return &k.r.Nozzles[n-1].NozzleRequest
}

// known is a flow that a nozzle is known to give, and at which pressure: that of its
// chart at the measured pressure, or its rating.
func (k *correctionsWork) known(w working, n int) (flow, pressure Quantity) {
	if len(k.nozzle(n).FlowChart) > 0 {
		return k.chartFlow(w, n, k.r.Measured.SprayPressure), k.r.Measured.SprayPressure
	}
	a := k.nozzle(n).answer(0)
	return a.RatedFlowRate, a.RatedPressure
}

// rate adds the line of the rate in a state, by what differs from the measured one.
func (k *correctionsWork) rate(w working, s *calc.MachineState, f Quantity, member string, answered Quantity) Quantity {
	m, one := &k.r.Measured, plainNumber(1)
	v, vp, p, pp, d, dp := one, one, one, one, one, one
	moved := !near(float64(s.SprayPressure), m.SprayPressure.si())
	if moved && k.byChart(s.Nozzle) {
		f, moved = k.flowRatioByChart(w, s, f), false
	}
	rate := m.ApplicationRate.si() * f.Value
	if !near(float64(s.GroundSpeed), m.GroundSpeed.si()) {
		v, vp = m.GroundSpeed, k.speed(s)
		rate *= v.si() / vp.si()
	}
	if moved {
		p, pp = m.SprayPressure, in(s.SprayPressure, k.units.pressure)
		rate *= math.Pow(pp.si()/p.si(), k.exponent.Value)
	}
	if !near(float64(s.DutyCycle), m.DutyCycle.si()) {
		d, dp = m.DutyCycle, percent(s.DutyCycle)
		rate *= dp.si() / d.si()
	}
	value := in(rate, k.units.rate)
	w.lineOr(method.PredictedRate, member, answered, value).
		with("R", m.ApplicationRate).with("f", f).with("v", v).with("v_p", vp).with("p_p", pp).with("p", p).with("n", k.exponent).with("d_p", dp).with("d", d)
	return value
}

// attempt adds how a state was found, the rate in it and how far that is off.
func (k *correctionsWork) attempt(w working, t *calc.Attempt, a *attemptMembers) {
	m := &k.r.Measured
	f := k.flowRatio(w, t.To.Nozzle)
	speed, engine := k.gear(t.To.Gear)
	engineSolved := t.Solves && t.Solved == calc.ChangeEngineSpeed
	if t.From.Gear != 0 {
		from := in(t.From.GroundSpeed, k.units.speed)
		answered := a.speed
		if t.Solves && (engineSolved || t.Solved == calc.ChangeSpeed) {
			answered = Quantity{}
		}
		w.lineOr(method.SpeedInGear, a.names[0], answered, from).with("v_g", speed).with("e", m.EngineSpeed).with("e_g", engine)
	}
	if t.Solves {
		k.solved(w, t, f, a)
		if engineSolved {
			w.lineOr(method.SpeedInGear, a.names[0], a.speed, in(t.To.GroundSpeed, k.units.speed)).
				with("v_g", speed).with("e", in(t.To.EngineSpeed, unitRpm)).with("e_g", engine)
		}
	}
	if t.To.SprayPressure != 0 && !(t.Solves && t.Solved == calc.ChangePressure) && a.pressure.given() {
		w.conversion(a.names[1], a.pressure, m.SprayPressure)
	}
	if a.rate.given() {
		k.rate(w, &t.To, f, a.names[4], a.rate)
		w.line(method.RateDeviation, a.names[5], a.deviation).with("R", a.rate).with("R_t", k.r.TargetApplicationRate)
	}
}

// solved adds what was solved for, and the limit that it stands at.
func (k *correctionsWork) solved(w working, t *calc.Attempt, f Quantity, a *attemptMembers) {
	m := &k.r.Measured
	base := m.ApplicationRate
	if t.From.Gear != 0 || t.From.Nozzle != 0 {
		base = k.rate(w, &t.From, f, "", Quantity{})
	}
	answered := map[calc.Change]Quantity{calc.ChangeSpeed: a.speed, calc.ChangePressure: a.pressure, calc.ChangeEngineSpeed: a.engine, calc.ChangeDutyCycle: a.duty}[t.Solved]
	name := map[calc.Change]string{calc.ChangeSpeed: a.names[0], calc.ChangePressure: a.names[1], calc.ChangeEngineSpeed: a.names[2], calc.ChangeDutyCycle: a.names[3]}[t.Solved]
	wanted := answered
	if !near(answered.si(), t.Needed) {
		wanted = Quantity{} // the answer stands at the limit
	}
	switch t.Solved {
	case calc.ChangeSpeed:
		w.lineOr(method.CorrectedSpeed, name, wanted, in(t.Needed, k.units.speed)).
			with("v", k.speed(&t.From)).with("R", base).with("R_t", k.r.TargetApplicationRate)
	case calc.ChangePressure:
		if k.byChart(t.From.Nozzle) {
			k.pressureByChart(w, t, name, wanted, base)
			break
		}
		w.lineOr(method.CorrectedPressure, name, wanted, in(t.Needed, k.units.pressure)).
			with("p", m.SprayPressure).with("R", base).with("R_t", k.r.TargetApplicationRate).with("n", k.exponent)
	case calc.ChangeEngineSpeed:
		w.lineOr(method.CorrectedEngineSpeed, name, wanted, in(t.Needed, unitRpm)).
			with("e", m.EngineSpeed).with("R", base).with("R_t", k.r.TargetApplicationRate)
	case calc.ChangeDutyCycle:
		w.lineOr(method.CorrectedDutyCycle, name, wanted, in(t.Needed, unit.IDPct)).
			with("d", m.DutyCycle).with("R", base).with("R_t", k.r.TargetApplicationRate)
	}
	if !t.AtLimit || wanted.given() {
		return
	}
	if t.Solved == calc.ChangeEngineSpeed && t.Limited == calc.ChangeSpeed {
		speed, engine := k.gear(t.To.Gear)
		w.lineOr(method.EngineSpeedInGear, name, answered, in(t.To.EngineSpeed, unitRpm)).
			with("e_g", engine).with("v", k.limit(in(t.To.GroundSpeed, k.units.speed))).with("v_g", speed)
		return
	}
	if answered.given() {
		w.conversion(name, answered, k.limit(answered))
	}
}

// limit is the limit of the request that an answer stands at, as it was given.
func (k *correctionsWork) limit(q Quantity) Quantity {
	r, same := k.r, func(l Quantity) bool {
		return l.given() && l.Unit.Kind() == q.Unit.Kind() && math.Abs(l.si()-q.si()) <= 1e-12*q.si()
	}
	for _, l := range [...]Quantity{
		r.Limits.GroundSpeed.Low, r.Limits.GroundSpeed.High, r.Limits.SprayPressure.Low, r.Limits.SprayPressure.High,
		r.EngineSpeedLimits.Low, r.EngineSpeedLimits.High, r.RatedShaft.EngineSpeed, r.DutyCycleLimits.Low, r.DutyCycleLimits.High,
		r.Nozzle.PressureRange.Low, r.Nozzle.PressureRange.High,
	} {
		if same(l) {
			return l
		}
	}
	for i := range r.Nozzles {
		switch own := &r.Nozzles[i].PressureRange; {
		case same(own.Low):
			return own.Low
		case same(own.High):
			return own.High
		}
	}
	return q
}

// size adds how much a plan changes.
func (k *correctionsWork) size(w working, p *calc.Plan, a *PlanAnswer) {
	m, t := &k.r.Measured, &p.Attempt.To
	if a.RelativeChange.given() {
		now, then := m.GroundSpeed, in(t.GroundSpeed, k.units.speed)
		switch p.Change {
		case calc.ChangePressure:
			now, then = m.SprayPressure, in(t.SprayPressure, k.units.pressure)
		case calc.ChangeDutyCycle:
			now, then = m.DutyCycle, percent(t.DutyCycle)
		case calc.ChangeNozzle:
			now, then = plainNumber(1), dimensionless(1+float64(p.RelativeChange))
		}
		w.line(method.RelativeChange, "/relativeChange", a.RelativeChange).with("x", then).with("x_0", now)
	}
	if a.ChangeSize == nil {
		return
	}
	one := plainNumber(1)
	pressure, pressureThen, duty, dutyThen, gear, nozzle := one, one, one, one, 0.0, 0.0
	if !near(float64(t.SprayPressure), m.SprayPressure.si()) {
		pressure, pressureThen = m.SprayPressure, in(t.SprayPressure, k.units.pressure)
	}
	if !near(float64(t.DutyCycle), m.DutyCycle.si()) {
		duty, dutyThen = m.DutyCycle, percent(t.DutyCycle)
	}
	if t.Gear != 0 {
		gear = calc.GearChangeCost
	}
	if t.Nozzle != 0 {
		nozzle = calc.NozzleChangeCost
	}
	w.line(method.ChangeSize, "/changeSize", dimensionless(p.Size)).
		with("v_p", k.speed(t)).with("v", m.GroundSpeed).with("p_p", pressureThen).with("p", pressure).
		with("d_p", dutyThen).with("d", duty).number("g", gear).number("z", nozzle)
}
