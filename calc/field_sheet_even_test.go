package calc_test

import (
	"testing"

	"wetrun/calc"
	"wetrun/calc/unit"
)

// TestReferenceSheetPressureLimits: plans keep to the limits given and to the nozzle's own
// range, whichever is the narrower; where they do not meet, no pressure is right. The sheet
// sprays 24.75 gal/acre at 62.5 psi; 28 is wanted of it within 5 %, which pressure alone
// gives at 62.5 x (28 / 24.75)^2 = 80.0 psi, by hand; the 26.2 at 70 psi are not within it.
func TestReferenceSheetPressureLimits(t *testing.T) {
	psi := func(low, high unit.Pressure) calc.PressureRange {
		return calc.PressureRange{Low: low * unit.PoundPerSquareInch, High: high * unit.PoundPerSquareInch}
	}
	for name, c := range map[string]struct {
		given, own calc.PressureRange
		want       bool
	}{
		"the nozzle's alone":               {calc.PressureRange{}, psi(30, 90), true},
		"the nozzle's alone, too low":      {calc.PressureRange{}, psi(30, 70), false},
		"given alone":                      {psi(30, 85), calc.PressureRange{}, true},
		"given alone, too low":             {psi(30, 70), calc.PressureRange{}, false},
		"given is the narrower":            {psi(40, 70), psi(30, 90), false},
		"the nozzle's is the narrower":     {psi(30, 90), psi(30, 70), false},
		"both hold it":                     {psi(40, 85), psi(30, 90), true},
		"they do not meet":                 {psi(10, 20), psi(30, 90), false},
		"they meet where it sprays, alone": {psi(20, 62.5), psi(62.5, 90), false},
		"none":                             {calc.PressureRange{}, calc.PressureRange{}, false},
	} {
		in := wholeSheet()
		in.Target.ApplicationRate, in.Target.RateTolerance = 28*unit.USGallonPerAcre, 5*unit.Percent
		in.Limits.SprayPressure, in.Nozzle.PressureRange = c.given, c.own
		r := mustSheet(t, in)
		found := false
		for _, p := range r.Correction.Plans {
			if p.Change == calc.ChangePressure {
				found = true
				agrees(t, name, p.PredictedApplicationRate.In(unit.USGallonPerAcre), 28, 1e-9)
			}
		}
		if found != c.want {
			t.Errorf("%s: a plan by pressure %v", name, found)
		}
	}
}

// TestReferenceSheetEvenness: a plan rests on a boom that both pressure and catches found
// in order. Without the catches, or with no readings, that is not known, and warned of.
func TestReferenceSheetEvenness(t *testing.T) {
	for name, c := range map[string]struct {
		change func(*calc.FieldSheetInput)
		warned bool
	}{
		"both": {func(*calc.FieldSheetInput) {}, false},
		"no readings": {func(in *calc.FieldSheetInput) {
			in.Pressure.Readings, in.Output.SprayPressure = nil, 62.5*unit.PoundPerSquareInch
		}, true},
		"two readings": {func(in *calc.FieldSheetInput) { in.Pressure.Readings = in.Pressure.Readings[1:] }, true},
		"one reading":  {func(in *calc.FieldSheetInput) { in.Pressure.Readings = in.Pressure.Readings[1:2] }, true},
	} {
		in := wholeSheet()
		in.Target.ApplicationRate = 20 * unit.USGallonPerAcre
		c.change(&in)
		r := mustSheet(t, in)
		warned := false
		for _, w := range r.Correction.Warnings {
			warned = warned || w.Code == calc.WarnEvennessUnknown
		}
		if warned != c.warned {
			t.Errorf("%s: warned %v, %+v", name, warned, r.Correction.Warnings)
		}
	}
}
