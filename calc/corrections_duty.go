package calc

import (
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

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
	x.decide(a)
}

func (x *planner) solveDuty(a attempt) attempt {
	needed := a.to.duty * x.target / x.rate(a.to)
	s := bound(needed, float64(x.in.DutyCycleLimits.Low), float64(x.in.DutyCycleLimits.High))
	a = a.solved(ChangeDutyCycle, needed, s, ChangeDutyCycle)
	a.to.duty = s.value
	return a
}

// checkDuty checks the duty cycle, which is never above 1.
func (in CorrectionsInput) checkDuty(v *finding.Invalid) {
	l := in.DutyCycleLimits
	v.PositiveFor(float64(in.Measured.DutyCycle), measuredDutyCycle, finding.Given(l != DutyCycleRange{}, "dutyCycleLimits"))
	*v = append(*v, PressureRange{unit.Pressure(l.Low), unit.Pressure(l.High)}.check().Under(finding.Member("dutyCycleLimits"))...)
	over := func(duty unit.Ratio) bool { return finding.Valid(float64(duty)) && !finding.AtMost(float64(duty), 1) }
	if over(in.Measured.DutyCycle) {
		v.Add(measuredDutyCycle, CodeOver100Percent)
	}
	if over(l.High) {
		v.Add(finding.Member("dutyCycleLimits").Member("high"), CodeOver100Percent)
	}
}
