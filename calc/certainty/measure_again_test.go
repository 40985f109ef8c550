package certainty

import "testing"

// TestReferenceAgain, by hand: a result that is margin from its limit is settled at a
// coverage factor of 2 when u is half of that. With what falls as 1 / n of n made, V,
// and what stays, W, n V / ((margin / 2)^2 - W) are needed. All are shares of 1.
func TestReferenceAgain(t *testing.T) {
	measured := Repeats{Runs: 2, Catches: 12, Readings: MeasureCatches, Lengths: MeasureWidth}
	spread := Repeats{Runs: 2, Readings: MeasureReadings, Lengths: MeasureRuns, Spread: true}
	for name, c := range map[string]struct {
		budget map[Source]float64
		margin float64
		n      Repeats
		want   MeasureAgain
	}{
		// 2 x 0.03^2 / (0.02^2) = 4.5: five, three more.
		"runs": {map[Source]float64{SourceRuns: 0.03}, 0.04, measured, MeasureAgain{Measurement: MeasureRuns, How: HowAgain, More: 3}},
		// 2 x 0.03^2 / (0.02^2 - 0.01^2) = 6: four more, exactly.
		"runs beside a scale": {map[Source]float64{SourceRuns: 0.03, SourceJugScale: 0.01}, 0.04, measured, MeasureAgain{Measurement: MeasureRuns, How: HowAgain, More: 4}},
		// 12 x 0.03^2 / 0.02^2 = 27.
		"catches": {map[Source]float64{SourceCatches: 0.03}, 0.04, measured, MeasureAgain{Measurement: MeasureCatches, How: HowAgain, More: 15}},
		// It would be settled as it is; one more is the least that can be made.
		"nearly": {map[Source]float64{SourceCatches: 0.03}, 0.0601, measured, MeasureAgain{Measurement: MeasureCatches, How: HowAgain, More: 1}},
		// 2 x 0.03^2 / 0.00134^2 = 1002.4: 1001 more. One margin further, 2 x 0.03^2 / 0.001341^2 = 1000.9, 999 more.
		"too many":     {map[Source]float64{SourceRuns: 0.03}, 0.00268, measured, MeasureAgain{Measurement: MeasureRuns, How: HowAgain}},
		"just so many": {map[Source]float64{SourceRuns: 0.03}, 0.002682, measured, MeasureAgain{Measurement: MeasureRuns, How: HowAgain, More: 999}},
		// All readings are made anew with each catch: 12 x (0.03^2 + 0.02^2) / 0.02^2 = 39.
		"readings": {map[Source]float64{SourceJugReading: 0.03, SourceStopwatchReading: 0.02}, 0.04, measured, MeasureAgain{MeasureCatches, HowLonger, Jug, 27}},
		// What a stopwatch and a tape read is read longer or further; a gauge and a width are read again.
		"stopwatch": {map[Source]float64{SourceStopwatchReading: 0.03}, 0.04, measured, MeasureAgain{MeasureCatches, HowLonger, Stopwatch, 15}},
		"gauge":     {map[Source]float64{SourceGaugeReading: 0.03}, 0.04, Repeats{Readings: MeasureReadings}, MeasureAgain{MeasureReadings, HowAgain, Gauge, 2}},
		"width":     {map[Source]float64{SourceTapeReading: 0.03}, 0.04, measured, MeasureAgain{MeasureWidth, HowAgain, Tape, 15}},
		// The highest less the lowest is no nearer to the truth for more of them.
		"spread":          {map[Source]float64{SourceGaugeReading: 0.03}, 0.04, spread, MeasureAgain{MeasureReadings, HowAgain, Gauge, 0}},
		"spread of times": {map[Source]float64{SourceStopwatchReading: 0.03}, 0.04, spread, MeasureAgain{MeasureReadings, HowLonger, Stopwatch, 0}},
		// A scale that is the most of it, or most of what stays and too much by itself.
		"scale":          {map[Source]float64{SourceRuns: 0.01, SourceJugScale: 0.03}, 0.04, measured, MeasureAgain{MeasureCatches, HowBetterInstrument, Jug, 0}},
		"scale of two":   {map[Source]float64{SourceRuns: 0.05, SourceJugScale: 0.03, SourceTapeScale: 0.02}, 0.04, measured, MeasureAgain{MeasureCatches, HowBetterInstrument, Jug, 0}},
		"last of two":    {map[Source]float64{SourceRuns: 0.05, SourceStopwatchScale: 0.02, SourceGaugeScale: 0.03}, 0.04, measured, MeasureAgain{MeasureReadings, HowBetterInstrument, Gauge, 0}},
		"half of it":     {map[Source]float64{SourceRuns: 0.05, SourceCatches: 0.03, SourceJugScale: 0.03}, 0.04, measured, MeasureAgain{MeasureCatches, HowBetterInstrument, Jug, 0}},
		"less than half": {map[Source]float64{SourceRuns: 0.05, SourceCatches: 0.04, SourceJugScale: 0.03}, 0.04, measured, MeasureAgain{Measurement: MeasureRuns, How: HowAgain}},
		// Nothing but what was stated: no instrument, and no number of it.
		"stated":             {map[Source]float64{SourceGroundSpeed: 0.03}, 0.04, measured, MeasureAgain{Measurement: MeasureGroundSpeed, How: HowAgain}},
		"stated, at a limit": {map[Source]float64{SourceVolumeUsed: 0.03}, 0, measured, MeasureAgain{Measurement: MeasureVolumeUsed, How: HowAgain}},
	} {
		var b Budget
		for s, u := range c.budget {
			b[s].Standard = u
		}
		u := b.Combine(1)
		if got := u.whatToMeasureAgain(c.margin, c.n); got != c.want {
			t.Errorf("%s: %+v, want %+v", name, got, c.want)
		}
	}
}

// TestNearestLimit: what would settle it is counted from the nearer of two limits. 0.04
// below the upper one of 0.1, with 0.03 from two runs, is three runs as above, from
// either side.
func TestNearestLimit(t *testing.T) {
	u := (&Budget{SourceRuns: {Standard: 0.03}}).Combine(1)
	for _, x := range []float64{0.06, -0.06} {
		var c Conformity
		c.Judge(x, &u, -0.1, 0.1, Repeats{Runs: 2})
		if want := (MeasureAgain{Measurement: MeasureRuns, How: HowAgain, More: 3}); c.Conformance != TooClose || c.MeasureAgain != want {
			t.Errorf("at %v: %+v, want %+v", x, c, want)
		}
	}
}
