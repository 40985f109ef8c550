package certainty

// mostInUse is how many instruments there can be: the default one of each kind, in the
// order of the kinds, and then those listed.
const mostInUse = int(InstrumentKinds) + MostInstruments

// An Evaluation has the variances of all instruments that a crew measured with, from what
// is known of each (type B, GUM 4.3).
type Evaluation struct {
	kind    [mostInUse]InstrumentKind
	scale   [mostInUse]float64   // variance of the scale, as a share squared
	reading [mostInUse]float64   // variance of one reading, in the square of its SI unit
	step    [mostInUse]float64   // what of it the resolution makes, which is rectangular
	unnamed [InstrumentKinds]int // which one it was where none is named
	listed  []Instrument
	used    int  // how many there are
	explain bool // results keep their Parts
}

// An Evaluated is one instrument of an Evaluation.
type Evaluated struct {
	*Evaluation
	number int
}

// Evaluate works out the variances. The list has passed its check.
func (m *Measuring) Evaluate() *Evaluation {
	e := &Evaluation{listed: m.Instruments, used: int(InstrumentKinds) + len(m.Instruments), explain: m.Explain}
	for k := range InstrumentKinds {
		d := DefaultInstrument(k)
		e.put(int(k), &d)
		e.unnamed[k] = int(k)
	}
	for i := range m.Instruments {
		number := int(InstrumentKinds) + i
		e.put(number, &m.Instruments[i])
		e.unnamed[m.Instruments[i].Kind] = number
	}
	return e
}

func (e *Evaluation) put(number int, i *Instrument) {
	e.kind[number] = i.Kind
	e.scale[number] = float64(i.ScaleError) * float64(i.ScaleError) / 3
	e.step[number] = i.Resolution * i.Resolution / 12
	e.reading[number] = e.step[number] + float64(i.ReactionTime)*float64(i.ReactionTime)
}

// Instrument is the one with an id that has passed its check. Without an id it is the one
// of its kind that is listed, or else the default one.
func (e *Evaluation) Instrument(kind InstrumentKind, id string) Evaluated {
	if id != "" {
		for i := range e.listed {
			if e.listed[i].ID == id {
				return Evaluated{e, int(InstrumentKinds) + i}
			}
		}
	}
	return Evaluated{e, e.unnamed[kind]}
}

// Default is the default instrument of a kind, whatever is listed.
func (e *Evaluation) Default(kind InstrumentKind) Evaluated { return Evaluated{e, int(kind)} }

// relative is the variance of one reading as a share of it, squared.
func (e Evaluated) relative(value float64) float64 { return e.reading[e.number] / (value * value) }
