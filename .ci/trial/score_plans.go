package main

import "math"

// plans scores those that are offered.
func (s *score) plans(t *trial, a *answer) {
	offered := a.Correction.Result.Plans
	if len(offered) == 0 {
		return
	}
	if a.has(byEyeCodes...) || a.has(questionCodes...) || a.has("repair_boom", "catch_after_repair") {
		s.fault(unsafe, "plans beside an open repair, question or finding")
	}
	for _, p := range offered {
		if rate := t.after(a, p); t.labelMax != 0 && rate > 1.03*t.labelMax {
			s.fault(unsafe, "a plan leads to %.1f %% over the label: %v", 100*(rate/t.labelMax-1), p)
		}
		if why := t.breaks(a, p); why != "" {
			s.fault(unsafe, "a plan leaves %s: %v", why, p)
		}
	}
	s.could[wrongWay] = true
	aim := t.target
	if x := offered[0].Aim.inside(); x != 0 {
		aim = x
	}
	before, after := math.Abs(t.m.rate(t.rateBasis)/aim-1), math.Abs(t.after(a, offered[0])/aim-1)
	mends := t.breaks(a, plan{}) != "" && after <= t.rateLimit // a limit, at a rate that was right
	if after > before+0.02 && !mends {
		s.fault(wrongWay, "from %.1f %% off to %.1f %%: %v", 100*before, 100*after, offered[0])
	}
}

// measured is the speed and the pressure that the answer goes by.
func (a *answer) measured() (speed, pressure float64) {
	speed, pressure = a.Speed.Result.GroundSpeed.inside(), a.Output.Result.SprayPressure.inside()
	if pressure == 0 {
		pressure = a.Pressure.Result.Mean.inside()
	}
	return speed, pressure
}

// after is the true rate when a plan was carried out. A crew changes speed and pressure by what
// it measured, with the same errors before and after; after a slip it sets what the plan says.
func (t *trial) after(a *answer, p plan) float64 {
	rate := t.m.rate(t.rateBasis)
	speed, pressure := a.measured()
	if t.slip != nil {
		speed, pressure = t.m.speed, t.m.meanPressure()
	}
	if x := p.GroundSpeed.inside(); x != 0 && speed != 0 {
		rate *= speed / x
	}
	if x := p.SprayPressure.inside(); x != 0 && pressure != 0 {
		rate *= math.Sqrt(x / pressure)
	}
	if x := p.DutyCycle.inside(); x != 0 {
		rate *= x / t.m.duty
	}
	return rate
}

// breaks is the limit of the sheet that a plan leaves broken, by the figures of the answer.
func (t *trial) breaks(a *answer, p plan) string {
	speed, pressure := a.measured()
	if x := p.GroundSpeed.inside(); x != 0 {
		speed = x
	}
	if x := p.SprayPressure.inside(); x != 0 {
		pressure = x
	}
	in := func(s *span, x float64) bool {
		return s == nil || x == 0 || x > s.Low.inside()*0.9999 && x < s.High.inside()*1.0001
	}
	rate := p.Predicted.inside()
	switch l := t.s.Limits; {
	case l != nil && !in(l.GroundSpeed, speed):
		return "the limits of the speed"
	case l != nil && !in(l.SprayPressure, pressure):
		return "the limits of the pressure"
	case t.s.Nozzle != nil && !in(t.s.Nozzle.PressureRange, pressure):
		return "the nozzle's range"
	case t.s.Target.LabelMaximum != nil && rate > t.s.Target.LabelMaximum.inside()*1.0001:
		return "the label's maximum"
	case rate != 0 && rate < t.s.Target.LabelMinimum.inside()*0.9999:
		return "the label's minimum"
	}
	return ""
}
