package calc_test

import (
	"math"
	"strings"
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
		"targetApplicationRate: below_label_minimum": func(in *calc.CorrectionsInput) {
			in.LabelMinimum = 101 * unit.USGallonPerAcre
		},
		"labelMaximum: not_finite":       func(in *calc.CorrectionsInput) { in.LabelMaximum = unit.ApplicationRate(noNumber) },
		"labelMinimum: not_finite":       func(in *calc.CorrectionsInput) { in.LabelMinimum = unit.ApplicationRate(endless) },
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
	// Of a target that is none no limit of the label is spoken.
	for target, want := range map[unit.ApplicationRate]string{0: "required", -1: "not_positive", unit.ApplicationRate(endless): "not_finite"} {
		in := tooMuch()
		in.TargetApplicationRate, in.LabelMaximum, in.LabelMinimum = target, 150*unit.USGallonPerAcre, 50*unit.USGallonPerAcre
		in.SprayVolumeRange = calc.RateRange{Low: in.LabelMinimum, High: in.LabelMaximum}
		got := refusal(func() error { _, err := calc.Corrections(in); return err }())
		if got != "targetApplicationRate: "+want && !math.IsInf(float64(target), 1) || strings.Contains(got, "label") {
			t.Errorf("a target of %v: %q", target, got)
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
