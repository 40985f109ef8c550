package calc

import (
	"math"
	"slices"

	"wetrun/calc/finding"
)

// slots is how many instruments there can be: the default one of each kind, in the
// order of the kinds, and then those listed.
const slots = int(instrumentKinds) + MostInstruments

// instruments are the errors of all that was measured with, by slot.
type instruments struct {
	kind    [slots]InstrumentKind
	scale   [slots]float64       // variance of the scale, as a share
	reading [slots]float64       // variance of one reading, in the square of its SI unit
	only    [instrumentKinds]int // the slot of what no instrument is named for
	ids     []Instrument         // those listed
	used    int                  // slots in use
	explain bool                 // what a result is made of is wanted too
}

// set works out the errors. The list has passed its check.
func (m *Measuring) set() *instruments {
	x := &instruments{ids: m.Instruments, used: int(instrumentKinds) + len(m.Instruments), explain: m.Explain}
	for k := range instrumentKinds {
		d := DefaultInstrument(k)
		x.put(int(k), &d)
		x.only[k] = int(k)
	}
	for i := range m.Instruments {
		slot := int(instrumentKinds) + i
		x.put(slot, &m.Instruments[i])
		x.only[m.Instruments[i].Kind] = slot
	}
	return x
}

func (x *instruments) put(slot int, i *Instrument) {
	x.kind[slot] = i.Kind
	x.scale[slot] = float64(i.ScaleError) * float64(i.ScaleError) / 3
	x.reading[slot] = i.Resolution*i.Resolution/12 + float64(i.ReactionTime)*float64(i.ReactionTime)
}

// slot finds an instrument that has passed its check.
func (x *instruments) slot(kind InstrumentKind, id string) int {
	if id != "" {
		for i := range x.ids {
			if x.ids[i].ID == id {
				return int(instrumentKinds) + i
			}
		}
	}
	return x.only[kind]
}

// relative is the variance of one reading as a share of it.
func (x *instruments) relative(slot int, value float64) float64 {
	return x.reading[slot] / (value * value)
}

// A propagation collects how a result follows the errors of what was measured. Of a
// scale, which is one error in all that an instrument measured, sensitivities add up
// with their signs before anything is squared (GUM 5.2.2, correlation 1); readings are
// independent of each other, so their variances add up (GUM 5.1.2).
type propagation struct {
	scale   [slots]float64           // sensitivity of the result's logarithm to each scale
	reading [instrumentKinds]float64 // variance, as a share squared
	parts   []ReadingPart            // what reading is made of, when it is to be explained
}

// add takes in one reading to which the result's logarithm is sensitive by c.
func (p *propagation) add(x *instruments, c float64, slot int, value float64) {
	p.scale[slot] += c
	p.reading[x.kind[slot]] += c * c * x.relative(slot, value)
	if x.explain {
		p.parts = append(p.parts, x.part(c, slot, value))
	}
}

// plus takes in c times what another result follows. Others may have a copy of p, which
// goes on with its own parts.
func (p *propagation) plus(c float64, q *propagation) {
	p.parts = slices.Clip(p.parts)
	p.gather(c, q)
}

// gather is plus for a sum of many, of which nobody has a copy yet: its parts are not
// copied for each of them.
func (p *propagation) gather(c float64, q *propagation) {
	for i := range q.scale {
		p.scale[i] += c * q.scale[i]
	}
	for k := range q.reading {
		p.reading[k] += c * c * q.reading[k]
	}
	if c != 0 {
		for _, r := range q.parts {
			r.Weight *= c * c
			p.parts = append(p.parts, r)
		}
	}
}

// into adds the instruments to a budget.
func (p *propagation) into(b *Budget, x *instruments) {
	var scale [instrumentKinds]float64
	for i := range x.used {
		if c := p.scale[i]; c != 0 {
			scale[x.kind[i]] += c * c * x.scale[i]
		}
	}
	for k := range instrumentKinds {
		if scale[k] != 0 {
			b[scaleOf(k)].Standard = math.Sqrt(scale[k])
		}
		if p.reading[k] != 0 {
			b[readingOf(k)].Standard = math.Sqrt(p.reading[k])
		}
	}
}

// uncertainty is that of a result which follows nothing but instruments.
func (p *propagation) uncertainty(x *instruments, reference float64) Uncertainty {
	var b Budget
	p.into(&b, x)
	return combine(&b, reference).explained(p, x, nil, nil)
}

// settle drops what is left of sensitivities that cancel.
func (p *propagation) settle() {
	for i := range p.scale {
		if math.Abs(p.scale[i]) < finding.Slack {
			p.scale[i] = 0
		}
	}
}
