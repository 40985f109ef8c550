package calc_test

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"wetrun/calc"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

func mustCorrect(t rapid.TB, in calc.CorrectionsInput) calc.CorrectionsResult {
	t.Helper()
	r, err := calc.Corrections(in)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// tooMuch is 14 % over the target, with room for speed and pressure.
func tooMuch() calc.CorrectionsInput {
	return calc.CorrectionsInput{
		Measured: calc.MeasuredState{
			ApplicationRate: 114 * unit.USGallonPerAcre,
			GroundSpeed:     3 * unit.MilePerHour,
			SprayPressure:   60 * unit.PoundPerSquareInch,
		},
		TargetApplicationRate: 100 * unit.USGallonPerAcre,
		RateTolerance:         10 * unit.Percent,
		BoomEven:              calc.BoomEven,
		Limits: calc.CorrectionLimits{
			GroundSpeed:   calc.SpeedRange{Low: 2 * unit.MilePerHour, High: 5 * unit.MilePerHour},
			SprayPressure: calc.PressureRange{Low: 50 * unit.PoundPerSquareInch, High: 90 * unit.PoundPerSquareInch},
		},
	}
}

// TestReferenceCorrections: reference value computed from exact unit definitions,
// independently of this code.
func TestReferenceCorrections(t *testing.T) {
	r := mustCorrect(t, tooMuch())
	agrees(t, "deviation", r.Deviation.In(unit.Percent), 14, 1e-5)
	if r.Within != finding.Outside || r.Decision != calc.ChoosePlan || len(r.Plans) != 2 || len(r.Rejected) != 0 || r.Warnings != nil {
		t.Fatalf("got %+v", r)
	}
	// 14 % more speed is less of a change than 50/60 of the pressure.
	speed, pressure := r.Plans[0], r.Plans[1]
	if speed.Change != calc.ChangeSpeed || speed.AtLimit || pressure.Change != calc.ChangePressure || !pressure.AtLimit {
		t.Errorf("plans are %+v", r.Plans)
	}
	agrees(t, "speed", speed.GroundSpeed.In(unit.MilePerHour), 3.42, 1e-5)
	agrees(t, "rate", speed.PredictedApplicationRate.In(unit.USGallonPerAcre), 100, 1e-5)
	agrees(t, "deviation of the speed plan", float64(speed.Deviation), 0, 0)
	agrees(t, "pressure", pressure.SprayPressure.In(unit.PoundPerSquareInch), 50, 1e-5)
	agrees(t, "rate at the limit", pressure.PredictedApplicationRate.In(unit.USGallonPerAcre), 104.067, 1e-5)
	agrees(t, "deviation at the limit", pressure.Deviation.In(unit.Percent), 4.06729, 1e-5)
	agrees(t, "change of pressure", float64(pressure.RelativeChange), -1.0/6, 1e-12) // 50/60 - 1
}

// TestReferenceCorrectionsRejected: reference value computed from exact unit
// definitions, independently of this code. The rate at the limit is 114 x
// sqrt(58/60) = 112.084.
func TestReferenceCorrectionsRejected(t *testing.T) {
	in := tooMuch()
	in.Limits.SprayPressure.Low = 58 * unit.PoundPerSquareInch
	r := mustCorrect(t, in)
	if len(r.Plans) != 1 || len(r.Rejected) != 1 {
		t.Fatalf("got %+v", r)
	}
	agrees(t, "deviation", r.Deviation.In(unit.Percent), 14, 1e-5)
	agrees(t, "speed", r.Plans[0].GroundSpeed.In(unit.MilePerHour), 3.42, 1e-5)
	no := r.Rejected[0]
	if no.Change != calc.ChangePressure || no.Reason != calc.ReasonBelowMinimumPressure {
		t.Errorf("rejected is %+v", no)
	}
	agrees(t, "needed", no.NeededPressure.In(unit.PoundPerSquareInch), 46.1681, 1e-5)
	agrees(t, "minimum", no.PressureLimit.In(unit.PoundPerSquareInch), 58, 1e-5)
	agrees(t, "rate at the limit", no.ApplicationRateAtLimit.In(unit.USGallonPerAcre), 112.084, 1e-5)
	agrees(t, "deviation at the limit", no.DeviationAtLimit.In(unit.Percent), 12.084, 1e-4)
}

// TestPublishedSpeedForAnotherRate: 1.5 gal/min from nozzles 30 in apart put 30
// gal/acre at 9.9 mph. Nozzles meant for 1 gal/min run at 1 x 5940 / (30 x 30) =
// 6.6 mph, where 1.5 gal/min is 45 gal/acre. Sprayer Calibrations and
// Calculations, Montana State University Extension, 2000, MT 2000-14,
// seen in a copy only
func TestPublishedSpeedForAnotherRate(t *testing.T) {
	r := mustCorrect(t, calc.CorrectionsInput{
		Measured:              calc.MeasuredState{ApplicationRate: 45 * unit.USGallonPerAcre, GroundSpeed: 6.6 * unit.MilePerHour},
		TargetApplicationRate: 30 * unit.USGallonPerAcre,
	})
	printedAs(t, "new speed", r.Plans[0].GroundSpeed.In(unit.MilePerHour), 9.9, 1)
}

// TestPublishedSlowIsTooMuch: driving 10 % slower puts on about 10 % too much; the
// exact figure is 1/0.9 - 1 = 11.1 %, and the plan undoes it. Calibrating field
// sprayers, University of Missouri Extension, G1270A,
// https://extension.missouri.edu/publications/g1270a
func TestPublishedSlowIsTooMuch(t *testing.T) {
	r := mustCorrect(t, calc.CorrectionsInput{
		Measured:              calc.MeasuredState{ApplicationRate: 20 / 0.9 * unit.USGallonPerAcre, GroundSpeed: 0.9 * 5 * unit.MilePerHour},
		TargetApplicationRate: 20 * unit.USGallonPerAcre,
	})
	if d := r.Deviation.In(unit.Percent); math.Abs(d-10) > 1.5 {
		t.Errorf("over by %v %%, printed about 10", d)
	}
	agrees(t, "speed again", r.Plans[0].GroundSpeed.In(unit.MilePerHour), 5, 1e-12)
}

// TestPublishedPressureForAnotherRate: the rate goes with the flow, so a rate per
// hectare of ten times the printed flow at 20 or 30 psi asks for 10 psi when the
// flow printed there is wanted. Both flows are rounded to 0.1: at most 1.3 % in
// pressure. Theoretical Discharge of Nozzles, Hydraulic Institute,
// https://edl.pumps.org/fluid-flow-iii/fr-loss-nozzles.html
func TestPublishedPressureForAnotherRate(t *testing.T) {
	for _, c := range discharges {
		r := mustCorrect(t, calc.CorrectionsInput{
			Measured: calc.MeasuredState{
				ApplicationRate: unit.ApplicationRate(c.printed*10) * unit.LitrePerHectare, GroundSpeed: 1,
				SprayPressure: unit.Pressure(c.psi) * unit.PoundPerSquareInch,
			},
			TargetApplicationRate: unit.ApplicationRate(c.at10*10) * unit.LitrePerHectare,
		})
		if len(r.Rejected) != 1 || r.Rejected[0].Reason != calc.ReasonPressureLimitsNotGiven {
			t.Fatalf("got %+v", r.Rejected)
		}
		agrees(t, "needed pressure", r.Rejected[0].NeededPressure.In(unit.PoundPerSquareInch), 10, 0.013)
	}
}

// TestReferenceNoCorrection: 110 of 100 is exactly on a limit of 10 %, in any unit;
// over a label maximum of 105 it must come down all the same, and at 105 must not.
func TestReferenceNoCorrection(t *testing.T) {
	for _, rate := range []unit.ApplicationRate{unit.USGallonPerAcre, unit.LitrePerHectare, unit.LitrePerAcre, unit.USFluidOuncePerAcre} {
		for _, c := range []struct {
			measured, maximum unit.ApplicationRate
			want              calc.CorrectionDecision
		}{
			{110, 0, calc.NoCorrectionNeeded}, {90, 0, calc.NoCorrectionNeeded}, {110.001, 0, calc.ChoosePlan}, {89.999, 0, calc.ChoosePlan},
			{110, 105, calc.ChoosePlan}, {105, 105, calc.NoCorrectionNeeded}, {105.001, 105, calc.ChoosePlan},
		} {
			in := tooMuch()
			in.Measured.ApplicationRate, in.TargetApplicationRate, in.LabelMaximum = c.measured*rate, 100*rate, c.maximum*rate
			r := mustCorrect(t, in)
			over := c.maximum != 0 && c.measured > c.maximum
			if r.Decision != c.want || r.OverLabelMaximum != over || c.want == calc.NoCorrectionNeeded && len(r.Plans)+len(r.Rejected) != 0 {
				t.Errorf("%v of 100, label %v: %+v", c.measured, c.maximum, r)
			}
		}
	}
}

// TestReferenceVoidPlans: what stops both changes, and what stops one.
func TestReferenceVoidPlans(t *testing.T) {
	const whatever = calc.Change("whatever")
	for name, c := range map[string]struct {
		change   func(*calc.CorrectionsInput)
		decision calc.CorrectionDecision
		plans    int
		reasons  []calc.RejectionReason
		warnings string
	}{
		"uneven": {func(in *calc.CorrectionsInput) { in.BoomEven = calc.BoomUneven },
			calc.RepairFirst, 0, []calc.RejectionReason{calc.ReasonBoomUneven, calc.ReasonBoomUneven}, ""},
		"controller": {func(in *calc.CorrectionsInput) { in.RateController = true },
			calc.CalibrateController, 0, []calc.RejectionReason{calc.ReasonRateController, calc.ReasonRateController}, ""},
		// Repair comes first even where a controller holds the rate.
		"both": {func(in *calc.CorrectionsInput) { in.BoomEven, in.RateController = calc.BoomUneven, true },
			calc.RepairFirst, 0, []calc.RejectionReason{calc.ReasonBoomUneven, calc.ReasonBoomUneven}, ""},
		"evenness unknown": {func(in *calc.CorrectionsInput) { in.BoomEven = calc.EvennessUnknown },
			calc.ChoosePlan, 2, nil, "boomEven: boom_evenness_unknown"},
		"no pressure": {func(in *calc.CorrectionsInput) { in.Measured.SprayPressure = 0 },
			calc.ChoosePlan, 1, []calc.RejectionReason{calc.ReasonPressureNotMeasured}, ""},
		"no limits": {func(in *calc.CorrectionsInput) { in.Limits = calc.CorrectionLimits{} },
			calc.ChoosePlan, 1, []calc.RejectionReason{calc.ReasonPressureLimitsNotGiven}, "limits.groundSpeed: speed_limits_not_given"},
		// 3.42 mph needed; at 3.1 the rate is 114 x 3/3.1 = 110.3, over 110.
		"too fast": {func(in *calc.CorrectionsInput) { in.Limits.GroundSpeed.High = 3.1 * unit.MilePerHour },
			calc.ChoosePlan, 1, []calc.RejectionReason{calc.ReasonAboveMaximumSpeed}, ""},
		// And the pressure may not go below 58 psi: 112.1; both together are 108.5.
		"both are stopped": {func(in *calc.CorrectionsInput) {
			in.Limits.GroundSpeed.High = 3.1 * unit.MilePerHour
			in.Limits.SprayPressure.Low = 58 * unit.PoundPerSquareInch
		}, calc.ChoosePlan, 1, []calc.RejectionReason{calc.ReasonAboveMaximumSpeed, calc.ReasonBelowMinimumPressure}, ""},
		// At 3.05 mph and 59 psi it is 114 x 3/3.05 x sqrt(59/60) = 111.2.
		"out of reach": {func(in *calc.CorrectionsInput) {
			in.Limits.GroundSpeed.High = 3.05 * unit.MilePerHour
			in.Limits.SprayPressure.Low = 59 * unit.PoundPerSquareInch
		}, calc.OutOfReach, 0, []calc.RejectionReason{calc.ReasonAboveMaximumSpeed, calc.ReasonBelowMinimumPressure, calc.ReasonBelowMinimumPressure}, ""},
		// At 50 psi 104.07 is within 10 %, but the label says 102.
		"label": {func(in *calc.CorrectionsInput) { in.LabelMaximum = 102 * unit.USGallonPerAcre },
			calc.ChoosePlan, 1, []calc.RejectionReason{calc.ReasonOverLabelMaximum}, ""},
	} {
		in := tooMuch()
		c.change(&in)
		r := mustCorrect(t, in)
		if r.Decision != c.decision || len(r.Plans) != c.plans || len(r.Rejected) != len(c.reasons) || warned(r.Warnings) != c.warnings {
			t.Errorf("%s: got %+v", name, r)
			continue
		}
		last := whatever
		for i, no := range r.Rejected {
			if no.Reason != c.reasons[i] || no.Change == last {
				t.Errorf("%s: rejected %+v", name, r.Rejected)
			}
			last = no.Change
		}
	}
}

// TestReferenceLimitExactlyReached: a limit that is just what is needed stops
// nothing. 120 of 100 at 3 asks for 3.6; 120 of 100 at 1.44 asks for 1.44 x
// (100/120)^2 = 1. A measured 80 of 100 asks for 1.44 x (100/80)^2 = 2.25.
func TestReferenceLimitExactlyReached(t *testing.T) {
	for _, speed := range []unit.Speed{unit.MilePerHour, unit.KilometrePerHour, unit.MetrePerSecond} {
		for _, p := range []unit.Pressure{unit.PoundPerSquareInch, unit.Bar, unit.Kilopascal} {
			in := tooMuch()
			in.Measured = calc.MeasuredState{ApplicationRate: 120 * unit.USGallonPerAcre, GroundSpeed: 3 * speed, SprayPressure: 1.44 * p}
			in.Limits = calc.CorrectionLimits{GroundSpeed: calc.SpeedRange{Low: 2 * speed, High: 3.6 * speed}, SprayPressure: calc.PressureRange{Low: 1 * p, High: 2.25 * p}}
			for range 2 {
				r := mustCorrect(t, in)
				if len(r.Plans) != 2 || r.Plans[0].AtLimit || r.Plans[1].AtLimit {
					t.Errorf("got %+v", r)
				}
				in.Measured.ApplicationRate = 80 * unit.USGallonPerAcre
				in.Limits.GroundSpeed = calc.SpeedRange{Low: 2.4 * speed, High: 5 * speed} // 3 x 80/100
			}
		}
	}
}

// TestReferenceExponent1: with an exponent of 1 the pressure goes as the rate, 60 x
// 100/120 = 50. That is as large a change in proportion as 3.6/3 in speed.
func TestReferenceExponent1(t *testing.T) {
	in := tooMuch()
	in.Measured.ApplicationRate, in.PressureExponent = 120*unit.USGallonPerAcre, 1
	in.Limits.SprayPressure.Low = 20 * unit.PoundPerSquareInch
	r := mustCorrect(t, in)
	if len(r.Plans) != 2 {
		t.Fatalf("got %+v", r)
	}
	for _, p := range r.Plans {
		if p.Change == calc.ChangePressure {
			agrees(t, "pressure", p.SprayPressure.In(unit.PoundPerSquareInch), 50, 1e-12)
		} else {
			agrees(t, "speed", p.GroundSpeed.In(unit.MilePerHour), 3.6, 1e-12)
		}
	}
	// At 0.8 it is 60 x (1/1.2)^(1/0.8) = 60 x 0.796202, more than the change of speed.
	in.PressureExponent = 0.8
	r = mustCorrect(t, in)
	if r.Plans[0].Change != calc.ChangeSpeed {
		t.Errorf("the first plan is %+v", r.Plans[0])
	}
	agrees(t, "pressure", r.Plans[1].SprayPressure.In(unit.PoundPerSquareInch), 60*math.Exp(-math.Log(1.2)*1.25), 1e-12)
}

// TestPropertyCorrectionsScale: everything in a unit of another size, and the same
// is decided.
func TestPropertyCorrectionsScale(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := rapid.Float64Range(0.01, 100).Draw(t, "k")
		in := tooMuch()
		in.Measured.ApplicationRate = unit.ApplicationRate(rapid.Float64Range(50, 180).Draw(t, "rate")) * unit.USGallonPerAcre
		want := mustCorrect(t, in)
		in.Measured.ApplicationRate *= unit.ApplicationRate(k)
		in.TargetApplicationRate *= unit.ApplicationRate(k)
		in.Measured.GroundSpeed *= unit.Speed(k)
		in.Limits.GroundSpeed.Low *= unit.Speed(k)
		in.Limits.GroundSpeed.High *= unit.Speed(k)
		got := mustCorrect(t, in)
		if got.Decision != want.Decision || len(got.Plans) != len(want.Plans) {
			t.Fatalf("%+v became %+v", want, got)
		}
		for i := range got.Plans {
			agrees(t, "rate", float64(got.Plans[i].PredictedApplicationRate), k*float64(want.Plans[i].PredictedApplicationRate), 1e-9)
			agrees(t, "speed", float64(got.Plans[i].GroundSpeed), k*float64(want.Plans[i].GroundSpeed), 1e-9)
			agrees(t, "pressure", float64(got.Plans[i].SprayPressure), float64(want.Plans[i].SprayPressure), 1e-9)
		}
	})
}

// Nozzles of 1.5 gal/min, 30 in apart, put on 45 gal/acre at 6.6 mph; 30 gal/acre
// are wanted, and 9.9 mph printed. Montana State University Extension, 2000, MT
// 2000-14, seen in a copy only
func ExampleCorrections() {
	r, err := calc.Corrections(calc.CorrectionsInput{
		Measured:              calc.MeasuredState{ApplicationRate: 45 * unit.USGallonPerAcre, GroundSpeed: 6.6 * unit.MilePerHour},
		TargetApplicationRate: 30 * unit.USGallonPerAcre,
		BoomEven:              calc.BoomEven,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range r.Plans {
		fmt.Printf("drive at %.1f mph\n", p.GroundSpeed.In(unit.MilePerHour))
	}
	// Output: drive at 9.9 mph
}

// TestReferencePlanOfUnusualSpeed: 114 gal/acre at 3 mph are 17.1 at 20 mph, and less
// only faster. Who gives limits knows what the tractor does.
func TestReferencePlanOfUnusualSpeed(t *testing.T) {
	for target, want := range map[float64]string{17.1: "", 17: "limits.groundSpeed: unusual_speed"} {
		in := tooMuch()
		in.TargetApplicationRate = unit.ApplicationRate(target) * unit.USGallonPerAcre
		in.Limits.GroundSpeed, in.Measured.SprayPressure = calc.SpeedRange{}, 0
		if r := mustCorrect(t, in); len(r.Plans) != 1 || warned(r.Plans[0].Warnings) != want {
			t.Errorf("%v: %+v", target, r.Plans)
		}
		in.Limits.GroundSpeed = calc.SpeedRange{Low: 2 * unit.MilePerHour, High: 30 * unit.MilePerHour}
		if r := mustCorrect(t, in); len(r.Plans) != 1 || r.Plans[0].Warnings != nil {
			t.Errorf("%v within limits: %+v", target, r.Plans)
		}
	}
}
