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
// one measurement, from what was expected of it (Prior, with the readings' own errors
// besides) and what was Seen among Number of them, all as shares. Of the mean it adds
// Pooled x sqrt(Squares x (1 - Caught)), by the squared shares of the measurements.
type ScatterPart struct {
	Prior           Prior
	Readings, Seen  float64
	Number          int
	Pooled          float64
	Squares, Caught float64
}

func (s Scatter) Part(squares, caught float64) *ScatterPart {
	return &ScatterPart{s.prior, math.Sqrt(s.readings), math.Sqrt(s.seen), s.n, math.Sqrt(s.Variance), squares, caught}
}

// Part is one reading to which the result's logarithm is sensitive by c.
func (x *Errors) Part(c float64, slot int, value float64) ReadingPart {
	d := DefaultInstrument(x.kind[slot])
	if i := slot - int(InstrumentKinds); i >= 0 {
		d = x.ids[i]
	}
	return ReadingPart{x.kind[slot], c * c, math.Sqrt(x.Relative(slot, value)), value, d.Resolution, float64(d.ReactionTime), nil}
}

// Weighed are the same readings, counted so many times more.
func Weighed(parts []ReadingPart, by float64) []ReadingPart {
	if by == 0 {
		return nil
	}
	all := append([]ReadingPart(nil), parts...)
	for i := range all {
		all[i].Weight *= by
	}
	return all
}

// Groups are the readings of each kind as one part, where readings are kept.
func (p *Propagation) Groups() (all []ReadingPart) {
	if len(p.Parts) == 0 {
		return nil
	}
	for k := range InstrumentKinds {
		if v := p.Reading[k]; v > 0 {
			all = append(all, ReadingPart{Kind: k, Weight: 1, Uncertainty: math.Sqrt(v), Group: p.of(k)})
		}
	}
	return all
}

// of are the readings of one kind.
func (p *Propagation) of(k InstrumentKind) (some []ReadingPart) {
	for _, r := range p.Parts {
		if r.Kind == k {
			some = append(some, r)
		}
	}
	return some
}

// Explained adds the parts, when they were asked for.
func (u Uncertainty) Explained(p *Propagation, x *Errors, runs, catches *ScatterPart) Uncertainty {
	if !x.Explain {
		return u
	}
	u.Parts = &Parts{Runs: runs, Catches: catches}
	for i := range x.used {
		if c := p.Scale[i]; c != 0 {
			k := x.kind[i]
			u.Parts.Scales[k] = append(u.Parts.Scales[k], ScalePart{c, math.Sqrt(3 * x.scale[i])})
		}
	}
	for k := range InstrumentKinds {
		u.Parts.Readings[k] = p.of(k)
	}
	return u
}
