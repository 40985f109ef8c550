package main

import "slices"

// write is the sheet that the crew fills in on the machine as it is.
func (t *trial) write() {
	m, c, s := t.m, &t.crew, &t.s
	length := "in"
	if m.metric {
		length = "cm"
	}
	if m.plain {
		s.Machine.Spacing = written(m.spacing, length, 4)
	} else {
		s.Machine.BedWidth = written(m.bedWidth, length, 4)
		s.Machine.NozzlesPerBed = m.perBed * len(m.drops[0].nozzles)
		s.Machine.BedsCovered = m.beds
		if t.rateBasis != "" {
			s.Machine.RowSpacing = written(m.rows, length, 4)
		}
	}
	if t.want.sides != nil {
		s.Machine.Sides = t.want.sides
	}
	s.Nozzle = t.nozzle()
	if m.duty != 1 {
		s.DutyCycle = written(m.duty, "%", 3)
	}
	t.readPressures()
	t.catchAll()
	course := c.course(m)
	drifts := t.drifts()
	drifts[len(drifts)-1] *= 1 + t.runsApart
	for _, drift := range drifts {
		s.Speed.Runs = append(s.Speed.Runs, c.times(t.draw, m.speed*drift, course))
	}
	s.Target = sheetTarget{ApplicationRate: written(t.target, c.rate, 4), RateBasis: t.rateBasis}
	if t.rateLimit != 0.10 || t.chance(0.5) {
		s.Target.RateTolerance = written(t.rateLimit, "%", 2)
	}
	t.target = s.Target.ApplicationRate.inside()
	if t.labelMax != 0 {
		s.Target.LabelMaximum = written(t.labelMax, c.rate, 4)
	}
	if t.labelMin != 0 {
		s.Target.LabelMinimum = written(t.labelMin, c.rate, 4)
	}
	if t.speeds != nil || t.pressures != nil {
		s.Limits = &sheetLimits{t.speeds, t.pressures}
	}
	if c.listed {
		s.Instruments = c.instruments()
	}
	if t.chance(0.25) {
		s.Uncertainty = new(bool)
	}
}

// drifts are the speeds of the runs, as shares of the usual one: they truly differ by half of
// what is allowed, 5 %, at most.
func (t *trial) drifts() []float64 {
	drifts := make([]float64, t.runs)
	for {
		for i := range drifts {
			drifts[i] = 1 + t.normal(t.crew.drive)
		}
		if slices.Max(drifts)-slices.Min(drifts) <= 0.025 {
			return drifts
		}
	}
}

// nozzle is what the sheet says of it; nil when nothing is known.
func (t *trial) nozzle() *sheetNozzle {
	m := t.m
	n := &sheetNozzle{PressureRange: &span{m.lowest, m.highest}}
	if !t.ranged && t.chance(0.3) {
		n.PressureRange = nil
	}
	switch {
	case !t.rating && n.PressureRange == nil:
		return nil
	case !t.rating:
	case m.size != "":
		n.Size, n.SizeRating = m.size, m.sizeRating
	default:
		n.RatedFlowRate, n.RatedPressure = m.rated, m.at
	}
	return n
}

// readPressures reads at one nozzle of each side in turn.
func (t *trial) readPressures() {
	m, c, s := t.m, &t.crew, &t.s
	for i := range t.readings {
		side := m.sides[i%len(m.sides)]
		at := slices.IndexFunc(m.drops, func(p drop) bool { return p.side == side })
		r := reading{Pressure: c.reads(m.drops[at].pressure)}
		if t.positions {
			r.Position = side
		}
		s.Pressure.Readings = append(s.Pressure.Readings, r)
	}
	if t.chance(0.5) { // a gauge of its own, with hose losses
		s.Pressure.CabPressure = written(toMark(m.meanPressure()*t.between(1, 1.06), c.gaugeMark), c.pressure, 4)
	}
	if t.chance(0.2) {
		s.Output.SprayPressure = c.reads(m.meanPressure())
	}
}

// catchAll catches the drops, and those again that were put right.
func (t *trial) catchAll() {
	m, c, s := t.m, &t.crew, &t.s
	for _, i := range t.caught {
		p := &m.drops[i]
		x := catch{Label: p.label, Bed: p.bed}
		if t.positions {
			x.Position = p.side
		}
		switch {
		case m.different:
			x.NozzlesOnDrop = t.kindsOf(p)
		case len(p.nozzles) > 1 || t.chance(0.5):
			x.Nozzles = len(p.nozzles)
		}
		time := c.catchTime
		if t.timesApart {
			time *= t.between(0.85, 1.25)
		}
		caught := p
		first, again := t.first[i]
		if again {
			caught = &first
		}
		x.Volume, x.Time = c.catches(t.draw, m, caught, time)
		s.Output.Catches = append(s.Output.Catches, x)
		if again {
			f := followUp{Replaces: x.Label, Nozzles: x.Nozzles}
			f.Volume, f.Time = c.catches(t.draw, m, p, c.catchTime)
			s.Output.FollowUps = append(s.Output.FollowUps, f)
		}
	}
	if t.basis != "none" {
		s.Output.Tolerance = &tolerance{written(t.limit, "%", 2), t.basis}
	}
	if len(t.caught) == len(m.drops) || t.chance(0.85) { // who caught them all knows how many
		s.Output.CatchPointsOnBoom = len(m.drops)
	}
}

// kindsOf is what a drop of different nozzles carries.
func (t *trial) kindsOf(p *drop) (kinds []dropNozzle) {
	flow, pressure := "gal_us/min", "psi"
	if t.m.metric {
		flow, pressure = "L/min", "bar"
	}
	for i := range p.nozzles {
		kinds = append(kinds, dropNozzle{sheetNozzle{
			RatedFlowRate: written(t.m.ratedFlow*p.nozzles[i].rating, flow, 6), RatedPressure: written(t.m.ratedAt, pressure, 6),
		}, 1})
	}
	return kinds
}
