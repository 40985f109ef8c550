package calc_test

import (
	"testing"

	"wetrun/calc"
	"wetrun/calc/unit"
)

// The figures of this file come from Python's uncertainties 3.1 (GUM 5.1.2, with each
// scale and each reading one variable) and scipy.stats, unless worked by hand.

// TestReferenceRunsUncertainty: three runs of 100 m in 50, 52 and 53 s, the second timed
// with another stopwatch.
func TestReferenceRunsUncertainty(t *testing.T) {
	in := calc.GroundSpeedInput{
		RunTolerance: 5 * unit.Percent,
		Runs: []calc.Run{
			{CourseLength: 100, Time: 50, Stopwatch: "w"}, {CourseLength: 100, Time: 52, Stopwatch: "v"}, {CourseLength: 100, Time: 53, Stopwatch: "w"},
		},
		Measuring: calc.Measuring{
			Uncertainty: true,
			Instruments: []calc.Instrument{
				{ID: "t", Kind: calc.Tape, Resolution: 0.2, ScaleError: 0.005},
				{ID: "w", Kind: calc.Stopwatch, Resolution: 0.6, ScaleError: 0.01, ReactionTime: 0.3},
				{ID: "v", Kind: calc.Stopwatch, Resolution: 0.6, ScaleError: 0.02, ReactionTime: 0.3},
			},
			Repeatability: calc.Repeatability{Runs: calc.Prior{StandardDeviation: 0.02, DegreesOfFreedom: 4}},
		},
	}
	u := must(calc.GroundSpeed(in)).Uncertainty
	agrees(t, "speed", u.GroundSpeed.Standard, 0.029749769851022137, 1e-9)
	agrees(t, "scatter", u.GroundSpeed.Budget[calc.SourceRuns].Standard, 0.014078336146678826, 1e-9)
	agrees(t, "degrees of freedom", u.GroundSpeed.DegreesOfFreedom, 8.525544843095497, 1e-9)
	agrees(t, "coverage factor", u.GroundSpeed.CoverageFactor, 2.2814937035865155, 1e-8)
	agrees(t, "one run", u.Runs[1].Standard, 0.02625395843814396, 1e-9)
	agrees(t, "repeatable", float64(u.Repeatable.Probability), 0.18878322219048105, 1e-7)

	// Two alike: 0 apart, known as well as any difference of two.
	in.Runs = []calc.Run{in.Runs[0], in.Runs[0]}
	u = must(calc.GroundSpeed(in)).Uncertainty
	agrees(t, "spread of two alike", u.Spread.Standard, 0.009831920802501752, 1e-9)
	// One has no spread, and nothing is said of it.
	in.Runs = in.Runs[:1]
	if u = must(calc.GroundSpeed(in)).Uncertainty; u.Spread.CoverageFactor != 0 || u.Repeatable.Conformance != calc.ConformanceUnknown {
		t.Errorf("one run: %+v, %+v", u.Spread, u.Repeatable)
	}
}

// TestReferenceFlowsUncertainty: 1, 1.04 and 0.99 L in 60, 60 and 62 s, one jug, one
// stopwatch; and the first of them alone.
func TestReferenceFlowsUncertainty(t *testing.T) {
	in := calc.NozzleFlowInput{
		Catches: []calc.Catch{{Volume: 1e-3, Time: 60}, {Volume: 1.04e-3, Time: 60}, {Volume: 0.99e-3, Time: 62}},
		Measuring: calc.Measuring{
			Uncertainty: true,
			Instruments: []calc.Instrument{
				{ID: "j", Kind: calc.Jug, Resolution: 2e-5, ScaleError: 0.01},
				{ID: "w", Kind: calc.Stopwatch, Resolution: 0.6, ScaleError: 0.01, ReactionTime: 0.3},
			},
			Repeatability: calc.Repeatability{Catches: calc.Prior{StandardDeviation: 0.03, DegreesOfFreedom: 4}},
		},
	}
	r := must(calc.NozzleFlow(in))
	u := r.Uncertainty.MeanNozzleFlowRate
	agrees(t, "mean", u.Standard/float64(r.MeanNozzleFlowRate), 0.021642500739728072, 1e-9)
	agrees(t, "scatter", u.Budget[calc.SourceCatches].Standard, 0.020043232563697493, 1e-9)
	agrees(t, "degrees of freedom", u.DegreesOfFreedom, 8.15661477788872, 1e-9)
	agrees(t, "coverage factor", u.CoverageFactor, 2.2983197320743374, 1e-8)
	in.Catches = in.Catches[:1]
	u = must(calc.NozzleFlow(in)).Uncertainty.MeanNozzleFlowRate
	agrees(t, "one catch", u.Budget[calc.SourceCatches].Standard, 0.03109126351029605, 1e-9)
	agrees(t, "its degrees of freedom", u.Budget[calc.SourceCatches].DegreesOfFreedom, 4, 1e-12)
}

// TestReferenceDefaultInstruments, by hand: what nothing is said of is off by a / sqrt 3
// and d / sqrt 12 of the default instruments, the stopwatch's reading by sqrt(d^2 / 12 +
// 0.2^2). Of 20 s: sqrt(8.33333e-6 + 0.04) / 20 = 0.010001041; 0.0001 / sqrt 3 =
// 5.773503e-5. Of 40 m: 0.01 / sqrt 12 / 40 = 7.216878e-5; 5.773503e-4. Of 1 L: 0.01 / sqrt 12 =
// 2.886751e-3; 5.773503e-3. Of 3 bar: 0.1 / sqrt 12 / 3 = 9.622504e-3; 0.05 / sqrt 3 = 0.02886751.
// One run is repeated within 1.5 %, as if ten had shown it, and one catch within 4 %, as if five had.
// The errors are own judgement, and so are the priors.
func TestReferenceDefaultInstruments(t *testing.T) {
	wanted := calc.Measuring{Uncertainty: true}
	speed := must(calc.GroundSpeed(calc.GroundSpeedInput{Runs: []calc.Run{{CourseLength: 40, Time: 20}}, Measuring: wanted})).Uncertainty
	flow := must(calc.NozzleFlow(calc.NozzleFlowInput{Catches: []calc.Catch{{Volume: 1e-3, Time: 20}}, Measuring: wanted})).Uncertainty
	pressure := must(calc.PressureUniformity(calc.PressureUniformityInput{Readings: []unit.Pressure{3 * unit.Bar}, Measuring: wanted})).Uncertainty
	run, catch, gauge := speed.Runs[0].Budget, flow.NozzleFlowRates[0].Budget, pressure.Mean.Budget
	for what, x := range map[string]struct{ got, want float64 }{
		"stopwatch reading": {run[calc.SourceStopwatchReading].Standard, 0.010001041}, "stopwatch scale": {run[calc.SourceStopwatchScale].Standard, 5.773503e-5},
		"tape reading": {run[calc.SourceTapeReading].Standard, 7.216878e-5}, "tape scale": {run[calc.SourceTapeScale].Standard, 5.773503e-4},
		"jug reading": {catch[calc.SourceJugReading].Standard, 2.886751e-3}, "jug scale": {catch[calc.SourceJugScale].Standard, 5.773503e-3},
		"gauge reading": {gauge[calc.SourceGaugeReading].Standard, 9.622504e-3}, "gauge scale": {gauge[calc.SourceGaugeScale].Standard, 0.02886751},
		"runs": {speed.GroundSpeed.Budget[calc.SourceRuns].DegreesOfFreedom, 10}, "catches": {flow.MeanNozzleFlowRate.Budget[calc.SourceCatches].DegreesOfFreedom, 5},
	} {
		agrees(t, what, x.got, x.want, 2e-7)
	}
	if pressure.Even.Conformance != calc.ConformanceUnknown || pressure.Spread.CoverageFactor != 0 {
		t.Errorf("the spread of one reading: %+v", pressure.Spread)
	}
}

// TestReferenceCabOffset, by hand: the cab gauge is read to 0.1 bar / sqrt 12 = 0.0288675
// bar, the mean of three readings of one gauge, off by nothing but 1 % / sqrt 3 of 3 bar,
// is known to 0.0173205: together 0.0336650 bar.
func TestReferenceCabOffset(t *testing.T) {
	u := must(calc.PressureUniformity(calc.PressureUniformityInput{
		Readings: []unit.Pressure{3 * unit.Bar, 3.1 * unit.Bar, 2.9 * unit.Bar}, CabPressure: 3.2 * unit.Bar,
		Measuring: calc.Measuring{Uncertainty: true, Instruments: []calc.Instrument{exact("g", calc.Gauge, 0.01)}},
	})).Uncertainty
	agrees(t, "mean", u.Mean.Standard/float64(unit.Bar), 0.0173205, 1e-5)
	agrees(t, "offset", u.CabOffset.Standard/float64(unit.Bar), 0.0336650, 1e-5)
	// 0.2 bar apart on a scale that may stretch by 1 % / sqrt 3.
	agrees(t, "spread", u.Spread.Standard/float64(unit.Bar), 0.2*0.0057735, 1e-5)
	agrees(t, "flow spread", u.FlowSpread.Standard, 0, 0)
}
