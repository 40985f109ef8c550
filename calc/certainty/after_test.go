package certainty

import (
	"math"
	"testing"
)

// TestReferenceAfter, by hand: twice as many catches halve the variance of each, and what the
// widest reading makes of the mean. Where nothing is known of single runs, all that they add goes.
func TestReferenceAfter(t *testing.T) {
	n := Repeats{Catches: alike(12, 0.02)}
	u := (&Budget{SourceCatches: {Standard: 0.02}, SourceRuns: {Standard: 0.04}, SourceJugReading: {Standard: 0.03}}).Combine(1, Widest{Reading: 0.0001})
	after := u.after(SourceCatches, 12, 12, n)
	near(t, "catches", after.Budget[SourceCatches].Standard, 0.02/math.Sqrt2, 1e-6)
	near(t, "widest", after.widest.Reading, 0.00005, 1e-9)
	after = u.after(SourceRuns, 0, math.Inf(1), n)
	near(t, "without runs", after.Standard, math.Hypot(0.02, 0.03), 1e-9)

	// Three that have a mean square of 0.0002 about their mean, 0.0006 in all, so 0.0003 among
	// them, have 0.0012 in all when they are six: (4 x 0.0001 + 0.0012) / 9, and a sixth of it.
	s := Prior{StandardDeviation: 0.01, DegreesOfFreedom: 4}.Pool(0, 0.0003, 3, 1./3, 0, 0)
	near(t, "of three", s.after(3).Standard, math.Sqrt(0.0016/9/6), 1e-9)
	if all := (Prior{StandardDeviation: 0.01, DegreesOfFreedom: 4}).Pool(0, 0, 4, 0.25, 1, 0); all.Component() != (Component{}) {
		t.Errorf("where all was measured: %+v", all.Component())
	}
}

// TestReferenceAgainOrBetter, by hand, with the results in litres of which 3 are one whole. What
// the scale leaves open no number of runs settles: it has to be better where its variance is half
// of what is left or more.
func TestReferenceAgainOrBetter(t *testing.T) {
	runs := MeasureAgain{Measurement: MeasureRuns, How: HowAgain}
	for name, c := range map[string]struct {
		scale, width, margin float64
		runs                 *Scatter
		want                 MeasureAgain
	}{
		"scale alone": {0.02, 0, 0.01, alike(2, 0.03), MeasureAgain{"", HowBetterInstrument, Jug, 0}},
		// 2 x 0.02^2 = 0.0008 is more than 0.02^2 + 0.019^2 = 0.000761, and less than 0.02^2 + 0.022^2.
		"scale mainly": {0.02, 0.019, 0.01, alike(2, 0.03), MeasureAgain{"", HowBetterInstrument, Jug, 0}},
		"width mainly": {0.02, 0.022, 0.01, alike(2, 0.03), runs},
		// 2 x 0.03^2 / (0.0329 / 1.644854)^2 = 4.5: five, three more.
		"neither":  {0, 0, 0.0329, alike(2, 0.03), MeasureAgain{Measurement: MeasureRuns, How: HowAgain, More: 3}},
		"not told": {0, 0, 0.0329, nil, runs},
	} {
		u := (&Budget{SourceRuns: {Standard: 0.03}, SourceJugScale: {Standard: c.scale}, SourceSprayedWidth: {Standard: c.width}}).Combine(3, Widest{})
		var got Conformity
		if got.Judge(3*(1-c.margin), &u, Unlimited, 3, Repeats{Runs: c.runs}); got.MeasureAgain != c.want {
			t.Errorf("%s: %+v, want %+v", name, got.MeasureAgain, c.want)
		}
	}
	// Of two values runs make the one exact, and leave the other as it is: no scale is to blame.
	a := (&Budget{SourceRuns: {Standard: 0.03}}).Combine(1, Widest{})
	b := (&Budget{SourceSprayedWidth: {Standard: 0.03}}).Combine(1, Widest{})
	var got Conformity
	got.JudgeBoth(Judged{0.97, &a, Unlimited, 1}, Judged{0.96, &b, Unlimited, 1}, Covariance{}, Repeats{Runs: alike(2, 0.03)})
	if got.MeasureAgain != runs {
		t.Errorf("%+v, want %+v", got.MeasureAgain, runs)
	}
}
