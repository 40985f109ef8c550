package calc_test

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"wetrun/calc"
	"wetrun/calc/certainty"
	"wetrun/calc/unit"
)

// aRound is any round of catches of one kind of nozzle, measured with instruments.
func aRound(t *rapid.T) calc.NozzleAcceptanceInput {
	in := calc.NozzleAcceptanceInput{
		Nozzle:        calc.Nozzle{RatedFlowRate: 1 * unit.LitrePerMinute, RatedPressure: 3 * unit.Bar},
		SprayPressure: unit.Pressure(rapid.Float64Range(1, 6).Draw(t, "pressure")) * unit.Bar,
	}
	in.Measuring.Uncertainty = true
	for range rapid.IntRange(2, 12).Draw(t, "catches") {
		in.Catches = append(in.Catches, calc.AcceptanceCatch{Catch: calc.Catch{
			Volume: unit.Volume(rapid.Float64Range(0.4, 2).Draw(t, "volume")) * unit.Litre,
			Time:   unit.Time(rapid.Float64Range(20, 90).Draw(t, "time")), Nozzles: rapid.IntRange(1, 4).Draw(t, "nozzles"),
		}})
	}
	return in
}

func mustRound(t rapid.TB, in calc.NozzleAcceptanceInput) calc.NozzleAcceptanceResult {
	r, err := calc.NozzleAcceptance(in)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func mustTime(t rapid.TB, in calc.GroundSpeedInput) calc.GroundSpeedResult {
	r, err := calc.GroundSpeed(in)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// jug is a list of one jug with a scale error.
func jug(scale float64) []certainty.Instrument {
	return []certainty.Instrument{{ID: "jug", Kind: certainty.Jug, Resolution: float64(10 * unit.Millilitre), ScaleError: unit.Ratio(scale)}}
}

// TestPropertyRepeats: of n equal runs the part of the scale does not fall with n, and
// the part that is independent falls as the root of n when the scatter is known well.
func TestPropertyRepeats(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		run := calc.Run{CourseLength: 30 * unit.Metre, Time: unit.Time(rapid.Float64Range(15, 60).Draw(t, "time"))}
		n := rapid.IntRange(1, 30).Draw(t, "runs")
		in := calc.GroundSpeedInput{Measuring: certainty.Measuring{Uncertainty: true}}
		in.Measuring.Repeatability.Runs = certainty.Prior{StandardDeviation: 2 * unit.Percent, DegreesOfFreedom: 1_000_000_000}
		in.Runs = []calc.Run{run}
		one := mustTime(t, in).Uncertainty.GroundSpeed.Budget
		in.Runs = slices.Repeat(in.Runs, n)
		many := mustTime(t, in).Uncertainty.GroundSpeed.Budget
		for _, scale := range []certainty.Source{certainty.SourceTapeScale, certainty.SourceStopwatchScale} {
			agrees(t, "scale", many[scale].Standard, one[scale].Standard, 1e-9)
		}
		agrees(t, "independent", many[certainty.SourceRuns].Standard, one[certainty.SourceRuns].Standard/math.Sqrt(float64(n)), 1e-6)
	})
}

// TestPropertyOneJugCancels: how far one jug is off is in no deviation from the mean,
// nor in the coefficient of variation, and is in every flow.
func TestPropertyOneJugCancels(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := aRound(t)
		in.Measuring.Instruments = jug(0.001)
		good := mustRound(t, in)
		scale := rapid.Float64Range(0.05, 0.5).Draw(t, "scale")
		in.Measuring.Instruments = jug(scale)
		bad := mustRound(t, in)
		agrees(t, "variation", bad.Uncertainty.CoefficientOfVariation.Standard, good.Uncertainty.CoefficientOfVariation.Standard, 1e-9)
		for i := range bad.Uncertainty.Catches {
			a, b := bad.Uncertainty.Catches[i], good.Uncertainty.Catches[i]
			agrees(t, "from mean", a.DeviationFromMean.Standard, b.DeviationFromMean.Standard, 1e-9)
			if a.NozzleFlowRate.Standard <= b.NozzleFlowRate.Standard || a.DeviationFromRated.Standard <= b.DeviationFromRated.Standard {
				t.Errorf("catch %d does not feel its jug", i)
			}
			agrees(t, "scale in the flow", a.NozzleFlowRate.Budget[certainty.SourceJugScale].Standard, scale/math.Sqrt(3), 1e-9)
		}
	})
}

// TestPropertyOrderOfUncertainty: the order of the catches does not matter.
func TestPropertyOrderOfUncertainty(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := aRound(t)
		in.CatchPointsOnBoom = len(in.Catches) + rapid.IntRange(0, 30).Draw(t, "points")
		a := mustRound(t, in)
		slices.Reverse(in.Catches)
		b := mustRound(t, in)
		agrees(t, "mean", a.Uncertainty.MeanNozzleFlowRate.Standard, b.Uncertainty.MeanNozzleFlowRate.Standard, 1e-9)
		for i := range a.Catches {
			x, y := a.Uncertainty.Catches[i], b.Uncertainty.Catches[len(a.Catches)-1-i]
			agrees(t, "from mean", x.DeviationFromMean.Standard, y.DeviationFromMean.Standard, 1e-9)
			if math.Abs(float64(x.Within.Probability-y.Within.Probability)) > 1e-9 {
				t.Errorf("probability %v in one order, %v in the other", x.Within.Probability, y.Within.Probability)
			}
		}
	})
}

// TestPropertyUnitsOfUncertainty: shares do not change when every volume, and the
// resolution of the jug, is so many times as large.
func TestPropertyUnitsOfUncertainty(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := aRound(t)
		in.Measuring.Instruments = jug(0.02)
		a := mustRound(t, in)
		by := rapid.Float64Range(0.01, 100).Draw(t, "by")
		in.Measuring.Instruments = jug(0.02)
		in.Measuring.Instruments[0].Resolution *= by
		in.Catches = slices.Clone(in.Catches)
		for i := range in.Catches {
			in.Catches[i].Volume *= unit.Volume(by)
		}
		b := mustRound(t, in)
		agrees(t, "mean", b.Uncertainty.MeanNozzleFlowRate.Standard, by*a.Uncertainty.MeanNozzleFlowRate.Standard, 1e-9)
		agrees(t, "variation", b.Uncertainty.CoefficientOfVariation.Standard, a.Uncertainty.CoefficientOfVariation.Standard, 1e-6)
		for i := range a.Uncertainty.Catches {
			agrees(t, "from mean", b.Uncertainty.Catches[i].DeviationFromMean.Standard, a.Uncertainty.Catches[i].DeviationFromMean.Standard, 1e-9)
		}
	})
}

// TestPropertyWholeBoomCaught: when every place was caught, nothing but the
// instruments is left, and the less was caught the less is known.
func TestPropertyWholeBoomCaught(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := aRound(t)
		in.CatchPointsOnBoom = len(in.Catches)
		all := mustRound(t, in).Uncertainty.MeanNozzleFlowRate
		if all.DegreesOfFreedom != 0 || all.Budget[certainty.SourceCatches].Standard != 0 || all.Budget[certainty.SourceJugReading].Standard == 0 {
			t.Errorf("%+v", all)
		}
		in.CatchPointsOnBoom *= 3
		some := mustRound(t, in).Uncertainty.MeanNozzleFlowRate
		in.CatchPointsOnBoom = 0
		unknown := mustRound(t, in).Uncertainty.MeanNozzleFlowRate
		if !(some.Standard < unknown.Standard) {
			t.Errorf("a third caught: %v, not known how much: %v", some.Standard, unknown.Standard)
		}
	})
}

// TestPropertyVerdictsStay: uncertainty never changes a verdict.
func TestPropertyVerdictsStay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := aRound(t)
		in.Tolerance.Basis = rapid.SampledFrom([]calc.Basis{calc.RatedBasis, calc.MeanBasis, calc.BothBases}).Draw(t, "basis")
		with := mustRound(t, in)
		in.Measuring.Uncertainty = false
		without := mustRound(t, in)
		for i, c := range with.Catches {
			if c != without.Catches[i] {
				t.Errorf("catch %d: %+v with, %+v without", i, c, without.Catches[i])
			}
			p := float64(with.Uncertainty.Catches[i].Within.Probability)
			if !(p >= 0 && p <= 1) {
				t.Errorf("catch %d: probability %v", i, p)
			}
			if outside := c.Status != calc.StatusWithin; outside && p > 0.51 {
				t.Errorf("catch %d is outside, but within by %v", i, p)
			}
		}
		if without.Uncertainty != nil {
			t.Error("uncertainty that nobody asked for")
		}
	})
}

// TestReferenceSheetSharesInstruments: on a sheet with one stopwatch and one tape the
// stopwatch's scale cancels between catches and runs, and the tape's counts twice, for
// course and width: by hand 2 x 0.02 / sqrt 3 = 0.023094.
func TestReferenceSheetSharesInstruments(t *testing.T) {
	in := twelveCatches()
	in.Measuring = certainty.Measuring{Uncertainty: true, Instruments: []certainty.Instrument{
		{ID: "w", Kind: certainty.Stopwatch, Resolution: 0.01, ScaleError: 0.05, ReactionTime: 0.2},
		{ID: "t", Kind: certainty.Tape, Resolution: 0.01, ScaleError: 0.02},
	}}
	b := mustSheet(t, in).Rate.Uncertainty.ApplicationRate.Budget
	if b[certainty.SourceStopwatchScale].Standard != 0 {
		t.Errorf("the stopwatch's scale is in the rate: %v", b[certainty.SourceStopwatchScale])
	}
	agrees(t, "tape", b[certainty.SourceTapeScale].Standard, 0.023094, 1e-5)
}

// TestReferenceTwoJugs: two jugs weigh by their catches: of three equal catches, two by
// a jug of 3 % and one by one of 1 %: sqrt((2/3 x 0.03)^2 + (1/3 x 0.01)^2) / sqrt 3 =
// 0.011706, by hand. In the deviation of the one from the mean they come to
// sqrt((2/3 x 0.01)^2 + (2/3 x 0.03)^2) / sqrt 3 = 0.012172.
func TestReferenceTwoJugs(t *testing.T) {
	in := calc.NozzleAcceptanceInput{}
	in.Measuring = certainty.Measuring{Uncertainty: true, Instruments: []certainty.Instrument{
		{ID: "a", Kind: certainty.Jug, ScaleError: 0.03}, {ID: "b", Kind: certainty.Jug, ScaleError: 0.01},
	}}
	for _, jug := range []string{"a", "a", "b"} {
		in.Catches = append(in.Catches, calc.AcceptanceCatch{Catch: calc.Catch{Volume: 1 * unit.Litre, Time: 60, Jug: jug}})
	}
	u := mustRound(t, in).Uncertainty
	agrees(t, "mean", u.MeanNozzleFlowRate.Budget[certainty.SourceJugScale].Standard, 0.011706, 1e-4)
	agrees(t, "from mean", u.Catches[2].DeviationFromMean.Budget[certainty.SourceJugScale].Standard, 0.012172, 1e-4)
}

// TestReferenceMeasureAgain: how many more, by hand.
func TestReferenceMeasureAgain(t *testing.T) {
	// A rate 8.5 % over, limit 10 %: the margin is 0.015 / 1.085 of the rate, and surely one
	// with 1 / 1.644854 of it, 0.0084049. With a scatter of the runs of 1.5 % and nothing else,
	// n = (0.015 / 0.0084049)^2 = 3.2, four runs, two more than there are.
	exact := func(id string, k certainty.InstrumentKind) certainty.Instrument {
		return certainty.Instrument{ID: id, Kind: k}
	}
	in := twelveCatches()
	in.Output.CatchPointsOnBoom = len(in.Output.Catches)
	in.Speed.Runs[1] = in.Speed.Runs[0]
	in.Measuring = certainty.Measuring{Uncertainty: true, Instruments: []certainty.Instrument{
		exact("w", certainty.Stopwatch), exact("t", certainty.Tape), exact("j", certainty.Jug), exact("g", certainty.Gauge),
	}}
	in.Measuring.Repeatability.Runs = certainty.Prior{StandardDeviation: 1.5 * unit.Percent, DegreesOfFreedom: 1_000_000}
	rate := mustSheet(t, in).Rate.ApplicationRate
	in.Target.ApplicationRate = rate / 1.085
	got := mustSheet(t, in).Rate.Uncertainty.Within
	if want := (certainty.MeasureAgain{Measurement: certainty.MeasureRuns, How: certainty.HowAgain, More: 2}); got.Conformance != certainty.TooClose || got.MeasureAgain != want {
		t.Errorf("%+v, want too close and %+v", got, want)
	}
	// At 9.5 % it is 0.005 / 1.095 / 1.644854 = 0.0027761: n = 29.2, 30, 28 more.
	in.Target.ApplicationRate = rate / 1.095
	got = mustSheet(t, in).Rate.Uncertainty.Within
	if got.MeasureAgain.More != 28 {
		t.Errorf("%+v, want 28 more", got)
	}
	// A jug that may be 10 % off: no number of runs settles it.
	in.Measuring.Instruments[2].ScaleError = 0.1
	r := must(calc.FieldSheet(in))
	got = r.Rate.Uncertainty.Within
	if want := (certainty.MeasureAgain{Measurement: certainty.MeasureCatches, How: certainty.HowBetterInstrument, Instrument: certainty.Jug}); got.MeasureAgain != want {
		t.Errorf("%+v, want %+v", got.MeasureAgain, want)
	}
	if !slices.Contains(stepCodes(r), calc.StepSettleRate) || r.Verdict != calc.Ready {
		t.Errorf("a rate too close: steps %v, verdict %v", stepCodes(r), r.Verdict)
	}
}

// TestPropertyMeasuredAgain measures again as it says: with so many more runs, or catches, that
// come out alike the rate is sure, and with fewer it is not. Where those there are differ, all
// of them come again as often.
func TestPropertyMeasuredAgain(t *testing.T) {
	tried := map[certainty.Measurement]int{}
	rapid.Check(t, func(t *rapid.T) {
		in := twelveCatches()
		in.Output.Catches = in.Output.Catches[:rapid.IntRange(1, 6).Draw(t, "catches")]
		in.Speed.Runs = in.Speed.Runs[:rapid.IntRange(1, 2).Draw(t, "runs")]
		if rapid.Bool().Draw(t, "long boom") {
			in.Output.CatchPointsOnBoom = rapid.IntRange(6, 60).Draw(t, "points")
		}
		prior := func(name string) certainty.Prior {
			return certainty.Prior{StandardDeviation: unit.Ratio(rapid.Float64Range(0.002, 0.06).Draw(t, name)), DegreesOfFreedom: rapid.IntRange(1, 40).Draw(t, name+" freedom")}
		}
		in.Measuring.Uncertainty = true
		in.Measuring.Repeatability = certainty.Repeatability{Runs: prior("runs prior"), Catches: prior("catches prior")}
		if rapid.Bool().Draw(t, "alike") {
			for i := range in.Speed.Runs {
				in.Speed.Runs[i] = in.Speed.Runs[0]
			}
			for i := range in.Output.Catches {
				in.Output.Catches[i] = in.Output.Catches[0]
			}
		}
		in.Target.ApplicationRate = must(calc.FieldSheet(in)).Rate.ApplicationRate / unit.ApplicationRate(rapid.Float64Range(0.85, 1.15).Draw(t, "off"))
		first := must(calc.FieldSheet(in)).Rate.Uncertainty.Within
		again := first.MeasureAgain
		runs := again.Measurement == certainty.MeasureRuns
		if first.Conformance != certainty.TooClose || again.More == 0 || again.How != certainty.HowAgain || !runs && again.Measurement != certainty.MeasureCatches {
			return
		}
		sure := func(more int) bool {
			x := in
			x.Speed.Runs, x.Output.Catches = slices.Clone(in.Speed.Runs), slices.Clone(in.Output.Catches)
			for i := range more {
				if runs {
					x.Speed.Runs = append(x.Speed.Runs, in.Speed.Runs[i%len(in.Speed.Runs)])
				} else {
					x.Output.Catches = append(x.Output.Catches, in.Output.Catches[i%len(in.Output.Catches)])
				}
			}
			return must(calc.FieldSheet(x)).Rate.Uncertainty.Within.Conformance != certainty.TooClose
		}
		step := 1 // how many more come out alike together
		if runs && in.Speed.Runs[0] != in.Speed.Runs[len(in.Speed.Runs)-1] {
			step = len(in.Speed.Runs)
		} else if !runs && len(in.Output.Catches) > 1 && in.Output.Catches[0].Volume != in.Output.Catches[1].Volume {
			step = len(in.Output.Catches)
		}
		enough := (again.More + step - 1) / step * step
		if !runs && in.Output.CatchPointsOnBoom > 0 && len(in.Output.Catches)+enough > in.Output.CatchPointsOnBoom {
			return
		}
		tried[again.Measurement]++
		if !sure(enough) {
			t.Errorf("after %d more %s it is still open; said %d", enough, again.Measurement, again.More)
		}
		if fewer := enough - step; sure(fewer) {
			t.Errorf("%d more %s are enough; said %d", fewer, again.Measurement, again.More)
		}
	})
	if tried[certainty.MeasureRuns] == 0 || tried[certainty.MeasureCatches] == 0 {
		t.Errorf("measured again: %v", tried)
	}
}
