package api

import (
	"strconv"

	"wetrun/calc"
	"wetrun/calc/method"
	"wetrun/calc/unit"
)

// readingUnits are the units in which the working of a reading is written, by kind of
// instrument.
var readingUnits = [...]unit.ID{calc.Stopwatch: unit.IDS, calc.Tape: unit.IDM, calc.Jug: unit.IDML, calc.Gauge: unit.IDBar}

// uncertaintyMethods are those of one uncertainty.
func uncertaintyMethods(u *calc.Uncertainty) methodSet {
	s := methodsOf(method.CombinedUncertainty, method.ExpandedUncertainty)
	for source := range u.Budget {
		if u.Budget[source].Standard == 0 {
			continue
		}
		switch source := calc.Source(source); {
		case source == calc.SourceRuns || source == calc.SourceCatches:
			s.add(method.PooledScatter, method.ScatterOfMean)
		case source > calc.SourceCatches: // as stated
		case source%2 == 0:
			s.add(method.ScaleError)
		default:
			s.add(method.ReadingError, method.Readings)
		}
	}
	if u.DegreesOfFreedom == 0 {
		s.add(method.NormalCoverage)
	} else {
		s.add(method.StudentCoverage, method.EffectiveFreedom)
	}
	return s
}

// uncertain adds the lines of one uncertainty: what each source adds, as a share, then
// all of them together and what follows. Without a member it is a step between.
func (w *working) uncertain(member string, u *UncertaintyResponse) {
	x := u.of
	switch {
	case x == nil:
		return
	case w.quiet:
		w.used.join(uncertaintyMethods(x))
		return
	}
	part := func(name string) string {
		if member == "" {
			return ""
		}
		return member + name
	}
	var all, free, freedom []Quantity
	first := x.Parts != nil && w.first(x.Parts)
	for source, c := range x.Budget {
		if c.Standard == 0 {
			continue
		}
		if first {
			w.component(calc.Source(source), c.Standard, x.Parts)
		}
		all = append(all, plainNumber(c.Standard))
		if c.DegreesOfFreedom != 0 {
			free, freedom = append(free, plainNumber(c.Standard)), append(freedom, plainNumber(c.DegreesOfFreedom))
		}
	}
	if all == nil {
		all = []Quantity{plainNumber(0.0)}
	}
	reference := in(x.Reference, u.Standard.Unit)
	if u.Standard.Unit.Kind() == unit.KindRatio {
		reference = bare(x.Reference)
	}
	w.line(method.CombinedUncertainty, part("/standard"), u.Standard, put("X", reference), putEach("u_i", all))
	if u.DegreesOfFreedom == 0 {
		w.line(method.NormalCoverage, part("/coverageFactor"), bare(u.CoverageFactor))
	} else {
		nu := bare(u.DegreesOfFreedom)
		w.line(method.EffectiveFreedom, part("/degreesOfFreedom"), nu, putEach("u_i", all), putEach("v_i", free), putEach("nu_i", freedom))
		w.line(method.StudentCoverage, part("/coverageFactor"), bare(u.CoverageFactor), put("nu", nu))
	}
	w.line(method.ExpandedUncertainty, part("/expanded"), u.Expanded, putNumber("k_p", u.CoverageFactor), put("u", u.Standard))
}

// component adds how much one source adds.
func (w *working) component(s calc.Source, standard float64, parts *calc.Parts) {
	if parts == nil || s > calc.SourceCatches {
		return
	}
	switch {
	case s == calc.SourceRuns:
		w.scatter(parts.Runs, standard)
	case s == calc.SourceCatches:
		w.scatter(parts.Catches, standard)
	case s%2 == 0:
		var follows, errors []Quantity
		for _, p := range parts.Scales[s/2] {
			follows, errors = append(follows, plainNumber(p.Sensitivity)), append(errors, plainNumber(p.ScaleError))
		}
		w.step(method.ScaleError, bare(standard), putEach("c_i", follows), putEach("a_i", errors))
	default:
		w.readings(parts.Readings[s/2], standard)
	}
}

// readings adds what the readings of one kind of instrument add, each with its line.
func (w *working) readings(all []calc.ReadingPart, standard float64) {
	var weights, each []Quantity
	for _, p := range all {
		if p.Group != nil {
			if w.first(&p.Group[0]) {
				w.readings(p.Group, p.Uncertainty)
			}
		} else {
			id := readingUnits[p.Kind]
			w.step(method.ReadingError, bare(p.Uncertainty), put("d", in(p.Resolution, id)), put("t", in(p.ReactionTime, id)), put("x", in(p.Value, id)))
		}
		weights, each = append(weights, plainNumber(p.Weight)), append(each, plainNumber(p.Uncertainty))
	}
	w.step(method.Readings, bare(standard), putEach("g_i", weights), putEach("u_i", each))
}

// scatter adds what differs from one measurement to the next.
func (w *working) scatter(p *calc.ScatterPart, standard float64) {
	w.step(method.PooledScatter, bare(p.Pooled), putNumber("nu_0", p.Prior.DegreesOfFreedom), putNumber("s_0", float64(p.Prior.StandardDeviation)),
		putNumber("r", p.Readings), putNumber("n", p.Number), putNumber("c", p.Seen))
	w.step(method.ScatterOfMean, bare(standard), putNumber("s", p.Pooled), putNumber("w", p.Squares), putNumber("f", 1-p.Caught))
}

// conforms adds the line of the probability that what was measured as x lies between
// its limits; low is left out of what is bounded above only.
func (w *working) conforms(member string, c *ConformanceResponse, x Quantity, u *UncertaintyResponse, low, high Quantity) {
	p := c.ConformanceProbability
	if !p.given() {
		return
	}
	member += "/conformanceProbability"
	id := method.NormalBelow
	switch free := u.DegreesOfFreedom != 0; {
	case free && low.given():
		id = method.StudentWithin
	case free:
		id = method.StudentBelow
	case low.given():
		id = method.NormalWithin
	}
	if w.quiet {
		w.used.add(id)
		return
	}
	w.line(id, member, p, put("x", x), put("u", u.Standard), put("h", high), put("l", low), putNumber("nu", float64(u.DegreesOfFreedom)))
}

// minus is a limit on the other side.
func minus(limit Quantity) Quantity { return Quantity{-limit.Value, limit.Unit} }

// conformsEitherWay is conforms for a deviation that is bounded either way.
func (w *working) conformsEitherWay(member string, c *ConformanceResponse, d Quantity, u *UncertaintyResponse, limit Quantity) {
	w.conforms(member, c, d, u, minus(limit), limit)
}

// item is a member of one item of a list; empty where nothing is written.
func (w *working) item(list string, i int, member string) string {
	if w.quiet {
		return ""
	}
	return list + "/" + strconv.Itoa(i) + member
}
