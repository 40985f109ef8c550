package main

// soundKinds are machines in order by more than a crew can be mistaken.
var soundKinds = []kind{
	{name: "sound", weight: 12, sound: true},
	{name: "sound, metric", weight: 4, sound: true, want: func(t *trial) { t.want.metric = true }},
	{name: "sound, plain boom", weight: 4, sound: true, want: func(t *trial) { t.want.plain = true }},
	{name: "sound, 1 mph and 300 gal/acre", sound: true, want: func(t *trial) {
		t.want.beds, t.want.speed, t.want.rate = true, [2]float64{0.9 * mph, 1.1 * mph}, [2]float64{2500, 3100}
	}},
	{name: "sound, 15 mph", sound: true, want: func(t *trial) {
		t.want.plain, t.want.speed, t.want.rate = true, [2]float64{14 * mph, 16 * mph}, [2]float64{50, 200}
	}},
	{name: "sound, 12 psi", sound: true, want: func(t *trial) { t.want.pressure = [2]float64{11.5 * psi, 12.5 * psi} }},
	{name: "sound, measured at 25 psi", sound: true, want: func(t *trial) { t.want.pressure = [2]float64{24.5 * psi, 25.5 * psi} }},
	{name: "sound, drops of several", weight: 4, sound: true, want: func(t *trial) { t.want.beds, t.want.perDrop = true, [2]int{2, 4} }},
	{name: "sound, drops of different nozzles", sound: true, want: func(t *trial) {
		t.want.different, t.want.perDrop, t.basis, t.rating = true, [2]int{2, 4}, "rated", true
	}},
	{name: "sound, catches with times that differ", sound: true, want: func(t *trial) { t.timesApart = true }},
	{name: "sound, without positions", sound: true, want: func(t *trial) { t.positions = false }},
	{name: "sound, tiny boom all caught", sound: true, want: func(t *trial) { t.want.plain, t.want.points = true, [2]int{5, 11} }},
	{name: "sound, on one side only", sound: true, want: func(t *trial) { t.want.sides, t.positions = []string{"left"}, true }},
	{name: "sound, dirty drop cleaned and caught again", weight: 4, sound: true, truth: func(t *trial) { t.fixed(1, -0.4) }},
	{name: "sound, two of twelve cleaned", sound: true, truth: func(t *trial) { t.fixed(2, -0.3) }},
	{name: "sound, worn one replaced", weight: 4, sound: true, truth: func(t *trial) { t.fixed(1, 0.4) }},
	{name: "sound, 5 % under the label's maximum", sound: true, truth: func(t *trial) {
		t.labelMax, t.off = t.m.rate(t.rateBasis)/0.95, t.between(-0.04, 0)
	}},
}

// fixed makes so many of the drops caught to have been off at first, by as much as far; they are
// in order now.
func (t *trial) fixed(n int, far float64) {
	for _, j := range t.Perm(len(t.caught))[:n] {
		i := t.caught[j]
		p := t.m.drops[i]
		p.nozzles = append([]nozzle(nil), p.nozzles...)
		off := t.between(t.limit+0.06, far)
		if far < 0 {
			off = t.between(far, -t.limit-0.06)
		}
		for k := range p.nozzles {
			p.nozzles[k].maker *= 1 + off
		}
		t.first[i] = p
	}
}
