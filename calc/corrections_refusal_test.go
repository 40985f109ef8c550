package calc_test

import (
	"testing"

	"wetrun/calc"
	"wetrun/calc/unit"
)

func TestCorrectionsRefuses(t *testing.T) {
	for want, change := range map[string]func(*calc.CorrectionsInput){
		"":                                       func(*calc.CorrectionsInput) {},
		"measured.applicationRate: required":     func(in *calc.CorrectionsInput) { in.Measured.ApplicationRate = 0 },
		"measured.applicationRate: not_positive": func(in *calc.CorrectionsInput) { in.Measured.ApplicationRate = -1 },
		"measured.groundSpeed: required":         func(in *calc.CorrectionsInput) { in.Measured.GroundSpeed = 0 },
		"measured.groundSpeed: not_finite":       func(in *calc.CorrectionsInput) { in.Measured.GroundSpeed = unit.Speed(endless) },
		"measured.sprayPressure: not_positive":   func(in *calc.CorrectionsInput) { in.Measured.SprayPressure = -1 },
		"targetApplicationRate: required":        func(in *calc.CorrectionsInput) { in.TargetApplicationRate = 0 },
		"targetApplicationRate: not_finite":      func(in *calc.CorrectionsInput) { in.TargetApplicationRate = unit.ApplicationRate(noNumber) },
		"targetApplicationRate: above_label_maximum": func(in *calc.CorrectionsInput) {
			in.LabelMaximum = 99 * unit.USGallonPerAcre
		},
		"rateTolerance: not_positive":    func(in *calc.CorrectionsInput) { in.RateTolerance = -0.1 },
		"rateTolerance: not_finite":      func(in *calc.CorrectionsInput) { in.RateTolerance = unit.Ratio(noNumber) },
		"labelMaximum: not_positive":     func(in *calc.CorrectionsInput) { in.LabelMaximum = -1 },
		"pressureExponent: out_of_range": func(in *calc.CorrectionsInput) { in.PressureExponent = 1.01 },
		"limits.groundSpeed.low: required": func(in *calc.CorrectionsInput) {
			in.Limits.GroundSpeed.Low = 0
		},
		"limits.groundSpeed.high: required": func(in *calc.CorrectionsInput) {
			in.Limits.GroundSpeed.High = 0
		},
		"limits.groundSpeed.low: range_inverted": func(in *calc.CorrectionsInput) {
			in.Limits.GroundSpeed.Low = 6 * unit.MilePerHour
		},
		"limits.sprayPressure.high: required": func(in *calc.CorrectionsInput) {
			in.Limits.SprayPressure.High = 0
		},
		"limits.sprayPressure.low: range_inverted": func(in *calc.CorrectionsInput) {
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
		if _, err := calc.Corrections(in); refusal(err) != "pressureExponent: out_of_range" {
			t.Errorf("exponent %v: %q", n, refusal(err))
		}
	}
}
