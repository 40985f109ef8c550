package operation

import (
	"cmp"
	"strings"

	"wetrun/calc/certainty"
	"wetrun/internal/record"
)

// filed is who measured with what, for which products and in what weather. What was not
// sent is a line to fill in by hand: whoever inspects a record asks for it. The numbers of
// licenses and registrations are on paper alone.
func (s *sheetRecord) filed() (all []record.Fact) {
	r := s.request
	line := func(key, value string) {
		all = append(all, record.Fact{Name: s.word(key), Value: strings.TrimSpace(value)})
	}
	day := ""
	if !r.Schedule.MeasuredOn.IsZero() {
		day = s.lang.Date(r.Schedule.MeasuredOn.Format("2006-01-02"))
	}
	line("measured_on", day)
	line("driver", r.People.Driver)
	line("license", "")
	line("catcher", r.People.Catcher)
	line("timer", r.People.Timer)
	for i := range max(1, len(r.Products)) {
		name := ""
		if i < len(r.Products) {
			name = r.Products[i].Name
		}
		line("product", name)
		line("registration", "")
	}
	line("weather", r.Conditions.Weather)
	line("wind", r.Conditions.Wind)
	line("temperature", r.Conditions.Temperature)
	line("humidity", r.Conditions.Humidity)
	line("nozzle_label", r.Nozzle.Label)
	line("instrument_gauge", s.instruments(certainty.Gauge))
	line("instrument_jug", s.instruments(certainty.Jug))
	for _, kind := range []certainty.InstrumentKind{certainty.Stopwatch, certainty.Tape} {
		if described := s.instruments(kind); described != "" {
			line("instrument_"+kind.String(), described)
		}
	}
	return all
}

// instruments are those of a kind that were described.
func (s *sheetRecord) instruments(kind certainty.InstrumentKind) string {
	var all []string
	for i := range s.request.Instruments {
		if x := &s.request.Instruments[i]; x.Kind == kind {
			all = append(all, s.word("instrument", cmp.Or(strings.TrimSpace(x.ID), "-"), s.asSent(x.Resolution), s.asSent(x.ScaleError)))
		}
	}
	return strings.Join(all, "; ")
}
