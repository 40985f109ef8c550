package main

import "fmt"

// slipKinds are slips in what was read or caught, on sheets that are sound otherwise. Each says
// what a question may point at; what holds the entry, or a part of it, is accepted as well.
var slipKinds = []kind{
	{name: "slip: a reading in another unit", weight: 3, entry: func(t *trial) { t.misread(t.toUnit()) }},
	{name: "slip: a digit of a reading", weight: 3, entry: func(t *trial) { t.misread(pick(t.draw, 0.1, 10)) }},
	{name: "slip: all readings in another unit", weight: 3, entry: func(t *trial) {
		f := t.toUnit()
		for i := range t.s.Pressure.Readings {
			t.s.Pressure.Readings[i].Pressure = t.s.Pressure.Readings[i].Pressure.times(f)
		}
		if t.s.Pressure.CabPressure != nil {
			t.s.Pressure.CabPressure = t.s.Pressure.CabPressure.times(f)
		}
		// That all of them, or the cab's with them, is in another unit can be asked at any.
		t.slips("readings", "#/pressure")
	}},
	{name: "slip: sprayPressure in another unit", entry: func(t *trial) {
		t.s.Output.SprayPressure = t.crew.reads(t.m.meanPressure()).times(t.toUnit())
		t.slips("sprayPressure", "#/output/sprayPressure")
	}},
	{name: "slip: cab pressure in another unit", entry: func(t *trial) {
		t.s.Pressure.CabPressure = t.crew.reads(t.m.meanPressure()).times(t.toUnit())
		t.slips("cab", "#/pressure/cabPressure")
	}},
	{name: "slip: one catch times ten", weight: 3, entry: func(t *trial) { t.miscatch(10) }},
	{name: "slip: one catch in another unit", weight: 3, entry: func(t *trial) {
		if i := t.IntN(len(t.s.Output.Catches)); t.m.metric {
			t.miscatch(1000) // mL typed as L
		} else {
			t.otherJug(i)
			t.slips("catch", pointer("#/output/catches/%d", i))
		}
	}},
	{name: "slip: one catch's minutes typed as seconds", weight: 3, entry: func(t *trial) {
		i := t.IntN(len(t.s.Output.Catches))
		x := &t.s.Output.Catches[i]
		if t.chance(0.5) {
			x.Time = &quantity{x.Time.Value / 60, "s"}
			x.Time = written(x.Time.Value, "s", 2)
		} else { // 1:08 typed as 1.08, caught for so long
			x.Volume, x.Time = t.crew.catches(t.draw, t.m, &t.m.drops[t.caught[i]], 68)
			x.Time = &quantity{1.08, "s"}
		}
		t.slips("time", pointer("#/output/catches/%d", i))
	}},
	{name: "slip: nozzles of one drop left out", weight: 3, want: func(t *trial) { t.want.perDrop, t.want.beds = [2]int{2, 4}, true }, entry: func(t *trial) {
		i := t.IntN(len(t.s.Output.Catches))
		t.s.Output.Catches[i].Nozzles = 0
		t.slips("nozzles", pointer("#/output/catches/%d", i))
	}},
	{name: "slip: one nozzle's amount for every drop", want: func(t *trial) {
		t.want.perDrop, t.want.beds = [2]int{3, 4}, true
		rated(t) // without a rating the amounts agree with each other and with the mean
	}, entry: func(t *trial) {
		for i := range t.s.Output.Catches {
			x := &t.s.Output.Catches[i]
			x.Volume = written(toMark(x.Volume.inside()/float64(x.Nozzles), t.crew.jugMark), x.Volume.Unit, 5)
		}
		// All are low alike by the number: how many ran into the jug, what was read, or what
		// the nozzles are rated at.
		t.slips("catches", "#/output/catches", "#/nozzle")
	}},
	{name: "slip: all catches in another unit", weight: 3, entry: func(t *trial) {
		for i := range t.s.Output.Catches {
			t.otherJug(i)
		}
		t.slips("catches", "#/output/catches")
	}},
}

func pointer(format string, i int) string { return fmt.Sprintf(format, i) }

// slips makes the entry a slip.
func (t *trial) slips(what string, accepted ...string) {
	t.slip = &slip{what: what, accepted: accepted}
}

// toUnit is by what a pressure is off that was read in the other unit: bar or kPa typed as psi,
// psi typed as bar.
func (t *trial) toUnit() float64 {
	if t.m.metric {
		return bar / psi
	}
	return pick(t.draw, psi/bar, psi)
}

// otherJug reads a catch off the other scale of the jug, mL for ounces or ounces for mL, and
// writes the number with the usual unit.
func (t *trial) otherJug(i int) {
	x := &t.s.Output.Catches[i]
	mark, unit := 5.0, "mL"
	if t.m.metric {
		mark, unit = flOz/4, "fl_oz_us"
	}
	x.Volume = &quantity{written(toMark(x.Volume.inside(), mark), unit, 6).Value, x.Volume.Unit}
}

func (t *trial) misread(f float64) {
	i := t.IntN(len(t.s.Pressure.Readings))
	r := &t.s.Pressure.Readings[i]
	r.Pressure = r.Pressure.times(f)
	t.slips("reading", pointer("#/pressure/readings/%d", i))
}

func (t *trial) miscatch(f float64) {
	i := t.IntN(len(t.s.Output.Catches))
	x := &t.s.Output.Catches[i]
	x.Volume = x.Volume.times(f)
	t.slips("catch", pointer("#/output/catches/%d", i))
}
