package calc_test

import (
	"slices"
	"testing"

	"wetrun/calc"
	"wetrun/calc/unit"
)

// TestReferencePulsedCatches, by hand: a nozzle of 1.2 L/min at 3 bar that is open for 60 %
// of the time gives 0.72, and the 0.78 of a catch are 8.33 % over that; it may give 0.648 to
// 0.792. Open all the time, 0.78 would be 35 % under. So it is by size and by chart, and a
// drop of 0.8 and 1.2 L/min is to give 1.2.
func TestReferencePulsedCatches(t *testing.T) {
	rated := calc.Nozzle{RatedFlowRate: 1.2 * unit.LitrePerMinute, RatedPressure: 3 * unit.Bar}
	chart := calc.Nozzle{FlowChart: []calc.FlowPoint{{Pressure: 1 * unit.Bar, FlowRate: 0.7 * unit.LitrePerMinute}, {Pressure: 3 * unit.Bar, FlowRate: 1.2 * unit.LitrePerMinute}}}
	for name, nozzle := range map[string]calc.Nozzle{"rated": rated, "size": {Size: "03"}, "chart": chart} {
		in := calc.NozzleAcceptanceInput{
			Nozzle: nozzle, SprayPressure: 3 * unit.Bar, DutyCycle: 60 * unit.Percent,
			Catches: caught(unit.Minute, 0.78*unit.Litre),
		}
		r, err := calc.NozzleAcceptance(in)
		if err != nil {
			t.Fatal(err)
		}
		agrees(t, name+": rated", r.RatedFlowRateAtPressure.In(unit.LitrePerMinute), 0.72, 1e-12)
		agrees(t, name+": off by", r.Catches[0].DeviationFromRated.In(unit.Percent), 100*(0.78/0.72-1), 1e-9)
		agrees(t, name+": least", r.Catches[0].AcceptableFlowRate.Low.In(unit.LitrePerMinute), 0.648, 1e-12)
		if r.Catches[0].Status != calc.StatusWithin || chart.FlowChart[1].FlowRate != 1.2*unit.LitrePerMinute {
			t.Errorf("%s: %v, and the chart is %v", name, r.Catches[0].Status, chart.FlowChart)
		}
		in.DutyCycle = 0
		if r, _ = calc.NozzleAcceptance(in); r.Catches[0].Status != calc.StatusBelow {
			t.Errorf("%s, open all the time: %v", name, r.Catches[0].Status)
		}
	}
	drop := caught(unit.Minute, 1.2*unit.Litre)
	drop[0].Nozzles = 0
	drop[0].NozzlesOnDrop = []calc.DropNozzle{{Nozzle: calc.Nozzle{Size: "02"}}, {Nozzle: calc.Nozzle{Size: "03"}}}
	r, err := calc.NozzleAcceptance(calc.NozzleAcceptanceInput{Nozzle: rated, SprayPressure: 3 * unit.Bar, DutyCycle: 60 * unit.Percent, Catches: drop})
	if err != nil {
		t.Fatal(err)
	}
	agrees(t, "drop", r.Catches[0].RatedFlowRateAtPressure.In(unit.LitrePerMinute), 1.2, 1e-12)
	agrees(t, "drop: off by", 1+float64(r.Catches[0].DeviationFromRated), 1, 1e-12)
	if drop[0].NozzlesOnDrop[0].Nozzle.Size != "02" {
		t.Errorf("the request was changed: %+v", drop)
	}
}

// TestReferencePulsedSheet, by hand: the nozzles of wholeSheet, 0.25 gal/min at 62.5 psi,
// open for half of the time give 0.125, so that the catches are half as large and the rate
// is 12.375 gal/acre. 11 are wanted: a duty cycle of 50 x 11 / 12.375 = 44.44 %, where the
// limits allow it; where they end at 47 %, and speed and pressure may not change, 12.375 x
// 0.94 = 11.6325 is as near as it comes, and within 10 %.
func TestReferencePulsedSheet(t *testing.T) {
	pulsed := func() calc.FieldSheetInput {
		in := wholeSheet()
		in.DutyCycle, in.Target.ApplicationRate = 50*unit.Percent, 11*unit.USGallonPerAcre
		in.Output.Catches = slices.Clone(in.Output.Catches)
		for i := range in.Output.Catches {
			in.Output.Catches[i].Volume /= 2
		}
		return in
	}
	in := pulsed()
	in.Planning = &calc.CorrectionsInput{DutyCycleLimits: calc.DutyCycleRange{Low: 40 * unit.Percent, High: 100 * unit.Percent}}
	r := mustSheet(t, in)
	if r.OutputStatus != calc.Passed {
		t.Fatalf("the catches %v: %+v", r.OutputStatus, r.Output.Catches)
	}
	p := planned(*r.Correction, 0, calc.ChangeDutyCycle)
	if p == nil {
		t.Fatalf("%+v", r.Correction)
	}
	agrees(t, "duty cycle", p.DutyCycle.In(unit.Percent), 50*11/12.375, 1e-12)
	in.Planning.DutyCycleLimits.Low = 47 * unit.Percent
	in.Limits = calc.CorrectionLimits{
		GroundSpeed:   calc.SpeedRange{Low: 3 * unit.MilePerHour, High: 3 * unit.MilePerHour},
		SprayPressure: calc.PressureRange{Low: 62.5 * unit.PoundPerSquareInch, High: 62.5 * unit.PoundPerSquareInch},
	}
	r = mustSheet(t, in)
	if len(r.Correction.Plans) != 1 {
		t.Fatalf("%+v", r.Correction.Plans)
	}
	agrees(t, "rate at the limit", r.Correction.Plans[0].PredictedApplicationRate.In(unit.USGallonPerAcre), 11.6325, 1e-12)
	// Without limits no plan changes it, and the sheet says why; limits need a duty cycle.
	in = pulsed()
	if no := rejected(*mustSheet(t, in).Correction, 0, calc.ChangeDutyCycle); no == nil || no.Reason != calc.ReasonDutyCycleLimitsNotGiven {
		t.Errorf("%+v", no)
	}
	for want, change := range map[string]func(*calc.FieldSheetInput){
		"dutyCycle: over_100_percent": func(in *calc.FieldSheetInput) { in.DutyCycle = 1.01 },
		"dutyCycle: not_positive":     func(in *calc.FieldSheetInput) { in.DutyCycle = -1 },
		"dutyCycle: required": func(in *calc.FieldSheetInput) {
			*in = wholeSheet()
			in.Target.ApplicationRate = 20 * unit.USGallonPerAcre
			in.Planning = &calc.CorrectionsInput{DutyCycleLimits: calc.DutyCycleRange{Low: 0.4, High: 1}}
		},
	} {
		in := pulsed()
		change(&in)
		if _, err := calc.FieldSheet(in); refusal(err) != want {
			t.Errorf("got %q, want %q", refusal(err), want)
		}
	}
}
