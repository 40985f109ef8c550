package calc_test

import (
	"testing"

	"pgregory.net/rapid"

	"wetrun/calc"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// TestPublishedRateRule: a rate is to be within 5 % of the label's. Attributed to
// USDA and EPA by Ohio State University Extension in The Daily Record, 2012,
// http://www.the-daily-record.com/news/20120417/take-time-to-calibrate-your-sprayers
func TestPublishedRateRule(t *testing.T) {
	for rate, want := range map[unit.ApplicationRate]finding.Verdict{
		94.9: finding.Outside, 95: finding.Within, 100: finding.Within, 105: finding.Within, 105.1: finding.Outside,
	} {
		in := tooMuch()
		in.RateTolerance = 5 * unit.Percent
		in.Measured.ApplicationRate = rate * unit.USGallonPerAcre
		if r := mustCorrect(t, in); r.Within != want || (r.Decision == calc.NoCorrectionNeeded) != (want == finding.Within) {
			t.Errorf("%v of 100: verdict %v, decision %v", rate, r.Within, r.Decision)
		}
	}
}

// TestReferenceOutsideItsLimits: what is measured outside its limits is no hindrance
// where what is needed lies inside. 150 of 100 at 1.6 mph, under a minimum of 2,
// asks for 2.4; at 120 psi, over a maximum of 90, for 120 / 1.5^2 = 53.3. A change of
// the one that leaves the other outside is rejected.
func TestReferenceOutsideItsLimits(t *testing.T) {
	slow := calc.MeasuredState{ApplicationRate: 150 * unit.USGallonPerAcre, GroundSpeed: 1.6 * unit.MilePerHour, SprayPressure: 60 * unit.PoundPerSquareInch}
	hard := slow
	hard.GroundSpeed, hard.SprayPressure = 3*unit.MilePerHour, 120*unit.PoundPerSquareInch
	in := tooMuch()
	in.Measured = slow
	r := mustCorrect(t, in)
	p := planned(r, 0, calc.ChangeSpeed)
	if p == nil || p.AtLimit || planned(r, 0, calc.ChangePressure) != nil {
		t.Fatalf("plans are %+v", r.Plans)
	}
	agrees(t, "speed", p.GroundSpeed.In(unit.MilePerHour), 2.4, 1e-12)
	in.Measured = hard
	r = mustCorrect(t, in)
	p = planned(r, 0, calc.ChangePressure)
	if p == nil || p.AtLimit || planned(r, 0, calc.ChangeSpeed) != nil {
		t.Fatalf("plans are %+v", r.Plans)
	}
	agrees(t, "pressure", p.SprayPressure.In(unit.PoundPerSquareInch), 120/2.25, 1e-12)
	no := r.Rejected[0]
	if no.Change != calc.ChangeSpeed || no.Reason != calc.ReasonStaysAboveMaximumPressure {
		t.Errorf("rejected is %+v", no)
	}
	agrees(t, "pressure left", no.NeededPressure.In(unit.PoundPerSquareInch), 120, 1e-12)
	agrees(t, "its limit", no.PressureLimit.In(unit.PoundPerSquareInch), 90, 1e-12)
}

// TestCorrectionsRefusesAllAtOnce: one fault does not hide another.
func TestCorrectionsRefusesAllAtOnce(t *testing.T) {
	in := tooMuch()
	in.Measured.GroundSpeed = 0
	in.LabelMaximum = 99 * unit.USGallonPerAcre
	in.BoomEven = calc.BoomUneven + 1
	in.Limits.GroundSpeed.Low, in.Limits.GroundSpeed.High = 5, 0
	_, err := calc.Corrections(in)
	if want := "measured.groundSpeed: required; targetApplicationRate: above_label_maximum; boomEven: not_allowed; " +
		"limits.groundSpeed.high: required"; refusal(err) != want {
		t.Errorf("got %q, want %q", refusal(err), want)
	}
}

// TestPropertyLimitReachedInAnyUnit: a limit short of what is needed by no more than
// conversion leaves behind, a part in 10^12, stops nothing; a part in a million does.
func TestPropertyLimitReachedInAnyUnit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rate := rapid.Float64Range(115, 180).Draw(t, "rate")
		for _, c := range []struct {
			short float64
			stops bool
		}{{1e-12, false}, {1e-6, true}} {
			in := tooMuch()
			in.Measured.ApplicationRate = unit.ApplicationRate(rate) * unit.USGallonPerAcre
			in.Limits.GroundSpeed.High = unit.Speed(3*rate/100*(1-c.short)) * unit.MilePerHour
			in.Limits.SprayPressure.Low = unit.Pressure(60*(100/rate)*(100/rate)*(1+c.short)) * unit.PoundPerSquareInch
			r := mustCorrect(t, in)
			if len(r.Plans) != 2 || r.Plans[0].AtLimit != c.stops || r.Plans[1].AtLimit != c.stops {
				t.Fatalf("short by %v: %+v", c.short, r)
			}
		}
	})
}

// TestCorrectionsRejectedHasNothingMadeUp: a means whose limits nobody gave is rejected
// with what it would need, and without a rate or a limit, of which nothing is known.
func TestCorrectionsRejectedHasNothingMadeUp(t *testing.T) {
	in := tooMuch()
	in.Limits.SprayPressure = calc.PressureRange{}
	in.Measured.DutyCycle = 80 * unit.Percent
	seen := 0
	for _, no := range mustCorrect(t, in).Rejected {
		if no.Reason != calc.ReasonPressureLimitsNotGiven && no.Reason != calc.ReasonDutyCycleLimitsNotGiven {
			continue
		}
		seen++
		if no.ApplicationRateAtLimit != 0 || no.DeviationAtLimit != 0 || no.PressureLimit != 0 || no.DutyCycleLimit != 0 ||
			no.PredictedApplicationRate != 0 || no.Deviation != 0 || no.NeededPressure == 0 && no.NeededDutyCycle == 0 {
			t.Errorf("%+v", no)
		}
	}
	if seen != 2 {
		t.Errorf("%d rejected for want of limits", seen)
	}
}

// TestCorrectionsExponentRange: an exponent from 0.1 to 1 is taken, others are not.
func TestCorrectionsExponentRange(t *testing.T) {
	for n, want := range map[float64]string{
		0.1: "", 1: "", 0.12: "", 0.09: "pressureExponent: out_of_range", 1.01: "pressureExponent: out_of_range",
	} {
		in := tooMuch()
		in.PressureExponent = n
		if _, err := calc.Corrections(in); want != refusal(err) {
			t.Errorf("%v: refused with %q, want %q", n, refusal(err), want)
		}
	}
}
