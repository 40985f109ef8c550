package main

import "math"

// frame draws limits about what the machine does.
func (t *trial) frame() {
	m := t.m
	speed, pressure, speedStep, pressureStep := "mph", "psi", 0.5, 5.0
	if m.metric {
		speed, pressure, speedStep, pressureStep = "km/h", "bar", 0.5, 0.5
	}
	q := func(x float64, unit string, step float64) *quantity {
		return &quantity{max(step, toMark(x/factors[unit], step)), unit}
	}
	if t.chance(0.7) {
		t.speeds = &span{q(m.speed*t.between(0.4, 0.75), speed, speedStep), q(m.speed*t.between(1.35, 2), speed, speedStep)}
		if t.speeds.Low.inside() > m.speed*0.9 {
			t.speeds = nil
		}
	}
	if p := m.meanPressure(); t.chance(0.6) {
		t.pressures = &span{q(p*t.between(0.5, 0.75), pressure, pressureStep), q(p*t.between(1.3, 1.8), pressure, pressureStep)}
		if t.pressures.Low.inside() > p*0.85 || t.pressures.High.inside() < p*1.2 {
			t.pressures = nil
		}
	}
}

// aim chooses the target: so that the true rate is off as asked, or well within. Where the
// truth was broken it is that of the machine in order, or of the machine as it is.
func (t *trial) aim(meant float64) {
	rate := t.m.rate(t.rateBasis)
	if !t.kind.sound && t.kind.truth != nil && math.IsNaN(t.off) && t.chance(0.5) || rate == 0 {
		rate = meant
	}
	off := t.off
	if math.IsNaN(off) {
		off = t.between(-0.5, 0.5) * t.rateLimit
	}
	t.target = rate / (1 + off)
	if t.labelMax == 0 && t.chance(0.35) {
		t.labelMax = max(t.target, t.m.rate(t.rateBasis)*pick(t.draw, 1.0, 0)) * t.between(1.12, 1.6)
		if t.kind.sound {
			t.labelMax = max(t.labelMax, 1.12*rate)
		}
	}
}
