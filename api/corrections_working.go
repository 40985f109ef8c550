package api

import (
	"math"
	"strconv"

	"wetrun/calc"
	"wetrun/calc/method"
	"wetrun/calc/unit"
)

// correctionsWork is the working of one request. Its request holds what was measured,
// on a sheet as the other parts answered it.
type correctionsWork struct {
	*working
	r        *CorrectionsRequest
	units    *resultUnits
	exponent Quantity
}

func (r *CorrectionsRequest) work(w *working, x *calc.CorrectionsResult, a *CorrectionsResponse) {
	k := &correctionsWork{w, r, r.units(), plainNumber(calc.SquareRoot)}
	if r.PressureExponent.given() {
		k.exponent = plainNumber(r.PressureExponent.si())
	}
	w.line(method.RateDeviation, "/deviation", a.Deviation, put("R", r.Measured.ApplicationRate), put("R_t", r.TargetApplicationRate))
	for i := range x.Plans {
		p, y := &x.Plans[i], &a.Plans[i]
		k.attempt(&p.Attempt, "/plans/"+strconv.Itoa(i), attemptMembers{
			speed: y.GroundSpeed, pressure: y.SprayPressure, engine: y.EngineSpeed, duty: y.DutyCycle,
			rate: y.PredictedApplicationRate, deviation: y.Deviation,
			names: [6]string{"/groundSpeed", "/sprayPressure", "/engineSpeed", "/dutyCycle", "/predictedApplicationRate", "/deviation"},
		})
		k.size(p, y, "/plans/"+strconv.Itoa(i))
	}
	for i := range x.Rejected {
		k.rejection(&x.Rejected[i], &a.Rejected[i], "/rejected/"+strconv.Itoa(i))
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

func (k *correctionsWork) speed(s calc.MachineState) Quantity {
	return k.value(float64(s.GroundSpeed), k.r.Measured.GroundSpeed, k.units.speed)
}

// member adds a line whose member is left out where the answer does not have it.
func (k *correctionsWork) member(id method.ID, at string, answered, value Quantity, operands ...operand) {
	if !answered.given() {
		k.step(id, value, operands...)
		return
	}
	k.line(id, at, answered, operands...)
}

// gear is the listed or measured pair of speed and engine speed of a gear.
func (k *correctionsWork) gear(n int) (speed, engine operand) {
	if n == 0 {
		return put("v_g", k.r.Measured.GroundSpeed), put("e_g", k.r.Measured.EngineSpeed)
	}
	g := k.r.Gears[n-1]
	return put("v_g", g.GroundSpeed), put("e_g", g.EngineSpeed)
}

// flowRatio adds the lines of what other nozzles do to the flow; 1 for the present ones.
func (k *correctionsWork) flowRatio(n int) Quantity {
	if n == 0 {
		return plainNumber(1)
	}
	q1, p1 := k.known(0)
	q2, p2 := k.known(n)
	f := bare(q2.si() / q1.si() * math.Pow(p1.si()/p2.si(), k.exponent.Value))
	k.step(method.FlowRatio, f, put("q_2", q2), put("q_1", q1), put("p_1", p1), put("p_2", p2), put("n", k.exponent))
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
func (k *correctionsWork) known(n int) (flow, pressure Quantity) {
	if len(k.nozzle(n).FlowChart) > 0 {
		return k.chartFlow(n, k.r.Measured.SprayPressure), k.r.Measured.SprayPressure
	}
	a := k.nozzle(n).answer(0)
	return a.RatedFlowRate, a.RatedPressure
}

// rate adds the line of the rate in a state, by what differs from the measured one.
func (k *correctionsWork) rate(s calc.MachineState, f Quantity, at string, answered Quantity) Quantity {
	m, one := &k.r.Measured, plainNumber(1)
	v, vp, p, pp, d, dp := one, one, one, one, one, one
	moved := !near(float64(s.SprayPressure), m.SprayPressure.si())
	if moved && k.byChart(s.Nozzle) {
		f, moved = k.flowRatioByChart(s, f), false
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
	k.member(method.PredictedRate, at, answered, value, put("R", m.ApplicationRate), put("f", f), put("v", v), put("v_p", vp),
		put("p_p", pp), put("p", p), put("n", k.exponent), put("d_p", dp), put("d", d))
	return value
}

// attempt adds how a state was found, the rate in it and how far that is off.
func (k *correctionsWork) attempt(t *calc.Attempt, at string, a attemptMembers) {
	m := &k.r.Measured
	f := k.flowRatio(t.To.Nozzle)
	vg, eg := k.gear(t.To.Gear)
	engineSolved := t.Solves && t.Solved == calc.ChangeEngineSpeed
	if t.From.Gear != 0 {
		from := in(t.From.GroundSpeed, k.units.speed)
		answered := a.speed
		if t.Solves && (engineSolved || t.Solved == calc.ChangeSpeed) {
			answered = Quantity{}
		}
		k.member(method.SpeedInGear, at+a.names[0], answered, from, vg, put("e", m.EngineSpeed), eg)
	}
	if t.Solves {
		k.solved(t, f, at, a)
		if engineSolved {
			k.member(method.SpeedInGear, at+a.names[0], a.speed, in(t.To.GroundSpeed, k.units.speed), vg, put("e", in(t.To.EngineSpeed, unitRpm)), eg)
		}
	}
	if t.To.SprayPressure != 0 && !(t.Solves && t.Solved == calc.ChangePressure) && a.pressure.given() {
		k.workConversion(at+a.names[1], a.pressure, m.SprayPressure)
	}
	if a.rate.given() {
		k.rate(t.To, f, at+a.names[4], a.rate)
		k.line(method.RateDeviation, at+a.names[5], a.deviation, put("R", a.rate), put("R_t", k.r.TargetApplicationRate))
	}
}

// solved adds what was solved for, and the limit that it stands at.
func (k *correctionsWork) solved(t *calc.Attempt, f Quantity, at string, a attemptMembers) {
	m := &k.r.Measured
	base := m.ApplicationRate
	if t.From.Gear != 0 || t.From.Nozzle != 0 {
		base = k.rate(t.From, f, "", Quantity{})
	}
	rate, target := put("R", base), put("R_t", k.r.TargetApplicationRate)
	answered := [...]Quantity{calc.ChangeSpeed: a.speed, calc.ChangePressure: a.pressure, calc.ChangeEngineSpeed: a.engine, calc.ChangeDutyCycle: a.duty}[t.Solved]
	name := at + [...]string{calc.ChangeSpeed: a.names[0], calc.ChangePressure: a.names[1], calc.ChangeEngineSpeed: a.names[2], calc.ChangeDutyCycle: a.names[3]}[t.Solved]
	wanted := answered
	if !near(answered.si(), t.Needed) {
		wanted = Quantity{} // the answer stands at the limit
	}
	switch t.Solved {
	case calc.ChangeSpeed:
		k.member(method.CorrectedSpeed, name, wanted, in(t.Needed, k.units.speed), put("v", k.speed(t.From)), rate, target)
	case calc.ChangePressure:
		if k.byChart(t.From.Nozzle) {
			k.pressureByChart(t, name, wanted, base)
			break
		}
		k.member(method.CorrectedPressure, name, wanted, in(t.Needed, k.units.pressure), put("p", m.SprayPressure), rate, target, put("n", k.exponent))
	case calc.ChangeEngineSpeed:
		k.member(method.CorrectedEngineSpeed, name, wanted, in(t.Needed, unitRpm), put("e", m.EngineSpeed), rate, target)
	case calc.ChangeDutyCycle:
		k.member(method.CorrectedDutyCycle, name, wanted, in(t.Needed, unit.IDPct), put("d", m.DutyCycle), rate, target)
	}
	if !t.AtLimit || wanted.given() {
		return
	}
	if t.Solved == calc.ChangeEngineSpeed && t.Limited == calc.ChangeSpeed {
		vg, eg := k.gear(t.To.Gear)
		k.member(method.EngineSpeedInGear, name, answered, in(t.To.EngineSpeed, unitRpm), eg, put("v", k.limit(in(t.To.GroundSpeed, k.units.speed))), vg)
		return
	}
	if answered.given() {
		k.workConversion(name, answered, k.limit(answered))
	}
}

// limit is the limit of the request that an answer stands at, as it was given.
func (k *correctionsWork) limit(q Quantity) Quantity {
	r := k.r
	all := []Quantity{
		r.Limits.GroundSpeed.Low, r.Limits.GroundSpeed.High, r.Limits.SprayPressure.Low, r.Limits.SprayPressure.High,
		r.EngineSpeedLimits.Low, r.EngineSpeedLimits.High, r.RatedShaft.EngineSpeed, r.DutyCycleLimits.Low, r.DutyCycleLimits.High,
		r.Nozzle.PressureRange.Low, r.Nozzle.PressureRange.High,
	}
	for i := range r.Nozzles {
		all = append(all, r.Nozzles[i].PressureRange.Low, r.Nozzles[i].PressureRange.High)
	}
	for _, l := range all {
		if l.given() && l.Unit.Kind() == q.Unit.Kind() && math.Abs(l.si()-q.si()) <= 1e-12*q.si() {
			return l
		}
	}
	return q
}

// size adds how much a plan changes.
func (k *correctionsWork) size(p *calc.Plan, a *PlanResponse, at string) {
	m, t := &k.r.Measured, &p.Attempt.To
	if a.RelativeChange.given() {
		now, then := m.GroundSpeed, in(t.GroundSpeed, k.units.speed)
		switch p.Change {
		case calc.ChangePressure:
			now, then = m.SprayPressure, in(t.SprayPressure, k.units.pressure)
		case calc.ChangeDutyCycle:
			now, then = m.DutyCycle, percent(t.DutyCycle)
		case calc.ChangeNozzle:
			now, then = plainNumber(1), bare(1+float64(p.RelativeChange))
		}
		k.line(method.RelativeChange, at+"/relativeChange", a.RelativeChange, put("x", then), put("x_0", now))
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
	k.line(method.ChangeSize, at+"/changeSize", bare(p.Size), put("v_p", k.speed(*t)), put("v", m.GroundSpeed),
		put("p_p", pressureThen), put("p", pressure), put("d_p", dutyThen), put("d", duty), putNumber("g", gear), putNumber("z", nozzle))
}
