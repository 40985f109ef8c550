package certainty

import (
	"slices"

	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// InstrumentKind is what an instrument measures.
type InstrumentKind uint8

// The kinds of instruments.
const (
	Stopwatch InstrumentKind = iota // times
	Tape                            // lengths
	Jug                             // volumes
	Gauge                           // pressures
	InstrumentKinds
)

var instrumentWords = [...]string{Stopwatch: "stopwatch", Tape: "tape", Jug: "jug", Gauge: "gauge"}

// String is the word for the kind.
func (k InstrumentKind) String() string { return instrumentWords[k] }

// Words lists the kinds, in the order of their constants.
func (InstrumentKind) Words() []string { return slices.Clone(instrumentWords[:]) }

// An Instrument is one that a crew measured with. Zero errors are no errors; what is
// not known is taken from DefaultInstrument.
type Instrument struct {
	ID   string
	Kind InstrumentKind
	// Resolution is the width of the interval that one reading stands for, in the SI
	// unit of what it measures: seconds, metres, cubic metres, pascals. A reading lies
	// anywhere in it, so u = d / sqrt(12) (GUM F.2.2.1).
	Resolution float64
	// ScaleError bounds how far all readings are off by the same share: a rectangular
	// distribution of half-width a, so u = a / sqrt(3) (GUM 4.3.7).
	ScaleError unit.Ratio
	// ReactionTime, of a stopwatch only, is the standard deviation that the hand adds
	// to one timed interval.
	ReactionTime unit.Time
}

// Errors of instruments that nothing is said of.
const (
	DefaultStopwatchResolution = 0.01 * unit.Second  // of a digital display; common practice, no published source
	DefaultStopwatchScale      = 0.01 * unit.Percent // 9 s a day: any quartz watch; own judgement
	DefaultReactionTime        = 0.2 * unit.Second   // start and stop together; own judgement

	DefaultTapeResolution = 1 * unit.Centimetre // how near a wheel stops to a mark; own judgement
	DefaultTapeScale      = 0.1 * unit.Percent  // sag, pull and slack of a long tape; own judgement

	DefaultJugResolution = 10 * unit.Millilitre // marks of a jug of one or two litres; own judgement
	// Source: testers' measuring cylinders are typically within 1 %, UK National
	// Sprayer Testing Scheme, https://www.eioperator.com/?p=165701 . A field jug can be
	// off by about 10 %: https://caracterres.fr/un-cumul-dimprecisions-sur-la-pulverisation
	DefaultJugScale = 1 * unit.Percent

	// Source of the marks: at most 0.2 bar apart up to 5 bar, UK National Sprayer
	// Testing Scheme, https://eioperator.com/pro-operator-article/giving-nsts-some-stick-spring-2020-edition/ .
	// They are read to half a mark: own judgement.
	DefaultGaugeResolution = 0.1 * unit.Bar
	// A gauge of class 1.6 in service is within 2.4 % of its span (German verification
	// law, annex 16, as a copy gives it), which is about 5 % of a reading at half span:
	// own judgement from that.
	DefaultGaugeScale = 5 * unit.Percent
)

// DefaultInstrument is the one that stands in for an instrument of a kind where none
// is listed; there is one of each kind, shared by all that it measures. Sources stand
// beside the constants; Tolerances lists them.
func DefaultInstrument(k InstrumentKind) Instrument {
	switch k {
	case Stopwatch:
		return Instrument{Kind: k, Resolution: float64(DefaultStopwatchResolution), ScaleError: DefaultStopwatchScale, ReactionTime: DefaultReactionTime}
	case Tape:
		return Instrument{Kind: k, Resolution: float64(DefaultTapeResolution), ScaleError: DefaultTapeScale}
	case Jug:
		return Instrument{Kind: k, Resolution: float64(DefaultJugResolution), ScaleError: DefaultJugScale}
	}
	return Instrument{Kind: Gauge, Resolution: float64(DefaultGaugeResolution), ScaleError: DefaultGaugeScale}
}

// Measuring is what a crew measured with, how far its measurements repeat, and
// whether anything is to be made of it.
type Measuring struct {
	// Uncertainty asks for uncertainties and conformance probabilities.
	Uncertainty   bool
	Explain       bool         // asks for the Parts of each Uncertainty besides
	Instruments   []Instrument // at most MostInstruments
	Repeatability Repeatability
}

// MostInstruments is how many instruments may be listed.
const MostInstruments = 20

// Codes of violations of instruments.
const (
	CodeEmpty               = "empty"                // an id of no characters
	CodeDuplicateID         = "duplicate_id"         // two instruments with one id
	CodeUnknownInstrument   = "unknown_instrument"   // an id that no instrument has
	CodeWrongInstrumentKind = "wrong_instrument"     // one that measures something else
	CodeInstrumentNotNamed  = "instrument_not_named" // several of the kind: which one was it?
	CodeStopwatchOnly       = "stopwatch_only"       // a reaction time of what is no stopwatch
)

// Check looks at the list and at the priors.
func (m *Measuring) Check(v *finding.Invalid) {
	if len(m.Instruments) > MostInstruments {
		v.Add(finding.Member("instruments"), finding.CodeTooMany)
	}
	for i := range m.Instruments {
		x := &m.Instruments[i]
		if x.ID == "" {
			v.Add(finding.Item("instruments", i).Member("id"), CodeEmpty)
		}
		if x.Kind >= InstrumentKinds {
			v.Add(finding.Item("instruments", i).Member("kind"), finding.CodeNotAllowed)
		}
		for j := range i {
			if m.Instruments[j].ID == x.ID && x.ID != "" {
				v.Add(finding.Item("instruments", i).Member("id"), CodeDuplicateID)
				break
			}
		}
		v.OptionalIn(x.Resolution, "instruments", i, "resolution")
		v.OptionalIn(float64(x.ScaleError), "instruments", i, "scaleError")
		v.OptionalIn(float64(x.ReactionTime), "instruments", i, "reactionTime")
		if x.ReactionTime != 0 && x.Kind != Stopwatch {
			v.Add(finding.Item("instruments", i).Member("reactionTime"), CodeStopwatchOnly)
		}
	}
	*v = append(*v, m.Repeatability.check().Under(finding.Member("repeatability"))...)
}

// CheckInstrument checks that an id, empty when none is named, leads to one instrument of its
// kind. place builds its place where something is wrong.
func (m *Measuring) CheckInstrument(v *finding.Invalid, kind InstrumentKind, id string, place func() finding.Place) {
	if id == "" {
		if m.Uncertainty && m.count(kind) > 1 {
			*v = append(*v, finding.Violation{Place: place(), Code: CodeInstrumentNotNamed, Allowed: m.ids(kind)})
		}
		return
	}
	unnamed := false
	for i := range m.Instruments {
		if m.Instruments[i].ID == id {
			if m.Instruments[i].Kind != kind {
				*v = append(*v, finding.Violation{Place: place(), Code: CodeWrongInstrumentKind, Allowed: m.ids(kind)})
			}
			return
		}
		unnamed = unnamed || m.Instruments[i].ID == "" && m.Instruments[i].Kind == kind
	}
	if unnamed { // that one is refused, and may be the one that is meant
		return
	}
	*v = append(*v, finding.Violation{Place: place(), Code: CodeUnknownInstrument, Allowed: m.ids(kind)})
}

// CheckGauge checks the gauge of a common pressure.
func (m *Measuring) CheckGauge(v *finding.Invalid, p unit.Pressure, gauge string) {
	if p != 0 || gauge != "" {
		m.CheckInstrument(v, Gauge, gauge, func() finding.Place { return finding.Member("gauge") })
	}
}

func (m *Measuring) count(kind InstrumentKind) (n int) {
	for i := range m.Instruments {
		if m.Instruments[i].Kind == kind {
			n++
		}
	}
	return n
}

// ids lists the instruments of a kind that can be named.
func (m *Measuring) ids(kind InstrumentKind) (all []string) {
	for i := range m.Instruments {
		if m.Instruments[i].Kind == kind && m.Instruments[i].ID != "" {
			all = append(all, m.Instruments[i].ID)
		}
	}
	return all
}

// Mark is the width of one mark of the instrument of a kind that an id names, or of the only
// one of that kind; zero where none is listed, or its marks are not known.
func (m *Measuring) Mark(kind InstrumentKind, id string) (mark float64) {
	for i := range m.Instruments {
		if x := &m.Instruments[i]; x.Kind == kind && (x.ID == id || id == "") {
			mark = x.Resolution
		}
	}
	return mark
}
