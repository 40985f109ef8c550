package operation

import (
	"strings"
	"testing"

	"wetrun/calc/certainty"
	"wetrun/internal/text"
)

// TestHowToSettle: what to measure again stands in the sentence with its number, one or more.
func TestHowToSettle(t *testing.T) {
	for again, want := range map[certainty.MeasureAgain][2]string{
		{Measurement: certainty.MeasureRuns, How: certainty.HowAgain, More: 2}:      {"Make 2 more timed runs. If the results agree, that should settle it.", "Haga 2 recorridos cronometrados más. Si los resultados coinciden, ya se puede decidir."},
		{Measurement: certainty.MeasureRuns, How: certainty.HowAgain, More: 1}:      {"Make 1 more timed run. If the results agree, that should settle it.", "Haga 1 recorrido cronometrado más. Si los resultados coinciden, ya se puede decidir."},
		{Measurement: certainty.MeasureCatches, How: certainty.HowLonger, More: 15}: {"Catch the output for a longer time, or make 15 more catches. If", "Mida durante más tiempo en cada aforo o haga 15 aforos más. Si"},
		{Measurement: certainty.MeasureCatches, How: certainty.HowLonger}:           {"Catch the output for a longer time.", "Mida durante más tiempo en cada aforo."},
		{Measurement: certainty.MeasureArea, How: certainty.HowAgain}:               {"Measure the area again, with more care.", "Vuelva a medir la superficie, con más cuidado."},
		{Measurement: certainty.MeasureCatches, How: certainty.HowBetterInstrument, Instrument: certainty.Jug}: {
			"More readings will not help. Check the catch jug, or use a better one.", "Más lecturas no ayudan. Revise la jarra o use un instrumento mejor."},
	} {
		for l, words := range map[text.Language]string{text.English: want[0], text.Spanish: want[1]} {
			if got := howToSettle(l, again); !strings.HasPrefix(got, words) {
				t.Errorf("%+v: %q, want %q", again, got, words)
			}
		}
	}
}

// TestEveryRepeatIsWorded: runs, catches, pressure readings and a width are what more of can
// be asked for; the first two can be longer instead.
func TestEveryRepeatIsWorded(t *testing.T) {
	longer := map[certainty.Measurement]bool{certainty.MeasureRuns: true, certainty.MeasureCatches: true}
	for _, m := range []certainty.Measurement{certainty.MeasureRuns, certainty.MeasureCatches, certainty.MeasureReadings, certainty.MeasureWidth} {
		for _, how := range []certainty.HowToMeasureAgain{certainty.HowAgain, certainty.HowLonger} {
			if how == certainty.HowLonger && !longer[m] {
				continue
			}
			for _, more := range []int{0, 1, 38} {
				got := conformanceDetail(text.English, certainty.MeasureAgain{Measurement: m, How: how, More: more})
				if strings.Contains(got, "measurement") || strings.Contains(got, "%!") {
					t.Errorf("%s, %s, %d more: %q", m, how, more, got)
				}
			}
		}
	}
}
