package working

import (
	"wetrun/api/wire"
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

// Uncertain adds the lines of one uncertainty: what each source adds, as a share, then
// all of them together and what follows. Without a member it is of a number between.
func (w Working) Uncertain(member string, u *UncertaintyAnswer) {
	x := u.source
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
	var all, estimated, freedom []wire.Quantity
	reference := wire.In(x.Reference, u.Standard.Unit)
	if u.Standard.Unit.Kind() == unit.KindRatio {
		reference = Dimensionless(x.Reference)
	}
	if !w.MethodsOnly {
		all, estimated, freedom = budget(x)
	}
	w = w.Part(member)
	w.Line(method.CombinedUncertainty, named("/standard"), u.Standard).With("X", reference).Each("u_i", all)
	if u.DegreesOfFreedom != 0 {
		w.Line(method.EffectiveFreedom, named("/degreesOfFreedom"), Dimensionless(u.DegreesOfFreedom)).Each("u_i", all).Each("v_i", estimated).Each("nu_i", freedom)
	}
	id := method.NormalCoverage
	if u.Student() {
		id = method.StudentCoverage
	}
	w.Line(id, named("/coverageFactor"), Dimensionless(u.CoverageFactor)).Errs(u)
	w.Line(method.ExpandedUncertainty, named("/expanded"), u.Expanded).Number("k_p", float64(u.CoverageFactor)).With("u", u.Standard)
}

// budget is what the sources of an uncertainty add: all of them, and those estimated from
// readings with their degrees of freedom.
func budget(u *certainty.Uncertainty) (all, estimated, freedom []wire.Quantity) {
	for _, c := range u.Budget {
		if c.Standard == 0 {
			continue
		}
		all = append(all, PlainNumber(c.Standard))
		if c.DegreesOfFreedom != 0 {
			estimated, freedom = append(estimated, PlainNumber(c.Standard)), append(freedom, PlainNumber(c.DegreesOfFreedom))
		}
	}
	if all == nil {
		all = []wire.Quantity{PlainNumber(0.0)}
	}
	return all, estimated, freedom
}

// components adds how much each source adds. Where that has its lines already, or was
// not kept, its methods are used all the same.
func (w Working) components(u *certainty.Uncertainty) {
	parts := u.Parts
	if parts == nil {
		parts, w.MethodsOnly = partsNotKept, true
	}
	w = w.once(parts)
	for i := range u.Budget {
		if u.Budget[i].Standard == 0 || w.MethodsOnly && w.sources&(1<<i) != 0 {
			continue
		}
		w.sources |= 1 << i
		w.component(certainty.Source(i), u.Budget[i].Standard, parts)
	}
}

// component adds how much one source adds; what was stated with a figure has no line.
func (w Working) component(s certainty.Source, standard float64, parts *certainty.Parts) {
	switch {
	case s > certainty.SourceCatches:
	case s == certainty.SourceCatches:
		w.scatter(parts.Catches, standard)
	case s == certainty.SourceRuns:
		w.scatter(parts.Runs, standard)
	case s%2 == 0:
		scales := parts.Scales[s/2]
		follows := Listed(w, scales, func(p *certainty.ScalePart) wire.Quantity { return PlainNumber(p.Sensitivity) })
		errors := Listed(w, scales, func(p *certainty.ScalePart) wire.Quantity { return PlainNumber(p.ScaleError) })
		w.Intermediate(method.ScaleError, Dimensionless(standard)).Each("c_i", follows).Each("a_i", errors)
	default:
		w.readings(parts.Readings[s/2], standard)
	}
}

// readings adds what the readings of one kind of instrument add, each with its line.
func (w Working) readings(all []certainty.ReadingPart, standard float64) {
	for i := range all {
		p := &all[i]
		if p.Group != nil {
			w.once(&p.Group[0]).readings(p.Group, p.Uncertainty)
			continue
		}
		id := readingUnits[p.Kind]
		w.Intermediate(method.ReadingError, Dimensionless(p.Uncertainty)).
			With("d", wire.In(p.Resolution, id)).With("t", wire.In(p.ReactionTime, id)).With("x", wire.In(p.Value, id))
	}
	weights := Listed(w, all, func(p *certainty.ReadingPart) wire.Quantity { return PlainNumber(p.Weight) })
	errors := Listed(w, all, func(p *certainty.ReadingPart) wire.Quantity { return PlainNumber(p.Uncertainty) })
	w.Intermediate(method.Readings, Dimensionless(standard)).Each("g_i", weights).Each("u_i", errors)
}

// scatter adds what differs from one measurement to the next.
func (w Working) scatter(p *certainty.ScatterPart, standard float64) {
	w.Intermediate(method.PooledScatter, Dimensionless(p.Pooled)).
		Count("nu_0", p.Prior.DegreesOfFreedom).Number("s_0", float64(p.Prior.StandardDeviation)).
		Number("r", p.Readings).Count("n", p.Number).Number("c", p.Seen)
	w.Intermediate(method.ScatterOfMean, Dimensionless(standard)).Number("s", p.Pooled).Number("w", p.Squares).Number("f", 1-p.Caught)
}

// Conforms adds the line of the probability that what was measured as x lies between
// its limits. One is left out of what is bounded one way only: above, or else below, which is
// above of its negative.
func (w Working) Conforms(member string, c *ConformanceAnswer, x wire.Quantity, u *UncertaintyAnswer, low, high wire.Quantity) {
	p := c.ConformanceProbability
	if !p.Given() {
		return
	}
	if !high.Given() {
		x, high, low = wire.Quantity{Value: -x.Value, Unit: x.Unit}, wire.Quantity{Value: -low.Value, Unit: low.Unit}, wire.Quantity{}
	}
	id := method.NormalBelow
	switch student := u.Student(); {
	case student && low.Given():
		id = method.StudentWithin
	case student:
		id = method.StudentBelow
	case low.Given():
		id = method.NormalWithin
	}
	w.Part(member).Line(id, "/conformanceProbability", p).With("x", x).With("u", u.Standard).With("h", high).With("l", low).Errs(u)
}

// Student tells that the error of a member has Student's distribution in it.
func (a *UncertaintyAnswer) Student() bool { return a.source != nil && a.source.Error.Freedom != 0 }

// Errs puts in how an error is distributed, as multiples of its standard uncertainty: what is
// not wide is 0, and all else is 1 of it.
func (l *Line) Errs(u *UncertaintyAnswer) *Line {
	if l == nil || u.source == nil {
		return l
	}
	d := u.source.InStandards()
	return l.Number("a", d.Widest).Number("s", d.Rest).Number("nu", d.Freedom)
}

// ConformsEitherWay is Conforms for a deviation that is bounded either way.
func (w Working) ConformsEitherWay(member string, c *ConformanceAnswer, d wire.Quantity, u *UncertaintyAnswer, limit wire.Quantity) {
	w.Conforms(member, c, d, u, wire.Quantity{Value: -limit.Value, Unit: limit.Unit}, limit)
}
