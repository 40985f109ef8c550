package main

// evidenceKinds are sheets on which too little was seen, and sound ones with confirmed entries.
var evidenceKinds = []kind{
	{name: "runs that disagree", weight: 3, want: func(t *trial) {
		t.runsApart, t.notReady = t.sign()*t.between(0.12, 0.25), true
	}},
	{name: "one run", want: func(t *trial) { t.runs, t.notReady = 1, true }},
	{name: "six catches of up to 300", weight: 4, want: func(t *trial) {
		t.catches, t.want.points = 6, [2]int{12, 300}
	}, entry: func(t *trial) { t.thin = !enough(6, t.s.Output.CatchPointsOnBoom) }},
	{name: "a side never caught", weight: 3, want: func(t *trial) { t.positions = true }, truth: func(t *trial) {
		without := pick(t.draw, allSides...)
		other := []string{}
		for _, s := range allSides {
			if s != without {
				other = append(other, s)
			}
		}
		sides := t.m.sides
		t.m.sides = other
		t.caught = spreadOver(t.draw, t.m, t.catches)
		t.m.sides, t.thin = sides, true
	}},
	{name: "a side never read", weight: 3, want: func(t *trial) { t.positions, t.readings = true, 6 }, entry: func(t *trial) {
		without := pick(t.draw, allSides...)
		var left []reading
		for _, r := range t.s.Pressure.Readings {
			if r.Position != without {
				left = append(left, r)
			}
		}
		t.s.Pressure.Readings, t.thin = left, true
	}},
	{name: "confirmed: a slow machine", sound: true, want: func(t *trial) {
		t.want.beds, t.want.speed, t.want.rate = true, [2]float64{0.25 * mph, 0.4 * mph}, [2]float64{3000, 6000}
	}, entry: func(t *trial) {
		t.s.Confirmed = []string{"#/target/applicationRate"}
		for i := range t.s.Speed.Runs {
			t.s.Confirmed = append(t.s.Confirmed, pointer("#/speed/runs/%d/courseLength", i), pointer("#/speed/runs/%d/time", i))
		}
	}},
	{name: "confirmed: a low pressure", sound: true, want: func(t *trial) {
		t.want.pressure = [2]float64{6 * psi, 8 * psi}
	}, entry: func(t *trial) {
		for i := range t.s.Pressure.Readings {
			t.s.Confirmed = append(t.s.Confirmed, pointer("#/pressure/readings/%d/pressure", i))
		}
		if t.s.Output.SprayPressure != nil {
			t.s.Confirmed = append(t.s.Confirmed, "#/output/sprayPressure")
		}
	}},
}
