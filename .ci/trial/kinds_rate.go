package main

import "math"

// rateKinds are booms in order, whose rate, speed or pressure is not.
var rateKinds = []kind{
	{name: "rate off, speed reaches it", weight: 3, truth: func(t *trial) {
		t.rateOff(t.sign() * t.between(t.rateLimit+0.05, 0.3))
		t.bySpeed(1.3, 1.3)
		t.reach = true
	}},
	{name: "rate off, pressure reaches it", weight: 3, truth: func(t *trial) {
		t.rateOff(t.sign() * t.between(t.rateLimit+0.05, 0.2))
		t.bySpeed(0.05, 0.05)
		t.byPressure(1.8)
		t.reach = true
	}},
	{name: "rate off, both together reach it", weight: 3, truth: func(t *trial) {
		t.rateOff(t.sign() * t.between(0.28, 0.34))
		t.bySpeed(0.45, 0.45)
		t.byPressure(0.45)
		t.reach = true
	}},
	{name: "rate off, nothing reaches it", truth: func(t *trial) {
		t.rateOff(t.sign() * t.between(0.35, 0.6))
		t.bySpeed(0.1, 0.1)
		t.byPressure(0.1)
	}},
	{name: "rate over the label's maximum", weight: 4, truth: func(t *trial) {
		t.off = t.between(0.04, 0.3)
		rate := t.m.rate(t.rateBasis)
		t.labelMax = max(rate/(1+t.off), rate/t.between(1.04, 1.2))
		t.off = max(t.off, rate/t.labelMax-1)
	}},
	{name: "within a hair of the label's maximum", weight: 4, truth: func(t *trial) {
		rate := t.m.rate(t.rateBasis)
		t.labelMax = rate * t.between(0.99, 1.01)
		t.off = t.between(0.01, t.rateLimit*0.8)
	}},
	{name: "rate under the label's minimum", truth: func(t *trial) {
		t.off = -t.between(0, t.rateLimit*0.6)
		rate := t.m.rate(t.rateBasis)
		t.labelMin = rate * t.between(1.04, 1.12)
		t.off = min(t.off, rate/t.labelMin-1)
		t.notReady = true
	}},
	{name: "pressure outside the nozzle's range", weight: 3, want: func(t *trial) { t.ranged = true }, truth: func(t *trial) {
		p := t.m.meanPressure()
		unit := t.m.lowest.Unit
		if t.chance(0.5) {
			t.m.lowest, t.m.highest = written(p*t.between(1.12, 1.3), unit, 2), written(p*2.5, unit, 2)
		} else {
			t.m.lowest, t.m.highest = written(p*0.3, unit, 2), written(p/t.between(1.12, 1.3), unit, 2)
		}
		t.pressures = nil
		if t.chance(0.5) {
			t.off = t.sign() * t.between(t.rateLimit+0.05, 0.3)
		}
	}},
	{name: "speed outside its limits, rate off", weight: 3, truth: func(t *trial) {
		t.rateOff(t.sign() * t.between(t.rateLimit+0.05, 0.3))
		v := t.m.speed
		if t.chance(0.5) {
			t.speeds = t.speedSpan(v*0.5, v/t.between(1.1, 1.3))
		} else {
			t.speeds = t.speedSpan(v*t.between(1.1, 1.3), v*2)
		}
		t.byPressure(1.5)
	}},
	{name: "speed outside its limits, rate right", truth: func(t *trial) {
		v := t.m.speed
		t.speeds = t.speedSpan(v*0.5, v/t.between(1.1, 1.3))
		t.byPressure(1.5)
	}},
	{name: "sound, pulsing nozzles", sound: true, truth: func(t *trial) { t.m.duty = t.between(0.4, 0.9) }},
	{name: "pulsing nozzles, rate off", truth: func(t *trial) {
		t.m.duty, t.off = t.between(0.4, 0.9), t.sign()*t.between(t.rateLimit+0.05, 0.3)
	}},
}

func (t *trial) rateOff(share float64) { t.off = share }

func (t *trial) speedSpan(low, high float64) *span {
	unit := "mph"
	if t.m.metric {
		unit = "km/h"
	}
	return &span{written(low, unit, 3), written(high, unit, 3)}
}

// bySpeed sets limits of the speed that leave so much of what the rate needs.
func (t *trial) bySpeed(down, up float64) {
	need := math.Abs(math.Log1p(t.off))
	t.speeds = t.speedSpan(t.m.speed*math.Exp(-need*down-0.02), t.m.speed*math.Exp(need*up+0.02))
}

// byPressure sets limits of the pressure, and the nozzle's range, that leave so much of it.
func (t *trial) byPressure(share float64) {
	need := 2 * math.Abs(math.Log1p(t.off))
	if math.IsNaN(t.off) {
		need = 2 * math.Log(1.3)
	}
	unit := t.m.lowest.Unit
	p := t.m.meanPressure()
	low, high := written(p*math.Exp(-need*share-0.06), unit, 3), written(p*math.Exp(need*share+0.06), unit, 3)
	t.pressures = &span{low, high}
	t.m.lowest, t.m.highest = low, high
}
