package certainty

import "math"

// Parts are what the instruments and the scatter add to an uncertainty.
type Parts struct {
	Scales        [InstrumentKinds][]ScalePart
	Readings      [InstrumentKinds][]ReadingPart
	Runs, Catches *ScatterPart // nil where nothing was repeated
}

// A ScalePart is one instrument's scale: its bound, and how the logarithm of the
// result follows it.
type ScalePart struct{ Sensitivity, ScaleError float64 }

// A ReadingPart is one reading, or a Group of readings that is told elsewhere, whose
// variance counts Weight times. Uncertainty is a share of the reading; the others are
// in the SI unit of what was read.
type ReadingPart struct {
	Kind                            InstrumentKind
	Weight, Uncertainty             float64
	Value, Resolution, ReactionTime float64
	Group                           []ReadingPart
}

// A ScatterPart is what differs from one measurement to the next: Pooled is that of
// one measurement, from what was expected of it (Prior, with the errors that Readings add,
// besides) and what was Seen among Number of them, all as shares. Of the mean it adds
// Pooled x sqrt(Squares x (1 - Caught)), by the squared shares of the measurements.
type ScatterPart struct {
	Prior           Prior
	Readings, Seen  float64
	Number          int
	Pooled          float64
	Squares, Caught float64
}

func (s *Scatter) part() *ScatterPart {
	if s == nil {
		return nil
	}
	return &ScatterPart{s.prior, math.Sqrt(s.readings), math.Sqrt(s.observed), s.n, math.Sqrt(s.pooled), s.squares, s.caught}
}

func (e Evaluated) part(c, value float64) ReadingPart {
	d := DefaultInstrument(e.kind[e.number])
	if i := e.number - int(InstrumentKinds); i >= 0 {
		d = e.listed[i]
	}
	return ReadingPart{d.Kind, c * c, math.Sqrt(e.relative(value)), value, d.Resolution, float64(d.ReactionTime), nil}
}

// weighed are the same readings, counted so many times more.
func weighed(parts []ReadingPart, by float64) []ReadingPart {
	if by == 0 {
		return nil
	}
	all := append([]ReadingPart(nil), parts...)
	for i := range all {
		all[i].Weight *= by
	}
	return all
}

// Grouped is p with the readings of each kind as one part, for results that would list all
// of them again.
func (p Propagation) Grouped() Propagation {
	if len(p.parts) < 2 {
		return p
	}
	var groups []ReadingPart
	for k := range InstrumentKinds {
		if v := p.readings[k]; v > 0 {
			groups = append(groups, ReadingPart{Kind: k, Weight: 1, Uncertainty: math.Sqrt(v), Group: p.partsOf(k)})
		}
	}
	p.parts = groups
	return p
}

// partsOf are the readings of one kind.
func (p *Propagation) partsOf(k InstrumentKind) (some []ReadingPart) {
	for _, r := range p.parts {
		if r.Kind == k {
			some = append(some, r)
		}
	}
	return some
}

// WithParts is u with its Parts, where they were asked for. The scatters are nil where
// nothing was repeated.
func (u Uncertainty) WithParts(e *Evaluation, p *Propagation, runs, catches *Scatter) Uncertainty {
	if e.explain {
		u.Parts = p.explained(e, runs, catches)
	}
	return u
}

func (p *Propagation) explained(e *Evaluation, runs, catches *Scatter) *Parts {
	parts := &Parts{Runs: runs.part(), Catches: catches.part()}
	for i := range e.used {
		if c := p.scale[i]; c != 0 {
			k := e.kind[i]
			parts.Scales[k] = append(parts.Scales[k], ScalePart{c, math.Sqrt(3 * e.scale[i])})
		}
	}
	for k := range InstrumentKinds {
		parts.Readings[k] = p.partsOf(k)
	}
	return parts
}
