package calc_test

import (
	"testing"

	"wetrun/calc"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// TestReferenceDutyCycle, worked by hand: 114 of 100 at a duty cycle of 80 % asks for
// 80 / 1.14 = 70.1754 %. With no less than 75 % the rate is 114 x 75/80 = 106.875,
// within 10 %; with no less than 78 it is 111.15, which is not.
func TestReferenceDutyCycle(t *testing.T) {
	in := tooMuch()
	in.Measured.DutyCycle = 80 * unit.Percent
	r := mustCorrect(t, in)
	if _, no := ofNozzle(r, 0, calc.ChangeDutyCycle); no == nil || no.Reason != calc.ReasonDutyCycleLimitsNotGiven {
		t.Fatalf("got %+v", r)
	}
	agrees(t, "needed", r.Rejected[0].NeededDutyCycle.In(unit.Percent), 70.1754, 1e-6)
	in.DutyCycleLimits = calc.DutyCycleRange{Low: 40 * unit.Percent, High: unit.Ratio(1)}
	p, _ := ofNozzle(mustCorrect(t, in), 0, calc.ChangeDutyCycle)
	agrees(t, "duty cycle", p.DutyCycle.In(unit.Percent), 70.1754, 1e-6)
	agrees(t, "its change", float64(p.RelativeChange), 1/1.14-1, 1e-12)
	agrees(t, "its size", p.Size, 0.131028, 1e-5) // ln 1.14
	in.DutyCycleLimits.Low = 75 * unit.Percent
	p, _ = ofNozzle(mustCorrect(t, in), 0, calc.ChangeDutyCycle)
	agrees(t, "rate at the limit", p.PredictedApplicationRate.In(unit.USGallonPerAcre), 106.875, 1e-12)
	in.DutyCycleLimits.Low = 78 * unit.Percent
	_, no := ofNozzle(mustCorrect(t, in), 0, calc.ChangeDutyCycle)
	if no.Reason != calc.ReasonBelowMinimumDutyCycle {
		t.Errorf("got %+v", no)
	}
	agrees(t, "lowest", no.DutyCycleLimit.In(unit.Percent), 78, 1e-12)
	// What stays above its limits is no plan, whatever else is changed.
	in.DutyCycleLimits = calc.DutyCycleRange{Low: 40 * unit.Percent, High: 75 * unit.Percent}
	r = mustCorrect(t, in)
	if _, no = ofNozzle(r, 0, calc.ChangeSpeed); no == nil || no.Reason != calc.ReasonStaysAboveMaximumDutyCycle {
		t.Errorf("got %+v", r)
	}
	for _, p := range r.Plans {
		if !p.Changes.Has(calc.ChangeDutyCycle) || finding.Difference(float64(p.Attempt.To.DutyCycle), 0.75) > 0 {
			t.Errorf("above its limit: %+v", p)
		}
	}
	in.BoomEven = calc.BoomUneven
	if r = mustCorrect(t, in); len(r.Rejected) != 3 {
		t.Errorf("got %+v", r)
	}
}

// TestReferenceDutyCycleWithNozzle: 0.5 for 0.3 gal/min gives 25 of 20, which a duty
// cycle of 60 x 20/25 = 48 % puts right.
func TestReferenceDutyCycleWithNozzle(t *testing.T) {
	in := shelved()
	in.Measured.DutyCycle = 60 * unit.Percent
	in.DutyCycleLimits = calc.DutyCycleRange{Low: 40 * unit.Percent, High: 1}
	p, _ := ofNozzle(mustCorrect(t, in), 3, calc.ChangeNozzle, calc.ChangeDutyCycle)
	agrees(t, "duty cycle", p.DutyCycle.In(unit.Percent), 48, 1e-12)
}

func TestCorrectionsDutyRefuses(t *testing.T) {
	for want, change := range map[string]func(*calc.CorrectionsInput){
		"":                                     func(*calc.CorrectionsInput) {},
		"measured.dutyCycle: required":         func(in *calc.CorrectionsInput) { in.Measured.DutyCycle = 0 },
		"measured.dutyCycle: over_100_percent": func(in *calc.CorrectionsInput) { in.Measured.DutyCycle = 1.01 },
		"measured.dutyCycle: not_positive": func(in *calc.CorrectionsInput) {
			in.Measured.DutyCycle, in.DutyCycleLimits = -1, calc.DutyCycleRange{}
		},
		"dutyCycleLimits.high: over_100_percent": func(in *calc.CorrectionsInput) { in.DutyCycleLimits.High = 1.01 },
		"dutyCycleLimits.low: range_inverted":    func(in *calc.CorrectionsInput) { in.DutyCycleLimits.High = 0.1 },
	} {
		in := tooMuch()
		in.Measured.DutyCycle = 1
		in.DutyCycleLimits = calc.DutyCycleRange{Low: 0.2, High: 1}
		change(&in)
		if _, err := calc.Corrections(in); refusal(err) != want {
			t.Errorf("got %q, want %q", refusal(err), want)
		}
	}
}
