package calc_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"wetrun/calc"
	"wetrun/calc/unit"
)

// TestReferenceOutsideLimits: a rate that is right by a speed or a pressure outside the
// limits says so, and both are brought in together: 100 gal/acre at 5.1 mph and 49 psi are
// at the least pressure of 50 by 5.1 x sqrt(50/49) = 5.15, still over the 5 mph allowed;
// at 5 mph by 49 x (5/5.1)^2 = 47.1 psi, under the 50. At both limits they are
// 100 x 5.1/5 x sqrt(50/49) = 103.04.
func TestReferenceOutsideLimits(t *testing.T) {
	in := tooMuch()
	in.Measured.ApplicationRate = in.TargetApplicationRate
	if r := mustCorrect(t, in); r.Decision != calc.NoCorrectionNeeded || r.Warnings != nil {
		t.Errorf("inside: %+v", r)
	}
	in.Measured.GroundSpeed, in.Measured.SprayPressure = 5.1*unit.MilePerHour, 49*unit.PoundPerSquareInch
	r := mustCorrect(t, in)
	if got := warned(r.Warnings); r.Decision != calc.ChoosePlan || len(r.Plans) != 1 || got != "measured.groundSpeed: outside_limits; measured.sprayPressure: outside_limits" {
		t.Fatalf("outside: decision %v, plans %+v, warned of %q", r.Decision, r.Plans, got)
	}
	p := planned(r, 0, calc.ChangeSpeed, calc.ChangePressure)
	agrees(t, "speed", p.GroundSpeed.In(unit.MilePerHour), 5, 1e-12)
	agrees(t, "pressure", p.SprayPressure.In(unit.PoundPerSquareInch), 50, 1e-12)
	agrees(t, "rate", p.PredictedApplicationRate.In(unit.USGallonPerAcre), 102*math.Sqrt(50.0/49), 1e-12)
}

// TestReferenceSpeedAndPressureTogether, by hand.
//
// 125 of 100 at 3 mph and 60 psi, at least 50 psi and at most 3.3 mph: the speed alone
// would be 3.75 and the pressure alone 38.4. At 3.3 mph it is 113.64, which 60 x
// (100/113.64)^2 = 46.5 psi would put right, so that it stands at 50, 103.74; at 50 psi it
// is 114.11, and 3.42 mph stand at 3.3: the same.
//
// With 40 psi allowed it is 46.464 psi at 3.3 mph, or at 40 psi, 102.06, 3.062 mph.
//
// At 3 mph where 2.5 are allowed 80 of 100 are 96 at 2.5 mph, and 60 x (100/96)^2 = 65.1 psi
// the rest; 90 psi and 3 mph are no plan, for they leave the speed.
func TestReferenceSpeedAndPressureTogether(t *testing.T) {
	in := tooMuch()
	in.Measured.ApplicationRate = 125 * unit.USGallonPerAcre
	in.RateTolerance = 2 * unit.Percent
	in.Limits.GroundSpeed.High = 3.3 * unit.MilePerHour
	r := mustCorrect(t, in)
	no := rejected(r, 0, calc.ChangeSpeed, calc.ChangePressure)
	if r.Decision != calc.OutOfReach || len(r.Rejected) != 3 || no == nil || no.Reason != calc.ReasonBelowMinimumPressure {
		t.Fatalf("neither is enough, nor both: %+v", r)
	}
	agrees(t, "both at their limits", no.ApplicationRateAtLimit.In(unit.USGallonPerAcre), 125*3/3.3*math.Sqrt(5.0/6), 1e-12)
	agrees(t, "speed there", no.GroundSpeed.In(unit.MilePerHour), 3.3, 1e-12)

	in.Limits.SprayPressure.Low = 40 * unit.PoundPerSquareInch
	r = mustCorrect(t, in)
	if len(r.Plans) != 2 || r.Plans[0].Change != calc.ChangeCombined || r.Plans[1].Change != calc.ChangeCombined {
		t.Fatalf("%+v", r)
	}
	first, second := r.Plans[0], r.Plans[1]
	agrees(t, "speed at its limit", first.GroundSpeed.In(unit.MilePerHour), 3.3, 1e-12)
	agrees(t, "pressure beside it", first.SprayPressure.In(unit.PoundPerSquareInch), 60*(3.3*3.3/9)/1.25/1.25, 1e-12)
	agrees(t, "size", first.Size, math.Log(1.1)+math.Log(1.25*1.25*9/3.3/3.3), 1e-12)
	agrees(t, "pressure at its limit", second.SprayPressure.In(unit.PoundPerSquareInch), 40, 1e-12)
	agrees(t, "speed beside it", second.GroundSpeed.In(unit.MilePerHour), 3*1.25*math.Sqrt(2.0/3), 1e-12)

	in = tooMuch()
	in.Measured.ApplicationRate = 80 * unit.USGallonPerAcre
	in.Limits.GroundSpeed = calc.SpeedRange{Low: 2.45 * unit.MilePerHour, High: 2.5 * unit.MilePerHour}
	in.RateTolerance = 1 * unit.Percent
	r = mustCorrect(t, in)
	if no := rejected(r, 0, calc.ChangePressure); no == nil || no.Reason != calc.ReasonAboveMaximumPressure {
		t.Errorf("%+v", r.Rejected)
	}
	both := planned(r, 0, calc.ChangeSpeed, calc.ChangePressure)
	agrees(t, "speed", both.GroundSpeed.In(unit.MilePerHour), 2.5, 1e-12)
	agrees(t, "pressure", both.SprayPressure.In(unit.PoundPerSquareInch), 60/0.96/0.96, 1e-12)
}

// TestPropertySpeedAndPressureReachWhatTheyCan: over all speeds and pressures inside the
// limits the rate lies from that at the fastest and weakest to that at the slowest and
// strongest. There is a plan just where one of these rates is within the tolerance and the
// label's limits with their guard; each plan, put into the model, lands on what it says,
// inside everything, though the sprayer may have been outside to begin with.
func TestPropertySpeedAndPressureReachWhatTheyCan(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
		const target = 1e-4
		v, p, rate := f("speed", 0.5, 8), f("pressure", 1e5, 2e6), target*f("rate", 0.3, 2)
		vLow, pLow := v*f("lowest speed", 0.4, 1.2), p*f("lowest pressure", 0.2, 1.2)
		vHigh, pHigh := vLow*f("highest speed", 1, 2), pLow*f("highest pressure", 1, 3)
		n, tolerance, guard := f("exponent", 0.2, 1), f("tolerance", 0.001, 0.2), 0.0
		in := calc.CorrectionsInput{
			Measured:              calc.MeasuredState{ApplicationRate: unit.ApplicationRate(rate), GroundSpeed: unit.Speed(v), SprayPressure: unit.Pressure(p)},
			TargetApplicationRate: target, RateTolerance: unit.Ratio(tolerance), PressureExponent: n, BoomEven: calc.BoomEven,
			Limits: calc.CorrectionLimits{
				GroundSpeed:   calc.SpeedRange{Low: unit.Speed(vLow), High: unit.Speed(vHigh)},
				SprayPressure: calc.PressureRange{Low: unit.Pressure(pLow), High: unit.Pressure(pHigh)},
			},
		}
		least, most := target*(1-tolerance), target*(1+tolerance)
		if rapid.Bool().Draw(t, "guarded") {
			guard = f("guard", 0, 0.1)
			in.Guard = unit.Ratio(guard)
		}
		if rapid.Bool().Draw(t, "maximum") {
			in.LabelMaximum = unit.ApplicationRate(target * f("label maximum", 1, 1.2))
			most = math.Min(most, float64(in.LabelMaximum)*(1-guard))
		}
		if rapid.Bool().Draw(t, "minimum") {
			in.LabelMinimum = unit.ApplicationRate(target * f("label minimum", 0.8, 1))
			least = math.Max(least, float64(in.LabelMinimum)*(1+guard))
		}
		at := func(speed, pressure float64) float64 { return rate * v / speed * math.Pow(pressure/p, n) }
		lowest, highest := math.Max(least, at(vHigh, pLow)), math.Min(most, at(vLow, pHigh))
		r := mustCorrect(t, in)
		switch {
		case r.Decision == calc.NoCorrectionNeeded:
			if outside(rate, least, most) || outside(v, vLow, vHigh) || outside(p, pLow, pHigh) {
				t.Fatalf("not in order: %+v", r)
			}
		case lowest < highest*(1-1e-7) && len(r.Plans) == 0:
			t.Fatalf("there are rates from %v to %v, and no plan: %+v", lowest, highest, r.Rejected)
		case lowest > highest*near && len(r.Plans) > 0:
			t.Fatalf("there is no such rate: %+v", r.Plans)
		}
		for _, plan := range r.Plans {
			speed, pressure := v, p
			if plan.Changes.Has(calc.ChangeSpeed) {
				speed = float64(plan.GroundSpeed)
			}
			if plan.Changes.Has(calc.ChangePressure) {
				pressure = float64(plan.SprayPressure)
			}
			lands := at(speed, pressure)
			agrees(t, "prediction", float64(plan.PredictedApplicationRate), lands, 1e-8)
			if outside(lands, least, most) || outside(speed, vLow, vHigh) || outside(pressure, pLow, pHigh) {
				t.Fatalf("lands outside of %v to %v: %+v", least, most, plan)
			}
			if off := lands/target - 1; math.Abs(off-float64(plan.Deviation)) > 1e-8 {
				t.Fatalf("is off by %v: %+v", off, plan)
			}
			if want := math.Abs(math.Log(speed/v)) + math.Abs(math.Log(pressure/p)); math.Abs(plan.Size-want) > 1e-8 {
				t.Fatalf("its size is %v: %+v", want, plan)
			}
		}
	})
}
