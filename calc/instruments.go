package calc

import (
	"strings"

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
	instrumentKinds
)

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
	defaultStopwatchResolution = 0.01 * unit.Second  // of a digital display; common practice, no published source
	defaultStopwatchScale      = 0.01 * unit.Percent // 9 s a day: any quartz watch; own judgement
	defaultReactionTime        = 0.2 * unit.Second   // start and stop together; own judgement

	defaultTapeResolution = 1 * unit.Centimetre // how near a wheel stops to a mark; own judgement
	defaultTapeScale      = 0.1 * unit.Percent  // sag, pull and slack of a long tape; own judgement

	defaultJugResolution = 10 * unit.Millilitre // marks of a jug of one or two litres; own judgement
	// Source: testers' measuring cylinders are typically within 1 %, UK National
	// Sprayer Testing Scheme, https://www.eioperator.com/?p=165701 . A field jug can be
	// off by about 10 %: https://caracterres.fr/un-cumul-dimprecisions-sur-la-pulverisation
	defaultJugScale = 1 * unit.Percent

	// Source of the marks: at most 0.2 bar apart up to 5 bar, UK National Sprayer
	// Testing Scheme, https://eioperator.com/pro-operator-article/giving-nsts-some-stick-spring-2020-edition/ .
	// They are read to half a mark: own judgement.
	defaultGaugeResolution = 0.1 * unit.Bar
	// A gauge of class 1.6 in service is within 2.4 % of its span (German verification
	// law, annex 16, as a copy gives it), which is about 5 % of a reading at half span:
	// own judgement from that.
	defaultGaugeScale = 5 * unit.Percent
)

// DefaultInstrument is the one that stands in for an instrument of a kind where none
// is listed; there is one of each kind, shared by all that it measures. Sources stand
// beside the constants; Tolerances lists them.
func DefaultInstrument(k InstrumentKind) Instrument {
	switch k {
	case Stopwatch:
		return Instrument{Kind: k, Resolution: float64(defaultStopwatchResolution), ScaleError: defaultStopwatchScale, ReactionTime: defaultReactionTime}
	case Tape:
		return Instrument{Kind: k, Resolution: float64(defaultTapeResolution), ScaleError: defaultTapeScale}
	case Jug:
		return Instrument{Kind: k, Resolution: float64(defaultJugResolution), ScaleError: defaultJugScale}
	}
	return Instrument{Kind: Gauge, Resolution: float64(defaultGaugeResolution), ScaleError: defaultGaugeScale}
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

// check looks at the list and at the priors.
func (m *Measuring) check(v *Invalid) {
	if len(m.Instruments) > MostInstruments {
		v.add("Instruments", CodeTooMany)
	}
	for i := range m.Instruments {
		x := &m.Instruments[i]
		if x.ID == "" {
			v.add(at("Instruments", i, "Id"), CodeEmpty)
		}
		if x.Kind >= instrumentKinds {
			v.add(at("Instruments", i, "Kind"), CodeNotAllowed)
		}
		for j := range i {
			if m.Instruments[j].ID == x.ID && x.ID != "" {
				v.add(at("Instruments", i, "Id"), CodeDuplicateID)
				break
			}
		}
		if !sound(x.Resolution) {
			v.optional(x.Resolution, at("Instruments", i, "Resolution"))
		}
		if !sound(float64(x.ScaleError)) {
			v.optional(float64(x.ScaleError), at("Instruments", i, "ScaleError"))
		}
		if !sound(float64(x.ReactionTime)) {
			v.optional(float64(x.ReactionTime), at("Instruments", i, "ReactionTime"))
		}
		if x.ReactionTime != 0 && x.Kind != Stopwatch {
			v.add(at("Instruments", i, "ReactionTime"), CodeStopwatchOnly)
		}
	}
	m.Repeatability.Runs.check(v, "Repeatability.Runs")
	m.Repeatability.Catches.check(v, "Repeatability.Catches")
}

// names checks that an id, empty when none is named, leads to one instrument of its
// kind. path builds the field's path where something is wrong.
func (m *Measuring) names(v *Invalid, kind InstrumentKind, id string, path func() string) {
	if id == "" {
		if m.Uncertainty && m.count(kind) > 1 {
			*v = append(*v, Violation{Field: path(), Code: CodeInstrumentNotNamed, Allowed: m.ids(kind)})
		}
		return
	}
	for i := range m.Instruments {
		if m.Instruments[i].ID == id {
			if m.Instruments[i].Kind != kind {
				*v = append(*v, Violation{Field: path(), Code: CodeWrongInstrumentKind, Allowed: m.ids(kind)})
			}
			return
		}
	}
	*v = append(*v, Violation{Field: path(), Code: CodeUnknownInstrument, Allowed: m.ids(kind)})
}

// common checks the gauge of a common pressure.
func (m *Measuring) common(v *Invalid, p unit.Pressure, gauge string) {
	if p != 0 || gauge != "" {
		m.names(v, Gauge, gauge, func() string { return "Gauge" })
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

// ids lists the instruments of a kind, one a line.
func (m *Measuring) ids(kind InstrumentKind) string {
	var all []string
	for i := range m.Instruments {
		if m.Instruments[i].Kind == kind {
			all = append(all, m.Instruments[i].ID)
		}
	}
	return strings.Join(all, "\n")
}
