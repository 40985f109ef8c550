package certainty

import (
	"math"
	"slices"

	"wetrun/calc/finding"
)

// Slots is how many instruments there can be: the default one of each kind, in the
// order of the kinds, and then those listed.
const Slots = int(InstrumentKinds) + MostInstruments

// Errors are the errors of all that was measured with, by slot.
type Errors struct {
	kind    [Slots]InstrumentKind
	scale   [Slots]float64       // variance of the scale, as a share
	reading [Slots]float64       // variance of one reading, in the square of its SI unit
	only    [InstrumentKinds]int // the slot of what no instrument is named for
	ids     []Instrument         // those listed
	used    int                  // slots in use
	Explain bool                 // what a result is made of is wanted too
}

// Errors works out the errors. The list has passed its check.
func (m *Measuring) Errors() *Errors {
	x := &Errors{ids: m.Instruments, used: int(InstrumentKinds) + len(m.Instruments), Explain: m.Explain}
	for k := range InstrumentKinds {
		d := DefaultInstrument(k)
		x.put(int(k), &d)
		x.only[k] = int(k)
	}
	for i := range m.Instruments {
		slot := int(InstrumentKinds) + i
		x.put(slot, &m.Instruments[i])
		x.only[m.Instruments[i].Kind] = slot
	}
	return x
}

func (x *Errors) put(slot int, i *Instrument) {
	x.kind[slot] = i.Kind
	x.scale[slot] = float64(i.ScaleError) * float64(i.ScaleError) / 3
	x.reading[slot] = i.Resolution*i.Resolution/12 + float64(i.ReactionTime)*float64(i.ReactionTime)
}

// Slot finds an instrument that has passed its check.
func (x *Errors) Slot(kind InstrumentKind, id string) int {
	if id != "" {
		for i := range x.ids {
			if x.ids[i].ID == id {
				return int(InstrumentKinds) + i
			}
		}
	}
	return x.only[kind]
}

// Relative is the variance of one reading as a share of it.
func (x *Errors) Relative(slot int, value float64) float64 {
	return x.reading[slot] / (value * value)
}

// A Propagation collects how a result follows the errors of what was measured. Of a
// scale, which is one error in all that an instrument measured, sensitivities add up
// with their signs before anything is squared (GUM 5.2.2, correlation 1); readings are
// independent of each other, so their variances add up (GUM 5.1.2).
type Propagation struct {
	Scale   [Slots]float64           // sensitivity of the result's logarithm to each scale
	Reading [InstrumentKinds]float64 // variance, as a share squared
	Parts   []ReadingPart            // what reading is made of, when it is to be explained
}

// Add takes in one reading to which the result's logarithm is sensitive by c.
func (p *Propagation) Add(x *Errors, c float64, slot int, value float64) {
	p.Scale[slot] += c
	p.Reading[x.kind[slot]] += c * c * x.Relative(slot, value)
	if x.Explain {
		p.Parts = append(p.Parts, x.Part(c, slot, value))
	}
}

// Plus takes in c times what another result follows. Others may have a copy of p, which
// goes on with its own parts.
func (p *Propagation) Plus(c float64, q *Propagation) {
	p.Parts = slices.Clip(p.Parts)
	p.Gather(c, q)
}

// Gather is plus for a sum of many, of which nobody has a copy yet: its parts are not
// copied for each of them.
func (p *Propagation) Gather(c float64, q *Propagation) {
	for i := range q.Scale {
		p.Scale[i] += c * q.Scale[i]
	}
	for k := range q.Reading {
		p.Reading[k] += c * c * q.Reading[k]
	}
	if c != 0 {
		for _, r := range q.Parts {
			r.Weight *= c * c
			p.Parts = append(p.Parts, r)
		}
	}
}

// Into adds the instruments to a budget.
func (p *Propagation) Into(b *Budget, x *Errors) {
	var scale [InstrumentKinds]float64
	for i := range x.used {
		if c := p.Scale[i]; c != 0 {
			scale[x.kind[i]] += c * c * x.scale[i]
		}
	}
	for k := range InstrumentKinds {
		if scale[k] != 0 {
			b[scaleOf(k)].Standard = math.Sqrt(scale[k])
		}
		if p.Reading[k] != 0 {
			b[readingOf(k)].Standard = math.Sqrt(p.Reading[k])
		}
	}
}

// Uncertainty is that of a result which follows nothing but instruments.
func (p *Propagation) Uncertainty(x *Errors, reference float64) Uncertainty {
	var b Budget
	p.Into(&b, x)
	return Combine(&b, reference).Explained(p, x, nil, nil)
}

// Settle drops what is left of sensitivities that cancel.
func (p *Propagation) Settle() {
	for i := range p.Scale {
		if math.Abs(p.Scale[i]) < finding.Slack {
			p.Scale[i] = 0
		}
	}
}
