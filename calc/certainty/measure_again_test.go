package certainty

import (
	"math"
	"testing"
)

// alike is the scatter of n measurements of which the mean is known to u, with no end of
// degrees of freedom.
func alike(n int, u float64) *Scatter {
	known := Prior{StandardDeviation: 1e-9, DegreesOfFreedom: 1_000_000_000_000}
	s := known.Pool(u*u*float64(n), 0, n, 1/float64(n), 0, 0)
	return &s
}

// TestReferenceAgain, by hand: a result that is margin below its limit is surely so when
// margin is 1.644854 times u, by a table of the normal distribution. With what falls as 1 / n
// of n made, V, and what stays, W, n V / ((margin / 1.644854)^2 - W) are needed, of which
// (0.04 / 1.644854)^2 is 0.00059137. All are shares of 1.
func TestReferenceAgain(t *testing.T) {
	read := Repeats{Read: 12, Readings: MeasureCatches, Lengths: MeasureWidth}
	spread := Repeats{Readings: MeasureReadings, Lengths: MeasureRuns, Spread: true}
	for name, c := range map[string]struct {
		budget map[Source]float64
		margin float64
		n      Repeats
		want   MeasureAgain
	}{
		// 2 x 0.03^2 / 0.00059137 = 3.04: four, two more.
		"runs": {map[Source]float64{SourceRuns: 0.03}, 0.04, read, MeasureAgain{Measurement: MeasureRuns, How: HowAgain, More: 2}},
		// 2 x 0.03^2 / (0.00059137 - 0.02^2) = 9.4: eight more.
		"runs beside a stated width": {map[Source]float64{SourceRuns: 0.03, SourceSprayedWidth: 0.02}, 0.04, read, MeasureAgain{Measurement: MeasureRuns, How: HowAgain, More: 8}},
		// 12 x 0.03^2 / 0.00059137 = 18.3.
		"catches": {map[Source]float64{SourceCatches: 0.03}, 0.04, read, MeasureAgain{Measurement: MeasureCatches, How: HowAgain, More: 7}},
		// 12 x 0.03^2 / (0.0493 / 1.644854)^2 = 12.02.
		"nearly": {map[Source]float64{SourceCatches: 0.03}, 0.0493, read, MeasureAgain{Measurement: MeasureCatches, How: HowAgain, More: 1}},
		// 2 x 0.03^2 / (0.0022041 / 1.644854)^2 = 1002.5: 1001 more. Of 0.0022053, 1001.4: 1000 more. Of 0.00221, 997.1: 996.
		"too many":     {map[Source]float64{SourceRuns: 0.03}, 0.0022041, read, MeasureAgain{Measurement: MeasureRuns, How: HowAgain}},
		"just so many": {map[Source]float64{SourceRuns: 0.03}, 0.0022053, read, MeasureAgain{Measurement: MeasureRuns, How: HowAgain, More: 1000}},
		"fewer":        {map[Source]float64{SourceRuns: 0.03}, 0.00221, read, MeasureAgain{Measurement: MeasureRuns, How: HowAgain, More: 996}},
		// All readings are made anew with each catch: 12 x (0.03^2 + 0.02^2) / 0.00059137 = 26.4.
		"readings": {map[Source]float64{SourceJugReading: 0.03, SourceStopwatchReading: 0.02}, 0.04, read, MeasureAgain{MeasureCatches, HowLonger, Jug, 15}},
		// What a stopwatch and a tape read is read longer or further; a gauge and a width are read again.
		"stopwatch": {map[Source]float64{SourceStopwatchReading: 0.03}, 0.04, read, MeasureAgain{MeasureCatches, HowLonger, Stopwatch, 7}},
		// 0.03^2 / 0.00059137 = 1.52, and of three readings 4.6.
		"gauge":        {map[Source]float64{SourceGaugeReading: 0.03}, 0.04, Repeats{Readings: MeasureReadings}, MeasureAgain{MeasureReadings, HowAgain, Gauge, 1}},
		"gauge thrice": {map[Source]float64{SourceGaugeReading: 0.03}, 0.04, Repeats{Read: 3, Readings: MeasureReadings}, MeasureAgain{MeasureReadings, HowAgain, Gauge, 2}},
		// A width was measured once, and its reading is made with no catch: 0.03^2 / (0.00059137 - 0.02^2) = 4.7.
		"width": {map[Source]float64{SourceTapeReading: 0.03, SourceJugReading: 0.02}, 0.04, read, MeasureAgain{MeasureWidth, HowAgain, Tape, 4}},
		// The highest less the lowest is no nearer to the truth for more of them.
		"spread":          {map[Source]float64{SourceGaugeReading: 0.03}, 0.04, spread, MeasureAgain{MeasureReadings, HowAgain, Gauge, 0}},
		"spread of times": {map[Source]float64{SourceStopwatchReading: 0.03}, 0.04, spread, MeasureAgain{MeasureReadings, HowLonger, Stopwatch, 0}},
		// A scale that is the most of it, or most of what stays and too much by itself.
		"scale":          {map[Source]float64{SourceRuns: 0.01, SourceJugScale: 0.03}, 0.04, read, MeasureAgain{MeasureCatches, HowBetterInstrument, Jug, 0}},
		"scale of two":   {map[Source]float64{SourceRuns: 0.05, SourceJugScale: 0.03, SourceTapeScale: 0.02}, 0.04, read, MeasureAgain{MeasureCatches, HowBetterInstrument, Jug, 0}},
		"last of two":    {map[Source]float64{SourceRuns: 0.05, SourceStopwatchScale: 0.02, SourceGaugeScale: 0.03}, 0.04, read, MeasureAgain{MeasureReadings, HowBetterInstrument, Gauge, 0}},
		"half of it":     {map[Source]float64{SourceRuns: 0.05, SourceCatches: 0.0299, SourceJugScale: 0.03}, 0.04, read, MeasureAgain{MeasureCatches, HowBetterInstrument, Jug, 0}},
		"less than half": {map[Source]float64{SourceRuns: 0.05, SourceCatches: 0.04, SourceJugScale: 0.03}, 0.04, read, MeasureAgain{Measurement: MeasureRuns, How: HowAgain}},
		// Nothing but what was stated: no instrument, and no number of it.
		"stated":             {map[Source]float64{SourceGroundSpeed: 0.03}, 0.04, read, MeasureAgain{Measurement: MeasureGroundSpeed, How: HowAgain}},
		"stated, at a limit": {map[Source]float64{SourceVolumeUsed: 0.03}, 0, read, MeasureAgain{Measurement: MeasureVolumeUsed, How: HowAgain}},
	} {
		var b Budget
		for s, u := range c.budget {
			b[s].Standard = u
		}
		c.n.Runs, c.n.Catches = alike(2, c.budget[SourceRuns]), alike(12, c.budget[SourceCatches])
		u := b.Combine(1, Widest{})
		for side := range 3 { // below the limit, above it, and within two
			var got Conformity
			switch side {
			case 0:
				got.Judge(1-c.margin, &u, Unlimited, 1, c.n)
			case 1:
				got.Judge(1+c.margin, &u, Unlimited, 1, c.n)
			default:
				got.Judge(1-c.margin, &u, 1-c.margin-1, 1, c.n)
			}
			if got.Conformance != TooClose || got.MeasureAgain != c.want {
				t.Errorf("%s: %+v, want %+v", name, got, c.want)
			}
		}
	}
}

// TestReferenceAgainOfABoom, by hand: of ten places four were caught, so of the variance of a
// catch, 4 x 0.03^2 / 0.6 = 0.006, (1 - n / 10) / n counts: 0.0009 of four, 0.0006 of five and
// 0.0004 of six, with (0.04 / 1.644854)^2 = 0.00059137 needed. Nothing is open of all ten.
func TestReferenceAgainOfABoom(t *testing.T) {
	known := Prior{StandardDeviation: 1e-9, DegreesOfFreedom: 1_000_000_000_000}
	s := known.Pool(0.006, 0, 4, 0.25, 0.4, 0.1)
	if u := s.Component().Standard; math.Abs(u-0.03) > 1e-9 {
		t.Fatal(u)
	}
	u := (&Budget{SourceCatches: {Standard: 0.03}}).Combine(1, Widest{})
	for margin, want := range map[float64]int{0.04: 2, 0.001: 6, 0.00001: 6} {
		var got Conformity
		if got.Judge(1-margin, &u, Unlimited, 1, Repeats{Catches: &s}); got.MeasureAgain.More != want {
			t.Errorf("margin %v: %+v, want %d more", margin, got, want)
		}
	}
}

// TestReferenceAlike, by hand: two that lie 2 % off their mean have a mean square of 0.0004 about
// it, and so have four, 0.0016 in all. With 1 % expected and worth four degrees of freedom that is
// (4 x 0.0001 + 0.0016) / 7 = 0.000285714 of one, a quarter of it of the mean: 0.0084515.
func TestReferenceAlike(t *testing.T) {
	s := Prior{StandardDeviation: 0.01, DegreesOfFreedom: 4}.Pool(0, 0.0008, 2, 0.5, 0, 0)
	c := s.after(2)
	near(t, "scatter", c.Standard, 0.0084515, 1e-5)
	near(t, "degrees of freedom", c.DegreesOfFreedom, 7, 0)
	one := Prior{StandardDeviation: 0.01, DegreesOfFreedom: 4}.Pool(0, 0, 1, 1, 0, 0)
	near(t, "of one", one.after(3).Standard, math.Sqrt(4*0.0001/7/4), 1e-9)
}

// TestAgainOfBoth: of two limits the one that is closer says what to measure, and where the
// other is far away, or both follow one reading alike, as many are enough as for that alone:
// 0.03^2 / (0.04 / 1.644854)^2 = 1.52, one more. Two that are close, each by itself, ask for more:
// both within with 95 %, each with sqrt 0.95, z = 1.9545: 0.03^2 / (0.04 / 1.9545)^2 = 2.15.
func TestAgainOfBoth(t *testing.T) {
	jug := (&Budget{SourceJugReading: {Standard: 0.03}}).Combine(1, Widest{})
	gauge := (&Budget{SourceGaugeReading: {Standard: 0.03}}).Combine(1, Widest{})
	at := func(u *Uncertainty, margin float64) Judged { return Judged{1 - margin, u, Unlimited, 1} }
	catch := Repeats{Read: 1, Readings: MeasureCatches}
	for name, c := range map[string]struct {
		a, b   Judged
		common Covariance
		want   MeasureAgain
	}{
		"other far":   {at(&jug, 0.04), at(&gauge, 0.9), Covariance{}, MeasureAgain{MeasureCatches, HowLonger, Jug, 1}},
		"first far":   {at(&jug, 0.9), at(&gauge, 0.04), Covariance{}, MeasureAgain{MeasureReadings, HowAgain, Gauge, 1}},
		"one reading": {at(&jug, 0.04), at(&jug, 0.04), Covariance{Reading: 0.0009}, MeasureAgain{MeasureCatches, HowLonger, Jug, 1}},
		// Half of each is one reading: with a correlation of 1/2 both are within with 95 % at
		// z = 1.92 (C. Dunnett, 1955, one-sided, from memory): 0.03^2 / (0.04 / 1.92)^2 = 2.07, two more.
		"half of it in common": {at(&jug, 0.04), at(&jug, 0.04), Covariance{Reading: 0.00045}, MeasureAgain{MeasureCatches, HowLonger, Jug, 2}},
		"by themselves":        {at(&jug, 0.04), at(&jug, 0.04), Covariance{}, MeasureAgain{MeasureCatches, HowLonger, Jug, 2}},
	} {
		var got Conformity
		if got.JudgeBoth(c.a, c.b, c.common, catch); got.Conformance != TooClose || got.MeasureAgain != c.want {
			t.Errorf("%s: %+v, want %+v", name, got, c.want)
		}
	}
}

// TestReferenceRelateTo, by hand: of the widest errors of a mean, 0.02 and 0.0075, the second is
// one's own half of 0.03, and stays the second; half of one's own, 0.0075, is less than 0.02.
func TestReferenceRelateTo(t *testing.T) {
	p, mean := Propagation{widest: 0.03}, Propagation{widest: 0.02, second: 0.0075}
	p.RelateTo(&mean, 0.5)
	near(t, "widest", p.widest, 0.02, 1e-12)
	p, mean = Propagation{widest: 0.08}, Propagation{widest: 0.02, second: 0.0075} // it is one's own
	p.RelateTo(&mean, 0.5)
	near(t, "widest of its own", p.widest, 0.02, 1e-12)
	p, mean = Propagation{widest: 0.08}, Propagation{widest: 0.08 * 0.81, second: 0.0075}
	p.RelateTo(&mean, 0.9)
	near(t, "second", p.widest, 0.0075, 1e-12)
}

// TestGrouped: the readings of one kind are one part, of which they are the group.
func TestGrouped(t *testing.T) {
	p := Propagation{parts: []ReadingPart{{Kind: Jug, Weight: 1}, {Kind: Jug, Weight: 2}}}
	p.readings[Jug] = 0.09
	if g := p.Grouped(); len(g.parts) != 1 || len(g.parts[0].Group) != 2 || math.Abs(g.parts[0].Uncertainty-0.3) > 1e-12 {
		t.Errorf("%+v", g.parts)
	}
}
