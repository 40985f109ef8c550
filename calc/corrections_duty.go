package calc

import "wetrun/calc/unit"

// A DutyCycleRange is the lowest and the highest duty cycle of pulsing nozzles; both
// zero when not known.
type DutyCycleRange struct{ Low, High unit.Ratio }

// byDuty adds the plan or the rejection of another duty cycle. The flow is in
// proportion to the time that the nozzles are open.
func (x *planner) byDuty() {
	a := x.solveDuty(attempt{to: x.now})
	if x.in.DutyCycleLimits == (DutyCycleRange{}) {
		no := x.rejection(a, ReasonDutyCycleLimitsNotGiven)
		no.PredictedApplicationRate, no.Deviation = 0, 0
		x.r.Rejected = append(x.r.Rejected, no)
		return
	}
	x.settle(a)
}

func (x *planner) solveDuty(a attempt) attempt {
	needed := a.to.duty * x.target / x.rate(a.to)
	s := place(needed, float64(x.in.DutyCycleLimits.Low), float64(x.in.DutyCycleLimits.High))
	a = a.solved(ChangeDutyCycle, needed, s, ChangeDutyCycle)
	a.to.duty = s.value
	return a
}

// checkDuty checks the duty cycle, which is never above 1.
func (in CorrectionsInput) checkDuty(v *Invalid) {
	l := in.DutyCycleLimits
	v.positiveFor(float64(in.Measured.DutyCycle), "Measured.DutyCycle", given(l != DutyCycleRange{}, "DutyCycleLimits"))
	*v = append(*v, PressureRange{unit.Pressure(l.Low), unit.Pressure(l.High)}.check("DutyCycleLimits")...)
	for _, c := range [...]struct {
		duty  unit.Ratio
		field string
	}{{in.Measured.DutyCycle, "Measured.DutyCycle"}, {l.High, "DutyCycleLimits.High"}} {
		if sound(float64(c.duty)) && !atMost(float64(c.duty), 1) {
			v.add(c.field, CodeOver100Percent)
		}
	}
}
