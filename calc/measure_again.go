package calc

import (
	"math"

	"wetrun/calc/finding"
)

// MeasureAgain is what would tell whether something that is too close to its limit
// lies within it.
type MeasureAgain struct {
	Measurement Measurement
	How         HowAgain
	// Instrument is the kind to find a better one of; only with BetterInstrument.
	Instrument InstrumentKind
	// More is how many more measurements would settle it if they came out alike; 0
	// when no number of them would.
	More int
}

// A Measurement is one that can be made again.
type Measurement uint8

// The measurements.
const (
	MeasureRuns Measurement = iota
	MeasureCatches
	MeasureReadings // of pressure
	MeasureWidth
	MeasureFlow // as stated: the figure behind a rate
	MeasureSpeed
	MeasureVolume
	MeasureArea
	MeasureRate
)

// HowAgain is how to make it.
type HowAgain uint8

// The ways to measure again.
const (
	RepeatIt         HowAgain = iota // more of the same
	MeasureLonger                    // a longer course, a longer catch
	BetterInstrument                 // its scale is what is not known
)

// mostMore is the number of repeats beyond which nobody makes them.
const mostMore = 1000

// repeats is how often what a result rests on was measured, and what its timed and
// read values belong to.
type repeats struct {
	runs, catches int
	readings      Measurement
	lengths       Measurement // what the tape measured
	spread        bool        // highest less lowest: more of them do not bring it nearer to the truth
}

// again looks for what dominates an uncertainty and would settle a value that lies
// margin, above zero or not, from its nearest limit. With a coverage factor of 2 it is
// settled when 2 u is no more than the margin, so that of the n repeats behind the
// variance V beside a rest that stays,
//
//	n V / ((margin / 2)^2 - rest)
//
// are needed. Where the rest alone is too much, the instrument with the largest scale
// error has to be better.
func (u *Uncertainty) again(margin float64, n repeats) MeasureAgain {
	b := &u.Budget
	var all float64
	main, scale := Source(0), SourceStopwatchScale
	for s := range b {
		all += b[s].Standard * b[s].Standard
		if b[s].Standard > b[main].Standard {
			main = Source(s)
		}
	}
	for k := range instrumentKinds {
		if b[scaleOf(k)].Standard > b[scale].Standard {
			scale = scaleOf(k)
		}
	}
	a, made := n.of(main)
	if a.How == BetterInstrument {
		return a
	}
	falls := b[main].Standard * b[main].Standard
	if main < SourceRuns { // every reading is made anew with each repeat
		falls = 0
		for k := range instrumentKinds {
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
		a, _ = n.of(scale)
	}
	return a
}

// of is the measurement that a source belongs to, how to make it again, and how often
// it was made.
func (n repeats) of(s Source) (MeasureAgain, int) {
	switch s {
	case SourceRuns:
		return MeasureAgain{Measurement: MeasureRuns}, n.runs
	case SourceCatches:
		return MeasureAgain{Measurement: MeasureCatches}, n.catches
	case SourceNozzleFlowRate:
		return MeasureAgain{Measurement: MeasureFlow}, 0
	case SourceGroundSpeed:
		return MeasureAgain{Measurement: MeasureSpeed}, 0
	case SourceSprayedWidth:
		return MeasureAgain{Measurement: MeasureWidth}, 0
	case SourceVolumeUsed:
		return MeasureAgain{Measurement: MeasureVolume}, 0
	case SourceArea:
		return MeasureAgain{Measurement: MeasureArea}, 0
	case SourceApplicationRate, SourceExpectedRate:
		return MeasureAgain{Measurement: MeasureRate}, 0
	}
	kind := InstrumentKind(s / 2)
	a := MeasureAgain{Measurement: n.readings, Instrument: kind}
	switch kind {
	case Gauge:
		a.Measurement = MeasureReadings
	case Tape:
		a.Measurement = n.lengths
	}
	if s == scaleOf(kind) {
		a.How = BetterInstrument
		return a, 0
	}
	if kind == Stopwatch || kind == Jug {
		a.How = MeasureLonger
	}
	if n.spread {
		return a, 0
	}
	return a, max(n.runs, n.catches, 1)
}

// settle says what would settle a value that is too close to one of its limits.
func (c *Conformity) settle(x float64, u *Uncertainty, low, high float64, n repeats) {
	if c.Conformance == TooClose {
		c.Again = u.again(math.Min(math.Abs(high-x), math.Abs(x-low)), n)
	}
}
