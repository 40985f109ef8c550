package calc_test

import (
	"slices"
	"testing"

	"wetrun/calc"
	"wetrun/calc/certainty"
	"wetrun/calc/unit"
)

// TestReferenceSettleSteps: what is too close to its limit to be sure is a step, with the
// catch that it is about; what is sure is none. Judged by hand with a jug that is the
// only one to err, by u = 1 % of a catch (a = 1.732 %): 9.5 % and 10.5 % from the mean
// of 10 % allowed are half a u away, 3 % is not near it.
func TestReferenceSettleSteps(t *testing.T) {
	in := twelveCatches()
	in.Measuring = certainty.Measuring{Uncertainty: true, Instruments: []certainty.Instrument{
		exact("w", certainty.Stopwatch, 0), exact("t", certainty.Tape, 0), exact("g", certainty.Gauge, 0), exact("j", certainty.Jug, 0.01732), exact("k", certainty.Jug, 0.01732),
	}}
	in.Output.Tolerance = calc.OutputTolerance{Limit: 10 * unit.Percent, Basis: calc.MeanBasis}
	for i := range in.Output.Catches {
		in.Output.Catches[i].Volume, in.Output.Catches[i].Jug = unit.Volume(1.01-0.02*float64(i%2))*unit.Litre, "j"
	}
	in.Output.Catches[7].Volume, in.Output.Catches[7].Jug = 1.106*unit.Litre, "k" // 9.7 % above 1.008
	in.Output.Catches[9].Volume, in.Output.Catches[9].Jug = 0.97*unit.Litre, "k"
	settle := func() (steps []stepAt) {
		for _, s := range stepsOf(mustSheet(t, in)) {
			if s.Code == calc.StepCheckSooner {
				steps = append(steps, s)
			}
		}
		return steps
	}
	if got := settle(); len(got) != 1 || got[0] != (stepAt{calc.StepCheckSooner, 7, -1}) {
		t.Errorf("steps %+v, want one about catch 7", got)
	}
	// Where all nozzles are replaced nobody settles one, nor one that was caught again.
	first := in.Output.Catches[7]
	in.Output.Catches[7].First = &first
	if got := settle(); len(got) != 0 {
		t.Errorf("steps %+v about one that was caught again", got)
	}
	in.Output.Catches[7].First, in.Output.Tolerance.Basis = nil, calc.RatedBasis
	for i := range 7 {
		in.Output.Catches[i].Volume = 1.3 * unit.Litre
	}
	if r := mustSheet(t, in); r.Output.Decision != calc.ReplaceAll || len(settle()) != 0 {
		t.Errorf("decision %v, steps %+v", r.Output.Decision, settle())
	}
}

// TestReferenceSettleRate: a rate that is too close to its tolerance, or to the label's
// maximum, gets a step; one that is off gets none, since it is set anew anyway.
// With a tape that errs by 2 % (a = 3.464 %) in course and width, 4 % in the rate. By
// the quotient to a target: 2 % over of 10 % is 2 u away, sure; 9 % a quarter u; 30 % sure.
func TestReferenceSettleRate(t *testing.T) {
	in := twelveCatches()
	in.Output.CatchPointsOnBoom = len(in.Output.Catches)
	in.Speed.Runs[1] = in.Speed.Runs[0]
	in.Measuring = certainty.Measuring{Uncertainty: true, Instruments: []certainty.Instrument{
		exact("w", certainty.Stopwatch, 0), exact("t", certainty.Tape, 0.03464), exact("g", certainty.Gauge, 0), exact("j", certainty.Jug, 0),
	}}
	in.Measuring.Repeatability.Runs = certainty.Prior{StandardDeviation: 1e-6, DegreesOfFreedom: 1_000_000}
	rate := mustSheet(t, in).Rate.ApplicationRate
	for _, c := range []struct {
		over, label float64 // of the rate over the target, and of the label's maximum over the rate
		settle      bool
	}{
		{1.02, 0, false}, {1.09, 0, true}, {1.11, 0, false}, {1.3, 0, false},
		{1.02, 1.2, false}, {1.02, 1.03, true}, {1.3, 1.03, false}, {1.3, 0.98, false}, {0.8, 1.3, false},
	} {
		in.Target.ApplicationRate = rate / unit.ApplicationRate(c.over)
		in.Target.LabelMaximum = rate * unit.ApplicationRate(c.label)
		r := mustSheet(t, in)
		if got := slices.Contains(stepCodes(r), calc.StepSettleRate); got != c.settle {
			t.Errorf("%+v: a step %v; %+v, %+v", c, got, r.Rate.Uncertainty.Within, r.Rate.Uncertainty.UnderLabel)
		}
		if r.Rate.Uncertainty.FieldApplicationRate.CoverageFactor != 0 {
			t.Error("a rate per field area without rows")
		}
		agrees(t, "rate", r.Rate.Uncertainty.ApplicationRate.Standard/float64(rate), 0.04, 1e-3)
	}
	// Rows of twice the bed: the rate per field area is as uncertain, by the same tape.
	in.Machine.RowSpacing, in.Target.RateBasis = 2*in.Machine.BedWidth, calc.RateBasisField
	u := mustSheet(t, in).Rate.Uncertainty
	agrees(t, "field", u.FieldApplicationRate.Standard/float64(rate), 0.02, 1e-3)
}

// TestReferenceTapeOfASheet: with two tapes listed the sheet says which measured the
// widths, wherever there is one, and only there.
func TestReferenceTapeOfASheet(t *testing.T) {
	two := certainty.Measuring{Uncertainty: true, Instruments: []certainty.Instrument{exact("t", certainty.Tape, 0.01), exact("u", certainty.Tape, 0.01)}}
	for name, c := range map[string]struct {
		machine calc.Machine
		want    string
	}{
		"no width":  {calc.Machine{}, ""},
		"a width":   {calc.Machine{SprayedWidthPerNozzle: 1}, "machine.tape: instrument_not_named"},
		"beds":      {calc.Machine{BedWidth: 2, NozzlesPerBed: 3}, "machine.tape: instrument_not_named"},
		"rows only": {calc.Machine{RowSpacing: 2, NozzlesPerBed: 3}, "machine.tape: instrument_not_named"},
		"named":     {calc.Machine{SprayedWidthPerNozzle: 1, Tape: "u"}, ""},
		"unknown":   {calc.Machine{Tape: "x"}, "machine.tape: unknown_instrument"},
	} {
		_, err := calc.FieldSheet(calc.FieldSheetInput{Machine: c.machine, Measuring: two})
		if got := refusal(err); got != c.want {
			t.Errorf("%s: refused with %q, want %q", name, got, c.want)
		}
	}
}

// TestReferenceSettlePressure: a spread of just 10 psi, the most allowed, is as likely
// over as under it by any gauge; one of 4 psi is not near it, nor is one of 16.
func TestReferenceSettlePressure(t *testing.T) {
	for spread, want := range map[float64]bool{10: true, 4: false, 16: false} {
		in := wholeSheet()
		in.Measuring.Uncertainty = true
		in.Pressure.Readings = nil
		for _, share := range []float64{-0.5, 0, 0.5} {
			in.Pressure.Readings = append(in.Pressure.Readings, unit.Pressure(62.5+share*spread)*unit.PoundPerSquareInch)
		}
		if r := mustSheet(t, in); slices.Contains(stepCodes(r), calc.StepSettlePressure) != want {
			t.Errorf("%v psi: steps %v", spread, stepCodes(r))
		}
	}
}
