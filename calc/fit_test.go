package calc_test

import (
	"slices"
	"strings"
	"testing"

	"wetrun/calc"
	"wetrun/calc/certainty"
	"wetrun/calc/unit"
)

// TestReferenceFitToJudge: of 4 oz in 30 s, within 5 %, the readings in order lie 0.4 oz apart.
// Half of a half-ounce mark is 0.25, a quarter of 0.4 is 0.1: 2.5 times as long, 75 s. With
// marks of 0.2 oz it is fit. Runs of 20 s within 5 % may differ by 1 s, of which half is 0.5:
// with marks of 1 s it takes 40 s, twice the course. Of 10 psi half is 5.
func TestReferenceFitToJudge(t *testing.T) {
	sheet := func(kind certainty.InstrumentKind, mark float64) calc.FieldSheetInput {
		in := enteredSheet()
		in.Output.Tolerance.Limit = 5 * unit.Percent
		for i := range in.Output.Catches {
			in.Output.Catches[i].Volume, in.Output.Catches[i].Time = 4*unit.USFluidOunce, 30*unit.Second
		}
		in.Nozzle.RatedFlowRate, in.Target.ApplicationRate = in.Nozzle.RatedFlowRate/8, in.Target.ApplicationRate/8 // of 64 oz in 60 s
		in.Measuring.Instruments = []certainty.Instrument{{ID: "x", Kind: kind, Resolution: mark}}
		return in
	}
	ounce, psi := float64(unit.USFluidOunce), float64(unit.PoundPerSquareInch)
	for _, c := range []struct {
		kind certainty.InstrumentKind
		mark float64
		step calc.StepCode // empty where it is fit
		warn string
	}{
		{certainty.Jug, 0.5 * ounce, calc.StepCatchLonger, "catches: catch_too_short"}, {certainty.Jug, 0.2 * ounce, "", ""},
		{certainty.Stopwatch, 1, calc.StepRunLonger, "runs: run_too_short"}, {certainty.Stopwatch, 0.5, "", ""},
		{certainty.Gauge, 5.1 * psi, calc.StepFinerGauge, "readings: gauge_too_coarse"}, {certainty.Gauge, 5 * psi, "", ""},
	} {
		r := mustSheet(t, sheet(c.kind, c.mark))
		said := warned(r.Output.Warnings) + warned(r.Speed.Warnings) + warned(r.Pressure.Warnings)
		switch {
		case c.step == "" && (r.Verdict != calc.Ready || strings.Contains(said, "too_")):
			t.Errorf("%v %g: %v %v, %s", c.kind, c.mark, r.Verdict, stepCodes(r), said)
		case c.step != "" && (!slices.Contains(stepCodes(r), c.step) || r.Verdict != calc.Incomplete || !strings.Contains(said, c.warn)):
			t.Errorf("%v %g: %v %v, %s", c.kind, c.mark, r.Verdict, stepCodes(r), said)
		}
		if c.step == calc.StepCatchLonger && (r.Output.CatchLonger != 75 || r.Output.Decision != calc.NotJudged) {
			t.Errorf("catch for %v, %v", r.Output.CatchLonger, r.Output.Decision)
		}
		if c.step == calc.StepRunLonger {
			agrees(t, "course", r.Speed.RunLonger.In(unit.Foot), 176, 1e-9)
		}
	}
}
