package api

import (
	"wetrun/calc"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// MeasuringRequest is what was measured with and how far it repeats; every operation
// on readings has these members.
type MeasuringRequest struct {
	Instruments   []InstrumentRequest  `json:"instruments,omitzero"`
	Repeatability RepeatabilityRequest `json:"repeatability,omitzero"`
	Uncertainty   *bool                `json:"uncertainty,omitzero"`
}

// InstrumentRequest is one instrument.
type InstrumentRequest struct {
	ID           string   `json:"id"`
	Kind         string   `json:"kind"`
	Resolution   Quantity `json:"resolution"`
	ScaleError   Quantity `json:"scaleError"`
	ReactionTime Quantity `json:"reactionTime,omitzero"`
}

// RepeatabilityRequest is what is known beforehand of runs and of catches.
type RepeatabilityRequest struct {
	Runs    PriorRequest `json:"runs,omitzero"`
	Catches PriorRequest `json:"catches,omitzero"`
}

// PriorRequest is a standard deviation and what it is worth.
type PriorRequest struct {
	StandardDeviation Quantity `json:"standardDeviation"`
	DegreesOfFreedom  int      `json:"degreesOfFreedom"`
}

// mostFreedom is how many degrees of freedom a prior may be worth.
const mostFreedom = 1000

// The kinds of instruments, in the order of calc's, and what each measures.
var (
	instrumentWords = []string{"stopwatch", "tape", "jug", "gauge"}
	instrumentUnits = [...]unit.Kind{calc.Stopwatch: unit.KindTime, calc.Tape: unit.KindLength, calc.Jug: unit.KindVolume, calc.Gauge: unit.KindPressure}
)

var instrumentTable = objectOf(
	require(label("id", func(i *InstrumentRequest) *string { return &i.ID }, longestLabel)),
	require(oneOf("kind", func(i *InstrumentRequest) *string { return &i.Kind }, instrumentWords...)),
	require(quantity("resolution", func(i *InstrumentRequest) *Quantity { return &i.Resolution }, instrumentUnits[:]...)),
	require(quantity("scaleError", func(i *InstrumentRequest) *Quantity { return &i.ScaleError }, unit.KindRatio)),
	quantity("reactionTime", func(i *InstrumentRequest) *Quantity { return &i.ReactionTime }, unit.KindTime),
)

var priorTable = objectOf(
	require(quantity("standardDeviation", func(p *PriorRequest) *Quantity { return &p.StandardDeviation }, unit.KindRatio)),
	require(count("degreesOfFreedom", func(p *PriorRequest) *int { return &p.DegreesOfFreedom }, 1, mostFreedom)),
)

var repeatabilityTable = objectOf(
	nested("runs", func(r *RepeatabilityRequest) *PriorRequest { return &r.Runs }, priorTable),
	nested("catches", func(r *RepeatabilityRequest) *PriorRequest { return &r.Catches }, priorTable),
)

// instrumentID is a member that names an instrument.
func instrumentID[T any](name string, at func(*T) *string) member[T] {
	return label(name, at, longestLabel)
}

var measuringTable = objectOf(
	list("instruments", func(m *MeasuringRequest) *[]InstrumentRequest { return &m.Instruments }, 0, calc.MostInstruments, instrumentTable),
	nested("repeatability", func(m *MeasuringRequest) *RepeatabilityRequest { return &m.Repeatability }, repeatabilityTable),
	flag("uncertainty", func(m *MeasuringRequest) **bool { return &m.Uncertainty }),
)

// measuring reads the members of MeasuringRequest and then others.
func measuring[T any](at func(*T) *MeasuringRequest, others ...member[T]) []member[T] {
	return append(part(at, measuringTable), others...)
}

// input is what calc takes of it. refused tells of resolutions that are not of what
// the instrument measures.
func (m *MeasuringRequest) input() (in calc.Measuring, refused error) {
	in.Uncertainty = m.Uncertainty == nil || *m.Uncertainty
	in.Repeatability = calc.Repeatability{Runs: m.Repeatability.Runs.input(), Catches: m.Repeatability.Catches.input()}
	if len(m.Instruments) == 0 {
		return in, nil
	}
	var wrong []FieldError
	in.Instruments = make([]calc.Instrument, len(m.Instruments))
	for i := range m.Instruments {
		x := &m.Instruments[i]
		kind := instrumentKind(x.Kind)
		if q := x.Resolution; q.Unit.Kind() != instrumentUnits[kind] {
			e := unitError(q.Unit.Symbol(), q.Unit, kindsOf(instrumentUnits[kind]))
			e.Pointer = pointer(finding.Item("instruments", i).Member("resolution").Member("unit"))
			wrong = append(wrong, e)
		}
		in.Instruments[i] = calc.Instrument{
			ID: x.ID, Kind: kind, Resolution: x.Resolution.si(), ScaleError: unit.Ratio(x.ScaleError.si()),
			ReactionTime: calc.DefaultInstrument(kind).ReactionTime,
		}
		if x.ReactionTime.given() {
			in.Instruments[i].ReactionTime = unit.Time(x.ReactionTime.si())
		}
	}
	if wrong != nil {
		return in, &refusal{kind: invalidRequest, fields: wrong}
	}
	return in, nil
}

func instrumentKind(word string) calc.InstrumentKind {
	for i, w := range instrumentWords {
		if w == word {
			return calc.InstrumentKind(i)
		}
	}
	return calc.Stopwatch
}

func (p *PriorRequest) input() calc.Prior {
	return calc.Prior{StandardDeviation: unit.Ratio(p.StandardDeviation.si()), DegreesOfFreedom: p.DegreesOfFreedom}
}
