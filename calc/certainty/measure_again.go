package certainty

import (
	"math"

	"wetrun/calc/finding"
)

// MeasureAgain is what would tell whether something that is too close to its limit
// lies within it.
type MeasureAgain struct {
	Measurement Measurement
	How         HowToMeasureAgain
	// Instrument is the kind to find a better one of; only with HowBetterInstrument.
	Instrument InstrumentKind
	// More is how many more measurements would settle it if they came out alike; 0
	// when no number of them would.
	More int
}

// A Measurement is one that can be made again.
type Measurement string

const (
	MeasureRuns            Measurement = "runs"
	MeasureCatches         Measurement = "catches"
	MeasureReadings        Measurement = "readings" // of pressure
	MeasureWidth           Measurement = "width"
	MeasureNozzleFlowRate  Measurement = "nozzle_flow_rate" // as stated: the figure behind a rate
	MeasureGroundSpeed     Measurement = "ground_speed"
	MeasureVolumeUsed      Measurement = "volume_used"
	MeasureArea            Measurement = "area"
	MeasureApplicationRate Measurement = "application_rate"
)

// Words lists every measurement.
func (Measurement) Words() []string {
	return finding.WordsOf([]Measurement{
		MeasureRuns, MeasureCatches, MeasureReadings, MeasureWidth, MeasureNozzleFlowRate, MeasureGroundSpeed, MeasureVolumeUsed,
		MeasureArea, MeasureApplicationRate,
	})
}

// HowToMeasureAgain is how to make it.
type HowToMeasureAgain string

const (
	HowAgain            HowToMeasureAgain = "again"             // more of the same
	HowLonger           HowToMeasureAgain = "longer"            // a longer course, a longer catch
	HowBetterInstrument HowToMeasureAgain = "better_instrument" // its scale is what is not known
)

// Words lists every way to measure again.
func (HowToMeasureAgain) Words() []string {
	return finding.WordsOf([]HowToMeasureAgain{HowAgain, HowLonger, HowBetterInstrument})
}

// mostMore is the number of repeats beyond which nobody makes them (own judgement).
const mostMore = 1000

// Repeats is how often what a result rests on was measured, and what its timed and
// read values belong to.
type Repeats struct {
	Runs, Catches int
	Readings      Measurement
	Lengths       Measurement // what the tape measured
	Spread        bool        // highest less lowest: more of them do not bring it nearer to the truth
}

// whatToMeasureAgain looks for what dominates an uncertainty and would settle a value
// that lies margin, above zero or not, from its nearest limit. With a coverage factor of
// 2 it is settled when 2 u is no more than the margin, so that of the n repeats behind
// the variance V beside a rest that stays,
//
//	n V / ((margin / 2)^2 - rest)
//
// are needed. Where the rest alone is too much, the instrument with the largest scale
// error has to be better.
func (u *Uncertainty) whatToMeasureAgain(margin float64, n Repeats) MeasureAgain {
	b := &u.Budget
	var all float64
	main, scale := Source(0), SourceStopwatchScale
	for s := range b {
		all += b[s].Standard * b[s].Standard
		if b[s].Standard > b[main].Standard {
			main = Source(s)
		}
	}
	for k := range InstrumentKinds {
		if b[scaleOf(k)].Standard > b[scale].Standard {
			scale = scaleOf(k)
		}
	}
	a, made := n.measurementOf(main)
	if a.How == HowBetterInstrument {
		return a
	}
	falls := b[main].Standard * b[main].Standard
	if main < SourceRuns { // every reading is made anew with each repeat
		falls = 0
		for k := range InstrumentKinds {
			falls += b[readingOf(k)].Standard * b[readingOf(k)].Standard
		}
	}
	rest := all - falls
	enough := margin / 2 / u.Reference
	enough *= enough
	switch {
	case enough > rest && made > 0:
		if more := math.Ceil(float64(made)*falls/(enough-rest)-finding.Slack) - float64(made); more <= mostMore {
			a.More = max(int(more), 1)
		}
	case enough <= rest && b[scale].Standard > 0 && b[scale].Standard*b[scale].Standard >= rest/2:
		a, _ = n.measurementOf(scale)
	}
	return a
}

// stated are the measurements of which no more than a figure is known.
var stated = [Sources]Measurement{
	SourceNozzleFlowRate: MeasureNozzleFlowRate, SourceGroundSpeed: MeasureGroundSpeed, SourceSprayedWidth: MeasureWidth,
	SourceVolumeUsed: MeasureVolumeUsed, SourceArea: MeasureArea,
	SourceApplicationRate: MeasureApplicationRate, SourceExpectedRate: MeasureApplicationRate,
}

// measurementOf is the measurement that a source belongs to, how to make it again, and
// how often it was made.
func (n Repeats) measurementOf(s Source) (MeasureAgain, int) {
	switch {
	case s == SourceRuns:
		return MeasureAgain{Measurement: MeasureRuns, How: HowAgain}, n.Runs
	case s == SourceCatches:
		return MeasureAgain{Measurement: MeasureCatches, How: HowAgain}, n.Catches
	case stated[s] != "":
		return MeasureAgain{Measurement: stated[s], How: HowAgain}, 0
	}
	kind := InstrumentKind(s / 2)
	a := MeasureAgain{Measurement: n.Readings, How: HowAgain, Instrument: kind}
	switch kind {
	case Gauge:
		a.Measurement = MeasureReadings
	case Tape:
		a.Measurement = n.Lengths
	}
	if s == scaleOf(kind) {
		a.How = HowBetterInstrument
		return a, 0
	}
	if kind == Stopwatch || kind == Jug {
		a.How = HowLonger
	}
	if n.Spread {
		return a, 0
	}
	return a, max(n.Runs, n.Catches, 1)
}
