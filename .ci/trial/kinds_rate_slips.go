package main

import "math"

// rateSlipKinds are slips in what the rate is worked out from, and what it is held to. From a
// rate alone nobody can tell which of speed, width, nozzles and target is wrong by a factor,
// so each of them may be asked about, unless something else on the sheet shows it.
var rateSlipKinds = []kind{
	{name: "slip: course in another unit", weight: 3, entry: func(t *trial) {
		f := foot // feet typed as m on a metric sheet make it 3.28 times as long, metres typed as ft as short
		if t.m.metric {
			f = 1 / foot
		}
		for i := range t.s.Speed.Runs {
			t.s.Speed.Runs[i].CourseLength = t.s.Speed.Runs[i].CourseLength.times(f)
		}
		t.rateSlip("course")
	}},
	{name: "slip: a digit of one run of three", want: func(t *trial) { t.runs = 3 }, entry: func(t *trial) { t.mistime() }},
	{name: "slip: a digit of one run of two", want: func(t *trial) { t.runs = 2 }, entry: func(t *trial) {
		t.mistime()
		// Which of the two is wrong nobody can tell, and to time them again asks the same.
		t.slip.accepted, t.slip.codes = []string{"#/speed"}, []string{"repeat_runs"}
	}},
	{name: "slip: bed width in feet typed as inches", want: treated, entry: func(t *trial) { t.miswidth(inch / foot) }},
	{name: "slip: bed width in inches typed as feet", want: treated, entry: func(t *trial) { t.miswidth(foot / inch) }},
	{name: "slip: bed width in cm typed as inches", want: treated, entry: func(t *trial) { t.miswidth(2.54) }},
	{name: "slip: target in another unit", weight: 3, entry: func(t *trial) {
		f := factors["gal_us/acre"]
		if t.m.metric {
			f = 1 / f
		}
		t.mistarget(f)
	}},
	{name: "slip: target times ten", entry: func(t *trial) { t.mistarget(10) }},
	{name: "slip: rated flow times ten", want: numbered, entry: func(t *trial) {
		t.s.Nozzle.RatedFlowRate = t.s.Nozzle.RatedFlowRate.times(10)
		t.slips("rated flow", "#/nozzle")
	}},
	{name: "slip: rated pressure in another unit", want: numbered, entry: func(t *trial) {
		f := psi / bar
		if t.m.metric {
			f = bar / psi
		}
		t.s.Nozzle.RatedPressure = t.s.Nozzle.RatedPressure.times(f)
		t.slips("rated pressure", "#/nozzle")
	}},
	{name: "slip: nozzles per bed by a factor of three", want: beds, entry: func(t *trial) {
		if n := t.s.Machine.NozzlesPerBed; n%3 == 0 && t.chance(0.5) {
			t.s.Machine.NozzlesPerBed = n / 3
		} else {
			t.s.Machine.NozzlesPerBed = n * 3
		}
		t.rateSlip("nozzles")
	}},
	{name: "slip: basis of the rate mistaken", weight: 3, want: func(t *trial) { t.want.rows, t.rateBasis = true, "treated" }, entry: func(t *trial) {
		t.s.Target.RateBasis = "field"
		t.slips("basis", "#/target", "#/machine")
	}},
}

func beds(t *trial) { t.want.beds = true }

// treated asks for a rate per treated area; that per field area does not rest on the bed's width.
func treated(t *trial) {
	t.want.beds = true
	if t.chance(0.5) {
		t.want.rows, t.rateBasis = true, "treated"
	} else {
		t.noRows = true
	}
}

// numbered asks for a rating in numbers, against which the catches are judged.
func numbered(t *trial) {
	t.want.numbers = true
	rated(t)
}

func (t *trial) mistime() {
	i := t.IntN(len(t.s.Speed.Runs))
	r := &t.s.Speed.Runs[i]
	switch t.IntN(4) {
	case 0:
		r.Time = r.Time.times(10)
	case 1:
		r.Time = r.Time.times(0.1)
	case 2: // a first digit doubled: 22.8 as 222.8
		r.Time = written(r.Time.Value+math.Floor(r.Time.Value/10)*100, "s", 5)
	default: // a first digit lost: 22.8 as 2.8
		r.Time = written(max(0.1, math.Mod(r.Time.Value, 10)), "s", 5)
	}
	t.slips("run", pointer("#/speed/runs/%d", i))
}

func (t *trial) miswidth(f float64) {
	t.s.Machine.BedWidth = t.s.Machine.BedWidth.times(f)
	t.rateSlip("width")
}

func (t *trial) mistarget(f float64) {
	t.s.Target.ApplicationRate = t.s.Target.ApplicationRate.times(f)
	if m := t.s.Target.LabelMaximum; m != nil { // taken from the same label in the same way
		t.s.Target.LabelMaximum = m.times(f)
	}
	t.rateSlip("target")
}

// rateSlip is a slip that shows in the rate alone. Without a rating to hold the catches to, they
// may be what is wrong as well.
func (t *trial) rateSlip(what string) {
	t.slips(what, "#/speed", "#/machine", "#/target")
	if !t.rating {
		t.slip.accepted = append(t.slip.accepted, "#/output/catches")
	}
}
