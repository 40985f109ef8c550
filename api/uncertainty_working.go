package api

import (
	"wetrun/calc/certainty"
	"wetrun/calc/method"
	"wetrun/calc/unit"
)

// readingUnits are the units in which the working of a reading is written, by kind of
// instrument.
var readingUnits = [...]unit.ID{certainty.Stopwatch: unit.IDS, certainty.Tape: unit.IDM, certainty.Jug: unit.IDML, certainty.Gauge: unit.IDBar}

// partsNotKept stand in for parts that were not kept: one of each, of the same methods.
var partsNotKept = &certainty.Parts{
	Readings: [...][]certainty.ReadingPart{certainty.Stopwatch: {{}}, certainty.Tape: {{}}, certainty.Jug: {{}}, certainty.Gauge: {{}}},
	Runs:     &certainty.ScatterPart{}, Catches: &certainty.ScatterPart{},
}

// uncertain adds the lines of one uncertainty: what each source adds, as a share, then
// all of them together and what follows. Without a member it is of a number between.
func (w working) uncertain(member string, u *UncertaintyAnswer) {
	x := u.of
	if x == nil {
		return
	}
	w.components(x)
	named := func(name string) string {
		if member == "" {
			return ""
		}
		return name
	}
	var shares, free, freedom []Quantity
	reference := in(x.Reference, u.Standard.Unit)
	if u.Standard.Unit.Kind() == unit.KindRatio {
		reference = dimensionless(x.Reference)
	}
	if !w.methodsOnly {
		shares, free, freedom = budget(x)
	}
	w = w.part(member)
	w.line(method.CombinedUncertainty, named("/standard"), u.Standard).with("X", reference).each("u_i", shares)
	if u.DegreesOfFreedom == 0 {
		w.line(method.NormalCoverage, named("/coverageFactor"), dimensionless(u.CoverageFactor))
	} else {
		nu := dimensionless(u.DegreesOfFreedom)
		w.line(method.EffectiveFreedom, named("/degreesOfFreedom"), nu).each("u_i", shares).each("v_i", free).each("nu_i", freedom)
		w.line(method.StudentCoverage, named("/coverageFactor"), dimensionless(u.CoverageFactor)).with("nu", nu)
	}
	w.line(method.ExpandedUncertainty, named("/expanded"), u.Expanded).number("k_p", float64(u.CoverageFactor)).with("u", u.Standard)
}

// budget is what the sources of an uncertainty add: all of them, and those that have
// degrees of freedom with these.
func budget(u *certainty.Uncertainty) (shares, free, freedom []Quantity) {
	for _, c := range u.Budget {
		if c.Standard == 0 {
			continue
		}
		shares = append(shares, plainNumber(c.Standard))
		if c.DegreesOfFreedom != 0 {
			free, freedom = append(free, plainNumber(c.Standard)), append(freedom, plainNumber(c.DegreesOfFreedom))
		}
	}
	if shares == nil {
		shares = []Quantity{plainNumber(0.0)}
	}
	return shares, free, freedom
}

// components adds how much each source adds. Where that has its lines already, or was
// not kept, its methods are used all the same.
func (w working) components(u *certainty.Uncertainty) {
	parts := u.Parts
	if parts == nil {
		parts, w.methodsOnly = partsNotKept, true
	}
	w = w.once(parts)
	for i := range u.Budget {
		if u.Budget[i].Standard == 0 || w.methodsOnly && w.sources&(1<<i) != 0 {
			continue
		}
		w.sources |= 1 << i
		w.component(certainty.Source(i), u.Budget[i].Standard, parts)
	}
}

// component adds how much one source adds; what was stated with a figure has no line.
func (w working) component(s certainty.Source, standard float64, parts *certainty.Parts) {
	switch {
	case s > certainty.SourceCatches:
	case s == certainty.SourceCatches:
		w.scatter(parts.Catches, standard)
	case s == certainty.SourceRuns:
		w.scatter(parts.Runs, standard)
	case s%2 == 0:
		scales := parts.Scales[s/2]
		follows := listed(w, scales, func(p *certainty.ScalePart) Quantity { return plainNumber(p.Sensitivity) })
		errors := listed(w, scales, func(p *certainty.ScalePart) Quantity { return plainNumber(p.ScaleError) })
		w.intermediate(method.ScaleError, dimensionless(standard)).each("c_i", follows).each("a_i", errors)
	default:
		w.readings(parts.Readings[s/2], standard)
	}
}

// readings adds what the readings of one kind of instrument add, each with its line.
func (w working) readings(all []certainty.ReadingPart, standard float64) {
	for i := range all {
		p := &all[i]
		if p.Group != nil {
			w.once(&p.Group[0]).readings(p.Group, p.Uncertainty)
			continue
		}
		id := readingUnits[p.Kind]
		w.intermediate(method.ReadingError, dimensionless(p.Uncertainty)).
			with("d", in(p.Resolution, id)).with("t", in(p.ReactionTime, id)).with("x", in(p.Value, id))
	}
	weights := listed(w, all, func(p *certainty.ReadingPart) Quantity { return plainNumber(p.Weight) })
	errors := listed(w, all, func(p *certainty.ReadingPart) Quantity { return plainNumber(p.Uncertainty) })
	w.intermediate(method.Readings, dimensionless(standard)).each("g_i", weights).each("u_i", errors)
}

// scatter adds what differs from one measurement to the next.
func (w working) scatter(p *certainty.ScatterPart, standard float64) {
	w.intermediate(method.PooledScatter, dimensionless(p.Pooled)).
		count("nu_0", p.Prior.DegreesOfFreedom).number("s_0", float64(p.Prior.StandardDeviation)).
		number("r", p.Readings).count("n", p.Number).number("c", p.Seen)
	w.intermediate(method.ScatterOfMean, dimensionless(standard)).number("s", p.Pooled).number("w", p.Squares).number("f", 1-p.Caught)
}

// conforms adds the line of the probability that what was measured as x lies between
// its limits; low is left out of what is bounded above only.
func (w working) conforms(member string, c *ConformanceAnswer, x Quantity, u *UncertaintyAnswer, low, high Quantity) {
	p := c.ConformanceProbability
	if !p.given() {
		return
	}
	id := method.NormalBelow
	switch free := u.DegreesOfFreedom != 0; {
	case free && low.given():
		id = method.StudentWithin
	case free:
		id = method.StudentBelow
	case low.given():
		id = method.NormalWithin
	}
	w.part(member).line(id, "/conformanceProbability", p).with("x", x).with("u", u.Standard).with("h", high).with("l", low).number("nu", float64(u.DegreesOfFreedom))
}

// minus is a limit on the other side.
func minus(limit Quantity) Quantity { return Quantity{-limit.Value, limit.Unit} }

// conformsEitherWay is conforms for a deviation that is bounded either way.
func (w working) conformsEitherWay(member string, c *ConformanceAnswer, d Quantity, u *UncertaintyAnswer, limit Quantity) {
	w.conforms(member, c, d, u, minus(limit), limit)
}
