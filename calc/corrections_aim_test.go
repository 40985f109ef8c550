package calc_test

import (
	"testing"

	"wetrun/calc"
	"wetrun/calc/unit"
)

// TestReferenceAimWithinTheLabel, by hand, of 114 with 100 wanted and a guard of 3 %.
//
// A maximum of 104 lets 104 x 0.97 = 100.88 be predicted, so the target is aimed at. One
// of 102 lets 98.94: the aim is 102 x 0.94 = 95.88 where the tolerance reaches that low,
// with 3 % the middle of 97 and 98.94, and with 1 % nothing, for 99 is above 98.94.
//
// The least of 96 asks for 98.88. One of 98 asks for 100.94: the aim is 98 x 1.06 =
// 103.88, with 3 % the middle of 100.94 and 103, and with 0.5 % nothing.
//
// With both, 102 and 97, 99.91 is the least and 98.94 the most: nothing.
func TestReferenceAimWithinTheLabel(t *testing.T) {
	for _, c := range []struct {
		most, least, tolerance, aim float64 // the aim is zero for none
		reason                      calc.RejectionReason
	}{
		{104, 0, 10, 100, ""}, {102, 0, 10, 95.88, ""}, {102, 0, 3, 97.97, ""}, {102, 0, 1, 0, calc.ReasonOverLabelMaximum},
		{0, 96, 10, 100, ""}, {0, 98, 10, 103.88, ""}, {0, 98, 3, 101.97, ""}, {0, 98, 0.5, 0, calc.ReasonUnderLabelMinimum},
		{104, 96, 10, 100, ""}, {102, 97, 10, 0, calc.ReasonOverLabelMaximum},
	} {
		in := tooMuch()
		in.Guard, in.RateTolerance = 3*unit.Percent, unit.Ratio(c.tolerance)*unit.Percent
		in.LabelMaximum, in.LabelMinimum = unit.ApplicationRate(c.most)*unit.USGallonPerAcre, unit.ApplicationRate(c.least)*unit.USGallonPerAcre
		in.Limits.SprayPressure.Low = 30 * unit.PoundPerSquareInch
		r := mustCorrect(t, in)
		if c.aim == 0 {
			if r.Decision != calc.OutOfReach || len(r.Plans) != 0 || len(r.Rejected) != 2 || r.Rejected[0].Reason != c.reason {
				t.Errorf("%+v: %+v", c, r)
			}
			continue
		}
		if len(r.Plans) != 2 {
			t.Fatalf("%+v: %+v", c, r)
		}
		for _, p := range r.Plans {
			agrees(t, "predicted", p.PredictedApplicationRate.In(unit.USGallonPerAcre), c.aim, 1e-12)
			if aim := p.Aim.In(unit.USGallonPerAcre); (p.Aim == 0) != (c.aim == 100) || p.Aim != 0 && aim != p.PredictedApplicationRate.In(unit.USGallonPerAcre) {
				t.Errorf("%+v: the aim is said to be %v", c, aim)
			}
			if c.aim != 100 {
				agrees(t, "deviation from the target", p.Deviation.In(unit.Percent), c.aim-100, 1e-9)
			}
		}
		agrees(t, "speed", planned(r, 0, calc.ChangeSpeed).GroundSpeed.In(unit.MilePerHour), 3*114/c.aim, 1e-12)
	}
}

// TestReferenceLabelMinimum, by hand: with no guard the least of 98 keeps what is predicted
// at 98 or more, in the tolerance or not. 90 of 100 at 3 mph asks for 2.7; where 2.8 are the
// least, it stands at 96.4, which is within 10 % of 100, and under the label's minimum.
func TestReferenceLabelMinimum(t *testing.T) {
	in := tooMuch()
	in.Measured.ApplicationRate, in.LabelMinimum = 90*unit.USGallonPerAcre, 98*unit.USGallonPerAcre
	in.Limits.GroundSpeed.Low = 2.8 * unit.MilePerHour
	r := mustCorrect(t, in)
	if !r.UnderLabelMinimum || r.OverLabelMaximum || r.Decision != calc.ChoosePlan {
		t.Errorf("%+v", r)
	}
	no := rejected(r, 0, calc.ChangeSpeed)
	if no == nil || no.Reason != calc.ReasonUnderLabelMinimum {
		t.Fatalf("%+v", r)
	}
	agrees(t, "at the least speed", no.ApplicationRateAtLimit.In(unit.USGallonPerAcre), 90*3/2.8, 1e-12)
	in.LabelMinimum = 96 * unit.USGallonPerAcre
	if r = mustCorrect(t, in); planned(r, 0, calc.ChangeSpeed) == nil {
		t.Errorf("%+v", r)
	}
	in.Measured.ApplicationRate = 96 * unit.USGallonPerAcre
	if r = mustCorrect(t, in); r.UnderLabelMinimum || r.Decision != calc.NoCorrectionNeeded {
		t.Errorf("%+v", r)
	}
	in.Guard = unit.Percent // 96 are not sure to keep 96
	if r = mustCorrect(t, in); r.UnderLabelMinimum || r.Decision != calc.ChoosePlan {
		t.Errorf("%+v", r)
	}
}

// TestReferenceGuardOfMoreThanAll: a rate known so badly that its guard is the whole of the
// maximum, or more, keeps no maximum, and comes to no plan.
func TestReferenceGuardOfMoreThanAll(t *testing.T) {
	for _, guard := range []unit.Ratio{0.99, 1, 1.5, 40} {
		in := tooMuch()
		in.Guard, in.LabelMaximum, in.RateTolerance = guard, 120*unit.USGallonPerAcre, 90*unit.Percent
		if r := mustCorrect(t, in); r.Decision != calc.OutOfReach || len(r.Plans) != 0 || r.Rejected[0].Reason != calc.ReasonOverLabelMaximum {
			t.Errorf("%v: %+v", guard, r)
		}
	}
}
