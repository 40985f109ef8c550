package calc_test

import (
	"testing"

	"wetrun/calc"
	"wetrun/calc/unit"
)

func TestCorrectionsRefuses(t *testing.T) {
	for want, change := range map[string]func(*calc.CorrectionsInput){
		"":                                       func(*calc.CorrectionsInput) {},
		"Measured.ApplicationRate: required":     func(in *calc.CorrectionsInput) { in.Measured.ApplicationRate = 0 },
		"Measured.ApplicationRate: not_positive": func(in *calc.CorrectionsInput) { in.Measured.ApplicationRate = -1 },
		"Measured.GroundSpeed: required":         func(in *calc.CorrectionsInput) { in.Measured.GroundSpeed = 0 },
		"Measured.GroundSpeed: not_finite":       func(in *calc.CorrectionsInput) { in.Measured.GroundSpeed = unit.Speed(endless) },
		"Measured.SprayPressure: not_positive":   func(in *calc.CorrectionsInput) { in.Measured.SprayPressure = -1 },
		"TargetApplicationRate: required":        func(in *calc.CorrectionsInput) { in.TargetApplicationRate = 0 },
		"TargetApplicationRate: not_finite":      func(in *calc.CorrectionsInput) { in.TargetApplicationRate = unit.ApplicationRate(noNumber) },
		"TargetApplicationRate: above_label_maximum": func(in *calc.CorrectionsInput) {
			in.LabelMaximum = 99 * unit.USGallonPerAcre
		},
		"RateTolerance: not_positive":    func(in *calc.CorrectionsInput) { in.RateTolerance = -0.1 },
		"RateTolerance: not_finite":      func(in *calc.CorrectionsInput) { in.RateTolerance = unit.Ratio(noNumber) },
		"LabelMaximum: not_positive":     func(in *calc.CorrectionsInput) { in.LabelMaximum = -1 },
		"PressureExponent: out_of_range": func(in *calc.CorrectionsInput) { in.PressureExponent = 1.01 },
		"Limits.GroundSpeed.Low: required": func(in *calc.CorrectionsInput) {
			in.Limits.GroundSpeed.Low = 0
		},
		"Limits.GroundSpeed.High: required": func(in *calc.CorrectionsInput) {
			in.Limits.GroundSpeed.High = 0
		},
		"Limits.GroundSpeed.Low: range_inverted": func(in *calc.CorrectionsInput) {
			in.Limits.GroundSpeed.Low = 6 * unit.MilePerHour
		},
		"Limits.SprayPressure.High: required": func(in *calc.CorrectionsInput) {
			in.Limits.SprayPressure.High = 0
		},
		"Limits.SprayPressure.Low: range_inverted": func(in *calc.CorrectionsInput) {
			in.Limits.SprayPressure.Low = 91 * unit.PoundPerSquareInch
		},
	} {
		in := tooMuch()
		change(&in)
		if _, err := calc.Corrections(in); refusal(err) != want {
			t.Errorf("got %q, want %q", refusal(err), want)
		}
	}
	for _, n := range []float64{noNumber, endless, -0.5, 0.09} {
		in := tooMuch()
		in.PressureExponent = n
		if _, err := calc.Corrections(in); refusal(err) != "PressureExponent: out_of_range" {
			t.Errorf("exponent %v: %q", n, refusal(err))
		}
	}
}
