package certainty

import (
	"math"
	"sort"

	"wetrun/calc/finding"
)

// MeasureAgain is what would tell whether something that is too close to its limit
// lies within it.
type MeasureAgain struct {
	Measurement Measurement
	How         HowToMeasureAgain
	// Instrument is the kind to find a better one of; only with HowBetterInstrument.
	Instrument InstrumentKind
	// More is the fewest further measurements that would settle it if they came out alike,
	// with the mean and the spread of those there are; 0 when no number of them would.
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
	Runs, Catches *Scatter // of which a mean was made; nil where there is none
	Read          int      // how often a reading was made of which there is no scatter
	Readings      Measurement
	Lengths       Measurement // what the tape measured
	Spread        bool        // highest less lowest: more of them do not bring it nearer to the truth
}

// whatToMeasureAgain looks for what dominates an uncertainty, and for the fewest further
// measurements of it that would settle the verdict: sure judges it by what each uncertainty
// would be after them, if they came out like those there are, with the same mean and the same
// spread about it. Where it would not be sure with any number of them, the
// instrument with the largest scale error has to be better.
func (u *Uncertainty) whatToMeasureAgain(n Repeats, sure func(again func(*Uncertainty) Uncertainty) bool) MeasureAgain {
	b := &u.Budget
	main, scale := Source(0), SourceStopwatchScale
	for s := range b {
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
	settled := func(more float64) bool {
		return sure(func(u *Uncertainty) Uncertainty { return u.after(main, made, more, n) })
	}
	if !settled(math.Inf(1)) {
		best := u.after(main, made, math.Inf(1), n)
		if rest := best.Standard / u.Reference; 2*b[scale].Standard*b[scale].Standard >= rest*rest && b[scale].Standard > 0 {
			a, _ = n.measurementOf(scale)
		}
		return a
	}
	if made > 0 && settled(mostMore) {
		few, many := 0, 1 // too few, and perhaps enough
		for !settled(float64(many)) {
			few, many = many, min(2*many, mostMore)
		}
		a.More = many - sort.Search(many-few-1, func(i int) bool { return !settled(float64(many - 1 - i)) })
	}
	return a
}

// after is the uncertainty that there would be after so many more measurements that came out
// alike. Every reading is made anew with each of them, but the one of a width.
func (u *Uncertainty) after(main Source, made int, more float64, n Repeats) Uncertainty {
	b, widest := u.Budget, u.widest
	fewer := float64(made) / (float64(made) + more)
	switch {
	case main == SourceRuns && n.Runs != nil:
		b[main] = n.Runs.after(more)
	case main == SourceCatches && n.Catches != nil:
		b[main] = n.Catches.after(more)
		widest.Reading *= fewer // in so many more of them, each with a smaller share
	case main < SourceRuns:
		for k := range InstrumentKinds {
			if n.Lengths == MeasureWidth && (k == Tape) != (main == SourceTapeReading) {
				continue
			}
			b[readingOf(k)].Standard *= math.Sqrt(fewer)
		}
		widest.Reading *= fewer * fewer
	default:
		b[main] = Component{}
	}
	return b.Combine(u.Reference, widest)
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
		return MeasureAgain{Measurement: MeasureRuns, How: HowAgain}, n.Runs.number()
	case s == SourceCatches:
		return MeasureAgain{Measurement: MeasureCatches, How: HowAgain}, n.Catches.number()
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
	if a.Measurement == MeasureWidth {
		return a, 1
	}
	return a, max(n.Read, 1)
}
