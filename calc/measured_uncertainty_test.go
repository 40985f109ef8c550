package calc_test

import (
	"testing"

	"wetrun/calc"
	"wetrun/calc/certainty"
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
		Measuring: certainty.Measuring{
			Uncertainty: true,
			Instruments: []certainty.Instrument{
				{ID: "t", Kind: certainty.Tape, Resolution: 0.2, ScaleError: 0.005},
				{ID: "w", Kind: certainty.Stopwatch, Resolution: 0.6, ScaleError: 0.01, ReactionTime: 0.3},
				{ID: "v", Kind: certainty.Stopwatch, Resolution: 0.6, ScaleError: 0.02, ReactionTime: 0.3},
			},
			Repeatability: certainty.Repeatability{Runs: certainty.Prior{StandardDeviation: 0.02, DegreesOfFreedom: 4}},
		},
	}
	u := must(calc.GroundSpeed(in)).Uncertainty
	agrees(t, "speed", u.GroundSpeed.Standard, 0.02974828528813507, 1e-9)
	agrees(t, "scatter", u.GroundSpeed.Budget[certainty.SourceRuns].Standard, 0.014077498706397509, 1e-9)
	agrees(t, "degrees of freedom", u.GroundSpeed.DegreesOfFreedom, 8.5258716569086, 1e-9)
	agrees(t, "coverage factor", u.GroundSpeed.CoverageFactor, 2.370970359309111, 1e-8)
	agrees(t, "one run", u.Runs[1].Standard, 0.02625395843814396, 1e-9)
	agrees(t, "repeatable", float64(u.Repeatable.Probability), 0.18934052231164542, 1e-7)

	// Two alike: 0 apart, known as well as any difference of two.
	in.Runs = []calc.Run{in.Runs[0], in.Runs[0]}
	u = must(calc.GroundSpeed(in)).Uncertainty
	agrees(t, "spread of two alike", u.Spread.Standard, 0.009831920802501752, 1e-9)
	// One has no spread, and nothing is said of it.
	in.Runs = in.Runs[:1]
	if u = must(calc.GroundSpeed(in)).Uncertainty; u.Spread.CoverageFactor != 0 || u.Repeatable.Conformance != certainty.ConformanceUnknown {
		t.Errorf("one run: %+v, %+v", u.Spread, u.Repeatable)
	}
}

// TestReferenceFlowsUncertainty: 1, 1.04 and 0.99 L in 60, 60 and 62 s, one jug, one
// stopwatch; and the first of them alone.
func TestReferenceFlowsUncertainty(t *testing.T) {
	in := calc.NozzleFlowInput{
		Catches: []calc.Catch{{Volume: 1e-3, Time: 60}, {Volume: 1.04e-3, Time: 60}, {Volume: 0.99e-3, Time: 62}},
		Measuring: certainty.Measuring{
			Uncertainty: true,
			Instruments: []certainty.Instrument{
				{ID: "j", Kind: certainty.Jug, Resolution: 2e-5, ScaleError: 0.01},
				{ID: "w", Kind: certainty.Stopwatch, Resolution: 0.6, ScaleError: 0.01, ReactionTime: 0.3},
			},
			Repeatability: certainty.Repeatability{Catches: certainty.Prior{StandardDeviation: 0.03, DegreesOfFreedom: 4}},
		},
	}
	r := must(calc.NozzleFlow(in))
	u := r.Uncertainty.MeanNozzleFlowRate
	agrees(t, "mean", u.Standard/float64(r.MeanNozzleFlowRate), 0.02164235043160074, 1e-9)
	agrees(t, "scatter", u.Budget[certainty.SourceCatches].Standard, 0.020043070262251293, 1e-9)
	agrees(t, "degrees of freedom", u.DegreesOfFreedom, 8.15665238103652, 1e-9)
	agrees(t, "coverage factor", u.CoverageFactor, 2.3788214223396964, 1e-8)
	in.Catches = in.Catches[:1]
	u = must(calc.NozzleFlow(in)).Uncertainty.MeanNozzleFlowRate
	agrees(t, "one catch", u.Budget[certainty.SourceCatches].Standard, 0.03109126351029605, 1e-9)
	agrees(t, "its degrees of freedom", u.Budget[certainty.SourceCatches].DegreesOfFreedom, 4, 1e-12)
}

// TestReferenceDefaultInstruments, by hand: what nothing is said of is off by a / sqrt 3
// and d / sqrt 12 of the default instruments, the stopwatch's reading by sqrt(d^2 / 12 +
// 0.2^2). Of 20 s: sqrt(8.33333e-6 + 0.04) / 20 = 0.010001041; 0.0001 / sqrt 3 =
// 5.773503e-5. Of 40 m: 0.01 / sqrt 12 / 40 = 7.216878e-5; 5.773503e-4. Of 1 L: 0.01 / sqrt 12 =
// 2.886751e-3; 5.773503e-3. Of 3 bar: 0.1 / sqrt 12 / 3 = 9.622504e-3; 0.05 / sqrt 3 = 0.02886751.
// One run is repeated within 1.5 %, as if ten had shown it, and one catch within 4 %, as if five had.
// The errors are own judgement, and so are the priors.
func TestReferenceDefaultInstruments(t *testing.T) {
	wanted := certainty.Measuring{Uncertainty: true}
	speed := must(calc.GroundSpeed(calc.GroundSpeedInput{Runs: []calc.Run{{CourseLength: 40, Time: 20}}, Measuring: wanted})).Uncertainty
	flow := must(calc.NozzleFlow(calc.NozzleFlowInput{Catches: []calc.Catch{{Volume: 1e-3, Time: 20}}, Measuring: wanted})).Uncertainty
	pressure := must(calc.PressureUniformity(calc.PressureUniformityInput{Readings: []unit.Pressure{3 * unit.Bar}, Measuring: wanted})).Uncertainty
	run, catch, gauge := speed.Runs[0].Budget, flow.NozzleFlowRates[0].Budget, pressure.Mean.Budget
	for what, x := range map[string]struct{ got, want float64 }{
		"stopwatch reading": {run[certainty.SourceStopwatchReading].Standard, 0.010001041}, "stopwatch scale": {run[certainty.SourceStopwatchScale].Standard, 5.773503e-5},
		"tape reading": {run[certainty.SourceTapeReading].Standard, 7.216878e-5}, "tape scale": {run[certainty.SourceTapeScale].Standard, 5.773503e-4},
		"jug reading": {catch[certainty.SourceJugReading].Standard, 2.886751e-3}, "jug scale": {catch[certainty.SourceJugScale].Standard, 5.773503e-3},
		"gauge reading": {gauge[certainty.SourceGaugeReading].Standard, 9.622504e-3}, "gauge scale": {gauge[certainty.SourceGaugeScale].Standard, 0.02886751},
		"runs": {speed.GroundSpeed.Budget[certainty.SourceRuns].DegreesOfFreedom, 10}, "catches": {flow.MeanNozzleFlowRate.Budget[certainty.SourceCatches].DegreesOfFreedom, 5},
	} {
		agrees(t, what, x.got, x.want, 2e-7)
	}
	if pressure.Even.Conformance != certainty.ConformanceUnknown || pressure.Spread.CoverageFactor != 0 {
		t.Errorf("the spread of one reading: %+v", pressure.Spread)
	}
}

// TestReferenceCabOffset, by hand: the cab gauge is read to 0.1 bar / sqrt 12 = 0.0288675
// bar, the mean of three readings of one gauge, off by nothing but 1 % / sqrt 3 of 3 bar,
// is known to 0.0173205: together 0.0336650 bar.
func TestReferenceCabOffset(t *testing.T) {
	u := must(calc.PressureUniformity(calc.PressureUniformityInput{
		Readings: []unit.Pressure{3 * unit.Bar, 3.1 * unit.Bar, 2.9 * unit.Bar}, CabPressure: 3.2 * unit.Bar,
		Measuring: certainty.Measuring{Uncertainty: true, Instruments: []certainty.Instrument{exact("g", certainty.Gauge, 0.01)}},
	})).Uncertainty
	agrees(t, "mean", u.Mean.Standard/float64(unit.Bar), 0.0173205, 1e-5)
	agrees(t, "offset", u.CabOffset.Standard/float64(unit.Bar), 0.0336650, 1e-5)
	// 0.2 bar apart on a scale that may stretch by 1 % / sqrt 3.
	agrees(t, "spread", u.Spread.Standard/float64(unit.Bar), 0.2*0.0057735, 1e-5)
	agrees(t, "flow spread", u.FlowSpread.Standard, 0, 0)
}

// fieldTools are a jug, a stopwatch, two gauges, and what else a sheet needs without errors.
func fieldTools() []certainty.Instrument {
	return []certainty.Instrument{
		{ID: "j", Kind: certainty.Jug, Resolution: 2e-5, ScaleError: 0.01}, {ID: "w", Kind: certainty.Stopwatch, Resolution: 0.4, ScaleError: 0.005},
		{ID: "g", Kind: certainty.Gauge, Resolution: 1e4, ScaleError: 0.05}, {ID: "h", Kind: certainty.Gauge, Resolution: 1e4, ScaleError: 0.02},
		exact("x", certainty.Stopwatch, 0), exact("t", certainty.Tape, 0),
	}
}

// TestReferenceCatchesUncertainty: three of ten catch points, one of them a pair of
// nozzles, each with a pressure of its own and none in common; the nozzles are rated 1
// L/min at 3 bar.
func TestReferenceCatchesUncertainty(t *testing.T) {
	in := calc.NozzleAcceptanceInput{
		Nozzle: calc.Nozzle{RatedFlowRate: 1 * unit.LitrePerMinute, RatedPressure: 3 * unit.Bar}, CatchPointsOnBoom: 10,
		Tolerance: calc.OutputTolerance{Limit: 10 * unit.Percent, Basis: calc.BothBases},
		Measuring: certainty.Measuring{Uncertainty: true, Instruments: fieldTools()},
	}
	for _, c := range []calc.Catch{
		{Volume: 1e-3, SprayPressure: 3 * unit.Bar, Gauge: "h"}, {Volume: 2.1e-3, SprayPressure: 3.2 * unit.Bar, Gauge: "g", Nozzles: 2},
		{Volume: 1.12e-3, SprayPressure: 3.3 * unit.Bar, Gauge: "g"},
	} {
		c.Time, c.Stopwatch = 60, "w"
		in.Catches = append(in.Catches, calc.AcceptanceCatch{Catch: c})
	}
	r := must(calc.NozzleAcceptance(in))
	u := r.Uncertainty
	agrees(t, "mean", u.MeanNozzleFlowRate.Standard/float64(r.MeanNozzleFlowRate), 0.02404940399877901, 1e-9)
	agrees(t, "degrees of freedom", u.MeanNozzleFlowRate.DegreesOfFreedom, 15.07540427880739, 1e-9)
	agrees(t, "coefficient of variation", u.CoefficientOfVariation.Standard, 0.008061071466449741, 1e-9)
	for i, want := range [][2]float64{
		{0.011626916409142417, 0.013219715775955708}, {0.01706070283361029, 0.005370222778693272}, {0.018477918284205124, 0.007564043094509919},
	} {
		agrees(t, "from rated", u.Catches[i].DeviationFromRated.Standard, want[0], 1e-9)
		agrees(t, "from mean", u.Catches[i].DeviationFromMean.Standard, want[1], 1e-9)
	}
	// One catch, and catches all alike, have no coefficient of variation.
	in.Catches, in.Tolerance.Basis = in.Catches[:1], calc.RatedBasis
	if u = must(calc.NozzleAcceptance(in)).Uncertainty; u.CoefficientOfVariation.CoverageFactor != 0 {
		t.Errorf("the variation of one catch: %+v", u.CoefficientOfVariation)
	}
}

// TestReferenceMixedDropUncertainty: two single nozzles and a drop of three, one like
// them and two with a chart in which flow goes with the power 0.6 of pressure. The rate
// of a sheet counts all five, and errs by nothing else here; the mean is that of the
// two alike.
func TestReferenceMixedDropUncertainty(t *testing.T) {
	like := calc.Nozzle{RatedFlowRate: 1 * unit.LitrePerMinute, RatedPressure: 3 * unit.Bar}
	other := calc.Nozzle{FlowChart: []calc.FlowPoint{
		{Pressure: 2 * unit.Bar, FlowRate: 0.5278031643091577 * unit.LitrePerMinute}, // 0.8 x 0.5^0.6
		{Pressure: 6 * unit.Bar, FlowRate: 1.0203396005006327 * unit.LitrePerMinute}, // 0.8 x 1.5^0.6
	}}
	single := func(v unit.Volume) calc.AcceptanceCatch {
		return calc.AcceptanceCatch{Catch: calc.Catch{Volume: v, Time: 60, Stopwatch: "w"}}
	}
	drop := single(2.9e-3)
	drop.NozzlesOnDrop = []calc.DropNozzle{{Nozzle: like, Count: 1}, {Nozzle: other, Count: 2}}
	run := calc.Run{CourseLength: 100, Time: 50, Stopwatch: "x"}
	in := calc.FieldSheetInput{
		Machine: calc.Machine{SprayedWidthPerNozzle: 0.5}, Nozzle: like, Speed: calc.GroundSpeedInput{Runs: []calc.Run{run}},
		Output: calc.SheetOutput{
			SprayPressure: 4 * unit.Bar, Gauge: "g", Catches: []calc.AcceptanceCatch{single(1.15e-3), single(1.2e-3), drop},
			Tolerance: calc.OutputTolerance{Basis: calc.RatedBasis},
		},
		Measuring: certainty.Measuring{Uncertainty: true, Instruments: fieldTools()},
	}
	in.Measuring.Repeatability.Runs = certainty.Prior{StandardDeviation: 1e-9, DegreesOfFreedom: 1_000_000}
	r := mustSheet(t, in)
	u := r.Output.Uncertainty
	agrees(t, "mean", u.MeanNozzleFlowRate.Standard/float64(r.Output.MeanNozzleFlowRate), 0.02820854427222287, 1e-9)
	agrees(t, "drop", u.Catches[2].DeviationFromRated.Standard, 0.018981636623997954, 1e-9)
	agrees(t, "rate", r.Rate.Uncertainty.ApplicationRate.Standard/float64(r.Rate.ApplicationRate), 0.025447523999133536, 1e-9)
	if u.Catches[2].DeviationFromMean.CoverageFactor != 0 {
		t.Error("a drop of different nozzles has no deviation from the mean")
	}
}
