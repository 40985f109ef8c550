package main

// nozzleKinds are booms whose nozzles are not in order.
var nozzleKinds = []kind{
	{name: "one worn", weight: 4, truth: func(t *trial) { t.worn(1) }},
	{name: "two worn", weight: 4, truth: func(t *trial) { t.worn(2) }},
	{name: "one dirty", weight: 4, truth: func(t *trial) { t.dirty(1) }},
	{name: "three dirty", truth: func(t *trial) { t.dirty(3) }},
	{name: "one worn, one dirty", weight: 4, truth: func(t *trial) { t.worn(1); t.dirty(1) }},
	{name: "half of the boom worn", weight: 4, truth: func(t *trial) {
		t.halfWorn(0.15)
	}},
	{name: "whole set worn alike", weight: 4, want: rated, truth: wornAlike},
	{name: "worn alike, no rating", want: unrated, truth: wornAlike},
	{name: "half worn, no rating", want: unrated, truth: func(t *trial) {
		t.halfWorn(0.25)
		worn := 0
		for _, i := range t.caught {
			if t.m.drops[i].nozzles[0].wear > 0 {
				worn++
			}
		}
		t.notReady = worn > 0 && worn < len(t.caught) // which of the two is right nobody can say
	}},
	{name: "whole set of the wrong size", want: rated, truth: func(t *trial) {
		t.fit(pick(t.draw, 0.5, 0.67, 0.75, 1.25, 1.33, 1.5, 2), func(*drop) bool { return true })
	}},
	{name: "one bed with the next size up", weight: 3, want: func(t *trial) { t.want.beds, t.want.atLeast = true, 3 }, truth: func(t *trial) {
		bed := t.m.drops[t.caught[t.IntN(len(t.caught))]].bed
		t.fit(pick(t.draw, 1.2, 1.25, 1.33, 1.5), func(p *drop) bool { return p.bed == bed })
	}},
	{name: "one side with the next size up", weight: 3, want: func(t *trial) { t.positions = true }, truth: func(t *trial) {
		side := pick(t.draw, allSides...)
		t.fit(pick(t.draw, 1.2, 1.25, 1.33, 1.5), func(p *drop) bool { return p.side == side })
	}},
	{name: "all dry", truth: func(t *trial) {
		for i := range t.m.drops {
			t.soil(i, 1)
		}
		t.notReady = true
	}},
	{name: "uneven boom", weight: 4, truth: func(t *trial) {
		side, less := pick(t.draw, allSides...), t.m.allowed*t.between(1.4, 2)
		if less > 0.6*t.m.meanPressure() {
			less = 0.6 * t.m.meanPressure()
		}
		for i := range t.m.drops {
			if p := &t.m.drops[i]; p.side == side {
				p.pressure -= less
			}
		}
	}},
	{name: "dirt seen by eye, not cleaned", entry: func(t *trial) { t.seeByEye(inspection{Clean: 1 + t.IntN(3)}) }},
	{name: "wear seen by eye, not replaced", entry: func(t *trial) { t.seeByEye(inspection{Replace: 1 + t.IntN(6)}) }},
	{name: "caught again, still low", weight: 3, truth: func(t *trial) { t.still(-t.between(t.limit+0.06, 0.5)) }},
	{name: "caught again, still high", weight: 3, truth: func(t *trial) { t.still(t.between(t.limit+0.06, 0.4)) }},
}

func rated(t *trial) { t.basis, t.rating = pick(t.draw, "rated", "both", ""), true }

func unrated(t *trial) { t.basis, t.rating = pick(t.draw, "mean", ""), false }

// wornAlike is a season's work of grit: all give 12 to 16 % more.
func wornAlike(t *trial) {
	wear := t.between(0.12, 0.16)
	for i := range t.m.drops {
		t.wear(i, wear+t.normal(0.01))
	}
}

// halfWorn wears every second drop, scattered, by this share to 30 %.
func (t *trial) halfWorn(least float64) {
	n := len(t.m.drops)
	for _, i := range t.Perm(n)[:(n+1)/2] {
		t.wear(i, t.between(least, 0.30))
	}
}

func (t *trial) wear(drop int, share float64) {
	n := t.m.drops[drop].nozzles
	for i := range n {
		n[i].wear = share
	}
}

func (t *trial) soil(drop int, share float64) {
	n := t.m.drops[drop].nozzles
	for i := range n {
		n[i].dirt = share
	}
}

// fit puts nozzles of another size on some drops.
func (t *trial) fit(size float64, on func(*drop) bool) {
	for i := range t.m.drops {
		if p := &t.m.drops[i]; on(p) {
			for j := range p.nozzles {
				p.nozzles[j].size = size
			}
		}
	}
}

// worn wears some of the drops caught, all of a drop or one nozzle of it.
func (t *trial) worn(drops int) {
	for _, i := range t.untouched(drops) {
		wear := t.between(t.limit+0.06, 0.45)
		if t.chance(0.5) {
			t.wear(i, wear)
		} else {
			t.m.drops[i].nozzles[0].wear = wear
		}
	}
}

// dirty plugs some of the drops caught, in part or all of it.
func (t *trial) dirty(drops int) {
	for _, i := range t.untouched(drops) {
		t.soil(i, min(1, t.between(0.15, 1.1)))
	}
}

// untouched picks drops that were caught and are still in order.
func (t *trial) untouched(n int) (picked []int) {
	for _, j := range t.Perm(len(t.caught)) {
		i := t.caught[j]
		if x := t.m.drops[i].nozzles[0]; x.wear == 0 && x.dirt == 0 && len(picked) < n {
			picked = append(picked, i)
		}
	}
	return picked
}

// still leaves one drop as far off as it was at first: neither wear nor dirt, but a hose, a
// strainer or the wrong part.
func (t *trial) still(off float64) {
	i := t.caught[t.IntN(len(t.caught))]
	for j := range t.m.drops[i].nozzles {
		t.m.drops[i].nozzles[j].size = 1 + off
	}
	t.first[i] = t.m.drops[i]
}

// seeByEye writes a finding that nobody has put right.
func (t *trial) seeByEye(found inspection) {
	beds := max(1, t.s.Machine.BedsCovered)
	t.s.Maintenance = &sheetMaintenance{Beds: make([]inspection, beds)}
	t.s.Maintenance.Beds[t.IntN(beds)] = found
	t.open = true
}
