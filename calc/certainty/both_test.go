package certainty

import "testing"

// TestReferenceCorrelation, by hand: what is in common, 0.0006 of the squares of shares, over
// shares of 0.03 and 0.04 is 0.5; what is known exactly follows nothing, and no two values
// follow each other further than the integral goes.
func TestReferenceCorrelation(t *testing.T) {
	u := (&Budget{SourceJugReading: {Standard: 0.03}}).Combine(2, Widest{})
	v := (&Budget{SourceJugReading: {Standard: 0.04}}).Combine(5, Widest{})
	near(t, "half", Covariance{0.0004, 0.0002}.Correlation(&u, &v), 0.5, 1e-12)
	near(t, "all", Covariance{Reading: 0.0012}.Correlation(&u, &v), 0.9999, 0)
	near(t, "opposite", Covariance{Scale: -0.0012}.Correlation(&u, &v), -0.9999, 0)
	near(t, "of one", Covariance{Scale: 0.5}.Correlation(normal(1), normal(1)), 0.5, 1e-12)
	near(t, "exact", Covariance{Scale: 0.5}.Correlation(normal(0), normal(1)), 0, 0)
	near(t, "exact", Covariance{Scale: 0.5}.Correlation(normal(1), normal(0)), 0, 0)
}

// TestAgainOfBothAlike, by hand: of two that are just as close the first says what to measure,
// 0.03^2 / (0.04 / 1.9545)^2 = 2.15 times, z as in TestAgainOfBoth. Of two that are read from
// nothing, but scatter over two runs each, twice as many are enough, 4.3.
func TestAgainOfBothAlike(t *testing.T) {
	jug := (&Budget{SourceJugReading: {Standard: 0.03}}).Combine(1, Widest{})
	gauge := (&Budget{SourceGaugeReading: {Standard: 0.03}}).Combine(1, Widest{})
	runs := (&Budget{SourceRuns: {Standard: 0.03}}).Combine(1, Widest{})
	n := Repeats{Read: 1, Readings: MeasureCatches, Runs: alike(2, 0.03)}
	for want, u := range map[MeasureAgain][2]*Uncertainty{
		{Measurement: MeasureCatches, How: HowLonger, Instrument: Jug, More: 2}:   {&jug, &gauge},
		{Measurement: MeasureReadings, How: HowAgain, Instrument: Gauge, More: 2}: {&gauge, &jug},
		{Measurement: MeasureRuns, How: HowAgain, More: 3}:                        {&runs, &runs},
	} {
		var got Conformity
		got.JudgeBoth(Judged{0.96, u[0], Unlimited, 1}, Judged{0.96, u[1], Unlimited, 1}, Covariance{}, n)
		if got.Conformance != TooClose || got.MeasureAgain != want {
			t.Errorf("%+v, want %+v", got.MeasureAgain, want)
		}
	}
}
