package calc_test

import (
	"strings"
	"testing"

	"wetrun/calc"
	"wetrun/calc/certainty"
	"wetrun/calc/unit"
)

// exact is an instrument without any error but its scale's.
func exact(id string, k certainty.InstrumentKind, scale unit.Ratio) certainty.Instrument {
	return certainty.Instrument{ID: id, Kind: k, ScaleError: scale}
}

// TestReferenceStatedUncertainties, by hand, with z of the normal distribution from a
// table. 1.2, 1 and 0.5 % make sqrt 2.69 = 1.64012 %; a rate 7.25 % over has a deviation
// known to 1.0725 x 1.64012 = 1.75903 %, and lies 2.75 / 1.75903 = 1.5634 below its
// limit: 0.94102. Under the label's 27 it lies by 1.26 / 0.422167 = 2.9846: 0.99858.
func TestReferenceStatedUncertainties(t *testing.T) {
	in := calc.ApplicationRateInput{
		NozzleFlowRate: 0.26 * unit.USGallonPerMinute, GroundSpeed: 3 * unit.MilePerHour, SprayedWidthPerNozzle: 20 * unit.Inch,
		TargetApplicationRate: 24 * unit.USGallonPerAcre, LabelMaximum: 27 * unit.USGallonPerAcre,
		StandardUncertainties: calc.RateStandards{NozzleFlowRate: 0.012, GroundSpeed: 0.01, SprayedWidthPerNozzle: 0.005},
	}
	u := must(calc.ApplicationRate(in)).Uncertainty
	agrees(t, "rate", u.ApplicationRate.Standard, 0.0164012*25.74*float64(unit.USGallonPerAcre), 1e-5)
	agrees(t, "deviation", u.Deviation.Standard, 0.0175903, 1e-5)
	agrees(t, "within", float64(u.Within.Probability), 0.94102, 2e-4)
	agrees(t, "under the label", float64(u.UnderLabel.Probability), 0.99858, 1e-4)
	if want := (certainty.MeasureAgain{Measurement: certainty.MeasureNozzleFlowRate, How: certainty.HowAgain}); u.Within.MeasureAgain != want {
		t.Errorf("%+v, want %+v", u.Within.MeasureAgain, want)
	}
	for measurement, s := range map[certainty.Measurement]calc.RateStandards{
		certainty.MeasureGroundSpeed: {GroundSpeed: 0.02}, certainty.MeasureWidth: {SprayedWidthPerNozzle: 0.02},
	} {
		in.StandardUncertainties = s
		if got := must(calc.ApplicationRate(in)).Uncertainty.Within.MeasureAgain; got != (certainty.MeasureAgain{Measurement: measurement, How: certainty.HowAgain}) {
			t.Errorf("%+v, want %v", got, measurement)
		}
	}

	// Solved for the speed: sqrt(1.2^2 + 0.5^2 + 2^2) = 2.38537 % of it; the rate is known
	// to its own 2 %, per field area as well.
	in.GroundSpeed, in.ApplicationRate = 0, 25.74*unit.USGallonPerAcre
	in.Nozzles, in.RowSpacing, in.RateBasis = 2, 50*unit.Inch, calc.RateBasisField
	in.StandardUncertainties = calc.RateStandards{NozzleFlowRate: 0.012, SprayedWidthPerNozzle: 0.005, ApplicationRate: 0.02}
	r := must(calc.ApplicationRate(in))
	agrees(t, "speed", r.Uncertainty.Solved.Standard/float64(r.GroundSpeed), 0.0238537, 1e-5)
	agrees(t, "field", r.Uncertainty.FieldApplicationRate.Standard/float64(r.FieldApplicationRate), 0.02, 1e-9)
	agrees(t, "field deviation", r.Uncertainty.Deviation.Standard, 0.02*float64(r.FieldApplicationRate/in.TargetApplicationRate), 1e-9)

	// The rate as given is what to measure again, or a limit exactly hit; no instrument is
	// behind a stated figure, and no number of repeats.
	for _, target := range []unit.ApplicationRate{r.FieldApplicationRate / 1.08, r.FieldApplicationRate / 1.1} {
		in.TargetApplicationRate = target
		u := must(calc.ApplicationRate(in)).Uncertainty
		if want := (certainty.MeasureAgain{Measurement: certainty.MeasureApplicationRate, How: certainty.HowAgain}); u.Within.Conformance != certainty.TooClose || u.Within.MeasureAgain != want {
			t.Errorf("%+v, want too close and %+v", u.Within, want)
		}
	}

	// Nothing known of the rate that was given: nothing is said of its verdict.
	in.StandardUncertainties.ApplicationRate = 0
	if u := must(calc.ApplicationRate(in)).Uncertainty; u.Within.Conformance != certainty.ConformanceUnknown || u.Solved.Standard == 0 {
		t.Errorf("%+v", u)
	}
}

// TestReferenceAreaUncertainty, by hand: 3, 0.2 and 1 % make 3.16860 %; 300 over 280
// deviates by 7.14286 %, known to 3.39492 %: 2.85714 / 3.39492 = 0.84159 below the
// limit, 0.80 by the table.
func TestReferenceAreaUncertainty(t *testing.T) {
	in := calc.AreaCheckInput{
		VolumeUsed: 60 * unit.Litre, CourseLength: 500 * unit.Metre, Width: 4 * unit.Metre,
		StandardUncertainties: calc.AreaStandards{VolumeUsed: 0.03, CourseLength: 0.002, Width: 0.01},
	}
	u := must(calc.AreaCheck(in)).Uncertainty
	agrees(t, "rate", u.ApplicationRate.Standard, 0.0316860*300*float64(unit.LitrePerHectare), 1e-5)
	if u.Within.Conformance != certainty.ConformanceUnknown {
		t.Error("a verdict without an expected rate")
	}
	in.ExpectedApplicationRate = 280 * unit.LitrePerHectare
	u = must(calc.AreaCheck(in)).Uncertainty
	agrees(t, "deviation", u.Deviation.Standard, 0.0339492, 1e-5)
	agrees(t, "within", float64(u.Within.Probability), 0.80, 1e-4)
	if u.Within.MeasureAgain != (certainty.MeasureAgain{Measurement: certainty.MeasureVolumeUsed, How: certainty.HowAgain}) {
		t.Errorf("%+v", u.Within.MeasureAgain)
	}
	in.StandardUncertainties = calc.AreaStandards{Width: 0.05}
	if u = must(calc.AreaCheck(in)).Uncertainty; u.Within.MeasureAgain != (certainty.MeasureAgain{Measurement: certainty.MeasureArea, How: certainty.HowAgain}) {
		t.Errorf("%+v", u.Within.MeasureAgain)
	}
	in.StandardUncertainties = calc.AreaStandards{ExpectedApplicationRate: 0.05}
	if u = must(calc.AreaCheck(in)).Uncertainty; u.Within.MeasureAgain != (certainty.MeasureAgain{Measurement: certainty.MeasureApplicationRate, How: certainty.HowAgain}) {
		t.Errorf("%+v", u.Within.MeasureAgain)
	}
}

// TestReferenceNozzleFlowUncertainty, by hand. Three catches of 1 L in 60 s, the jug off
// by up to 3 %: 0.03 / sqrt 3 = 0.0173205 of each and of the mean. Without any other
// error, and none seen, the prior's 4 % with 5 degrees of freedom is pooled with 0 with
// 2: s_p^2 = 5 x 0.0016 / 7, and of the mean of three sqrt(s_p^2 / 3) = 0.0195180 with 7
// degrees of freedom. Moved to another pressure, a gauge off by up to 4 % adds 0.02 /
// sqrt 3 = 0.0115470.
func TestReferenceNozzleFlowUncertainty(t *testing.T) {
	c := calc.Catch{Volume: 1 * unit.Litre, Time: 60 * unit.Second}
	in := calc.NozzleFlowInput{
		Catches: []calc.Catch{c, c, c}, SprayPressure: 3 * unit.Bar,
		PredictAt: []calc.Prediction{{SprayPressure: 2 * unit.Bar}, {RelativeDensity: 1.2}},
		Measuring: certainty.Measuring{Uncertainty: true, Instruments: []certainty.Instrument{
			exact("j", certainty.Jug, 0.03), exact("w", certainty.Stopwatch, 0), exact("g", certainty.Gauge, 0.04), exact("h", certainty.Gauge, 0.02),
		}},
		Gauge: "g",
	}
	u := must(calc.NozzleFlow(in)).Uncertainty
	agrees(t, "catch", u.NozzleFlowRates[1].Standard/float64(c.FlowRate()), 0.0173205, 1e-5)
	b := u.MeanNozzleFlowRate.Budget
	agrees(t, "jug", b[certainty.SourceJugScale].Standard, 0.0173205, 1e-5)
	agrees(t, "catches", b[certainty.SourceCatches].Standard, 0.0195180, 1e-5)
	agrees(t, "degrees of freedom", b[certainty.SourceCatches].DegreesOfFreedom, 7, 1e-12)
	agrees(t, "gauge", u.Predicted[0].Budget[certainty.SourceGaugeScale].Standard, 0.0115470, 1e-5)
	if g := u.Predicted[1].Budget[certainty.SourceGaugeScale].Standard; g != 0 {
		t.Errorf("a gauge in a flow that stays at its pressure: %v", g)
	}

	// Two catches by one gauge, one by another, as good as at one pressure: sqrt((2/3 x
	// 0.04)^2 + (1/3 x 0.02)^2) / 2 / sqrt 3 = 0.0079350.
	for i, gauge := range []string{"g", "g", "h"} {
		in.Catches[i].SprayPressure, in.Catches[i].Gauge = 3*unit.Bar, gauge
	}
	u = must(calc.NozzleFlow(in)).Uncertainty
	agrees(t, "gauges", u.Predicted[0].Budget[certainty.SourceGaugeScale].Standard, 0.0079350, 1e-4)

	// A fitted exponent says nothing of its own uncertainty.
	in.Catches[2].SprayPressure, in.Catches[2].Volume = 6*unit.Bar, 1.4*unit.Litre
	if r := must(calc.NozzleFlow(in)); !r.ExponentFitted || r.Uncertainty.Predicted != nil {
		t.Errorf("fitted %v, %+v", r.ExponentFitted, r.Uncertainty.Predicted)
	}
}

// TestReferencePressureUncertainty, by hand: 3 bar by a gauge of 1 %, 1 bar by one of
// 2 %: sqrt(0.03^2 + 0.02^2) = 0.0360555, of the mean 0.0360555 / 2 / sqrt 3 = 0.0104083
// bar, of the spread twice that. By one gauge of 1 % the spread of 2 bar has 0.02 / sqrt
// 3 = 0.0115470 bar. Flow goes by sqrt 3, so sqrt 3 / 2 x sqrt(0.0005 / 3) = 0.0111803.
func TestReferencePressureUncertainty(t *testing.T) {
	in := calc.PressureUniformityInput{
		Readings: []unit.Pressure{3 * unit.Bar, 1 * unit.Bar}, Gauges: []string{"a", "b"}, MaxDifference: 2.03 * unit.Bar,
		PressureRange: calc.PressureRange{Low: 1 * unit.Bar, High: 2.01 * unit.Bar},
		Measuring:     certainty.Measuring{Uncertainty: true, Instruments: []certainty.Instrument{exact("a", certainty.Gauge, 0.01), exact("b", certainty.Gauge, 0.02)}},
	}
	bar := float64(unit.Bar)
	u := must(calc.PressureUniformity(in)).Uncertainty
	agrees(t, "mean", u.Mean.Standard, 0.0104083*bar, 1e-5)
	agrees(t, "spread", u.Spread.Standard, 0.0208167*bar, 1e-5)
	agrees(t, "flow spread", u.FlowSpread.Standard, 0.0111803, 1e-5)
	agrees(t, "reading", u.Readings[1].Standard, 0.0115470*bar, 1e-5)
	// Two scales are off by up to 0.03 and 0.02 bar together: beyond 0.03 are 0.02^2 / 2 of
	// 0.06 x 0.04, of the mean beyond 0.01 are 0.015^2 / 2 of 0.03 x 0.02, within one point.
	agrees(t, "even", float64(u.Even.Probability), 1-1./12, 0.01)
	agrees(t, "in range", float64(u.MeanInRange.Probability), 1-3./16, 0.01)
	if want := (certainty.MeasureAgain{Measurement: certainty.MeasureReadings, How: certainty.HowBetterInstrument, Instrument: certainty.Gauge}); u.Even.MeasureAgain != want {
		t.Errorf("%+v, want %+v", u.Even.MeasureAgain, want)
	}
	in.Gauges = []string{"a", "a"}
	u = must(calc.PressureUniformity(in)).Uncertainty
	agrees(t, "spread by one gauge", u.Spread.Standard, 0.0115470*bar, 1e-5)

	// Without a list the cab gauge is read to 0.1 bar, and its scale is what is looked
	// for; that of the boom's gauge of 5 % is in the mean of 3 bar: readings 0.1 / sqrt 12
	// / sqrt 2 and 0.1 / sqrt 12, scale 0.15 / sqrt 3, together 0.0935414 bar.
	in = calc.PressureUniformityInput{
		Readings: []unit.Pressure{3 * unit.Bar, 3 * unit.Bar}, CabPressure: 3 * unit.Bar, Measuring: certainty.Measuring{Uncertainty: true},
	}
	u = must(calc.PressureUniformity(in)).Uncertainty
	agrees(t, "cab", u.CabOffset.Standard, 0.0935414*bar, 1e-5)
}

// TestReferenceChartExponent, by hand: 0.8 L/min at 2 bar and 1.2 at 4 make an exponent
// of ln 1.5 / ln 2 = 0.584963 between them; a gauge of 2 % then adds 0.584963 x 0.02 /
// sqrt 3 = 0.0067546. On a drop with one such nozzle, 1.014138 L/min at 3 bar, and one
// of 1 L/min by the square root, the exponent is 0.542780: 0.0062675.
func TestReferenceChartExponent(t *testing.T) {
	chart := calc.Nozzle{FlowChart: []calc.FlowPoint{{Pressure: 2 * unit.Bar, FlowRate: 0.8 * unit.LitrePerMinute}, {Pressure: 4 * unit.Bar, FlowRate: 1.2 * unit.LitrePerMinute}}}
	plain := calc.Nozzle{RatedFlowRate: 1 * unit.LitrePerMinute, RatedPressure: 3 * unit.Bar}
	in := calc.NozzleAcceptanceInput{
		Nozzle: chart, SprayPressure: 3 * unit.Bar,
		Catches:   []calc.AcceptanceCatch{{Catch: calc.Catch{Volume: 1 * unit.Litre, Time: 60}}},
		Measuring: certainty.Measuring{Uncertainty: true, Instruments: []certainty.Instrument{exact("g", certainty.Gauge, 0.02)}},
	}
	u := mustAccept(t, in).Uncertainty
	agrees(t, "chart", u.Catches[0].DeviationFromRated.Budget[certainty.SourceGaugeScale].Standard, 0.0067546, 1e-5)
	// No points are below the first: a half there, 0.5 x 0.02 / sqrt 3 = 0.0057735.
	in.SprayPressure = 2 * unit.Bar
	u = mustAccept(t, in).Uncertainty
	agrees(t, "first point", u.Catches[0].DeviationFromRated.Budget[certainty.SourceGaugeScale].Standard, 0.0057735, 1e-5)
	in.SprayPressure = 3 * unit.Bar
	in.Catches[0].NozzlesOnDrop = []calc.DropNozzle{{Nozzle: chart}, {Nozzle: plain}}
	in.Catches = append(in.Catches, calc.AcceptanceCatch{Catch: calc.Catch{Volume: 1 * unit.Litre, Time: 60}})
	r := mustAccept(t, in)
	agrees(t, "drop", r.Uncertainty.Catches[0].DeviationFromRated.Budget[certainty.SourceGaugeScale].Standard, 0.0062675, 1e-5)
	if r.Uncertainty.Catches[0].DeviationFromMean.Standard != 0 || r.Uncertainty.MeanNozzleFlowRate.Standard == 0 {
		t.Errorf("a drop of different nozzles in the mean: %+v", r.Uncertainty.Catches[0].DeviationFromMean)
	}
}

// TestReferenceInstrumentsRefuse: own rules, no published source.
func TestReferenceInstrumentsRefuse(t *testing.T) {
	catch := calc.AcceptanceCatch{Catch: calc.Catch{
		Volume: 1 * unit.Litre, Time: 60, SprayPressure: 3 * unit.Bar, Jug: "w", Stopwatch: "x", Gauge: "j",
	}}
	in := calc.NozzleAcceptanceInput{
		Nozzle: calc.Nozzle{RatedFlowRate: 1 * unit.LitrePerMinute, RatedPressure: 3 * unit.Bar},
		Gauge:  "y", Catches: []calc.AcceptanceCatch{catch},
		Measuring: certainty.Measuring{Uncertainty: true, Instruments: []certainty.Instrument{
			exact("w", certainty.Stopwatch, 0), exact("j", certainty.Jug, 0), exact("j", certainty.Jug, 0), exact("", certainty.Tape, -1),
			{ID: "z", Kind: 9, Resolution: -1, ReactionTime: -1},
		}},
	}
	in.Measuring.Repeatability = certainty.Repeatability{Runs: certainty.Prior{StandardDeviation: 0.01}, Catches: certainty.Prior{DegreesOfFreedom: -1}}
	_, err := calc.NozzleAcceptance(in)
	got := strings.Split(refusal(err), "; ")
	for _, want := range []string{
		"catches[0].jug: wrong_instrument", "catches[0].stopwatch: unknown_instrument", "catches[0].gauge: wrong_instrument",
		"gauge: unknown_instrument", "instruments[2].id: duplicate_id", "instruments[3].id: empty", "instruments[3].scaleError: not_positive",
		"instruments[4].kind: not_allowed", "instruments[4].resolution: not_positive", "instruments[4].reactionTime: not_positive",
		"instruments[4].reactionTime: stopwatch_only", "repeatability.runs.degreesOfFreedom: required",
		"repeatability.catches.standardDeviation: required", "repeatability.catches.degreesOfFreedom: not_positive",
	} {
		found := false
		for _, g := range got {
			found = found || g == want
		}
		if !found {
			t.Errorf("%s is not refused: %v", want, got)
		}
	}
	many := calc.GroundSpeedInput{Runs: []calc.Run{{CourseLength: 30, Time: 20}}}
	many.Measuring.Uncertainty = true
	for i := range certainty.MostInstruments + 1 {
		many.Measuring.Instruments = append(many.Measuring.Instruments, exact(strings.Repeat("t", i+1), certainty.Tape, 0))
	}
	_, err = calc.GroundSpeed(many)
	if got := refusal(err); got != "instruments: too_many; runs[0].tape: instrument_not_named" {
		t.Error(got)
	}
}

// must is the result of a calculation that cannot be refused.
func must[T any](r T, err error) T {
	if err != nil {
		panic(err)
	}
	return r
}
