package calc_test

import (
	"math"
	"slices"
	"testing"

	"wetrun/calc"
	"wetrun/calc/certainty"
	"wetrun/calc/unit"
)

// TestReferenceSheetOutsideItsSpeed, by hand: the sheet sprays 24.75 gal/acre at 3 mph and
// 62.5 psi. Where 2.5 mph are allowed and 20 are wanted, it is 29.7 at 2.5 mph; 62.5 x
// (20/29.7)^2 = 28.3 psi is under the 30 of the nozzle, where it is 29.7 x sqrt(30/62.5) =
// 20.58. No plan leaves the speed at 3.
func TestReferenceSheetOutsideItsSpeed(t *testing.T) {
	in := wholeSheet()
	in.Target.ApplicationRate = 20 * unit.USGallonPerAcre
	in.Limits.GroundSpeed.High = 2.5 * unit.MilePerHour
	plans := mustSheet(t, in).Correction.Plans
	if len(plans) != 1 || plans[0].Change != calc.ChangeCombined || !plans[0].AtLimit {
		t.Fatalf("%+v", plans)
	}
	agrees(t, "speed", plans[0].GroundSpeed.In(unit.MilePerHour), 2.5, 1e-12)
	agrees(t, "pressure", plans[0].SprayPressure.In(unit.PoundPerSquareInch), 30, 1e-12)
	agrees(t, "rate", plans[0].PredictedApplicationRate.In(unit.USGallonPerAcre), 29.7*math.Sqrt(30/62.5), 1e-12)
}

// TestReferenceSheetOutsideTheNozzlesRange, by hand: at the 60 psi that the nozzle is made
// for at most, 24.75 gal/acre are 24.75 x sqrt(60/62.5) = 24.25, within 10 % of 25, and 25
// at 2.91 mph. Before, no plan was looked for. Where catches at 61 psi are in range and the
// boom at 62.5 is not, none is: which of them would be moved?
func TestReferenceSheetOutsideTheNozzlesRange(t *testing.T) {
	in := wholeSheet()
	in.Nozzle.PressureRange.High = 60 * unit.PoundPerSquareInch
	r := mustSheet(t, in)
	if r.Correction == nil {
		t.Fatal("no correction")
	}
	one, both := planned(*r.Correction, 0, calc.ChangePressure), planned(*r.Correction, 0, calc.ChangeSpeed, calc.ChangePressure)
	if one == nil || both == nil || planned(*r.Correction, 0, calc.ChangeSpeed) != nil {
		t.Fatalf("%+v", r.Correction.Plans)
	}
	rate := 24.75 * math.Sqrt(60/62.5)
	agrees(t, "pressure", one.SprayPressure.In(unit.PoundPerSquareInch), 60, 1e-12)
	agrees(t, "rate", one.PredictedApplicationRate.In(unit.USGallonPerAcre), rate, 1e-12)
	agrees(t, "pressure", both.SprayPressure.In(unit.PoundPerSquareInch), 60, 1e-12)
	agrees(t, "speed", both.GroundSpeed.In(unit.MilePerHour), 3*rate/25, 1e-12)
	for _, w := range r.Correction.Warnings {
		if w.Code == calc.WarnEvennessUnknown {
			t.Errorf("the boom is even, whatever the pressure: %+v", r.Correction.Warnings)
		}
	}
	// A drop that is low comes first, and a controller holds the rate at any pressure.
	for name, change := range map[string]func(*calc.FieldSheetInput){
		"uneven": func(in *calc.FieldSheetInput) { in.Output.Catches[1].Volume *= 0.8 },
		"held":   func(in *calc.FieldSheetInput) { in.RateController = true },
	} {
		other := in
		other.Output.Catches = slices.Clone(in.Output.Catches)
		change(&other)
		if r := mustSheet(t, other); r.RateStatus != calc.Passed || r.Correction != nil {
			t.Errorf("%s: rate %v, %+v", name, r.RateStatus, r.Correction)
		}
	}
	in.Nozzle.PressureRange.High, in.Output.SprayPressure = 62*unit.PoundPerSquareInch, 61*unit.PoundPerSquareInch
	if r = mustSheet(t, in); r.Correction != nil {
		t.Errorf("%+v", r.Correction.Plans)
	}
}

// TestSheetPlansKeepTheLabelSurely: over a label's maximum the plans of a sheet whose
// uncertainty is known are predicted so far below it that the rate, known as well as now,
// keeps it with 95 %. The same of its minimum, above it.
func TestSheetPlansKeepTheLabelSurely(t *testing.T) {
	for _, label := range []calc.SheetTarget{
		{ApplicationRate: 24 * unit.USGallonPerAcre, LabelMaximum: 24.2 * unit.USGallonPerAcre},
		{ApplicationRate: 25 * unit.USGallonPerAcre, LabelMinimum: 24.9 * unit.USGallonPerAcre},
	} {
		in := wholeSheet()
		in.Target, in.Measuring.Uncertainty = label, true
		r := mustSheet(t, in)
		if r.RateStatus != calc.Failed || r.Correction == nil || len(r.Correction.Plans) == 0 {
			t.Fatalf("rate %v, %+v", r.RateStatus, r.Correction)
		}
		for _, p := range r.Correction.Plans {
			u := r.Rate.Uncertainty.ApplicationRate
			x := float64(p.PredictedApplicationRate)
			u.Standard *= x / float64(r.Rate.ApplicationRate)
			low, high := certainty.Unlimited, math.Inf(1)
			if label.LabelMaximum != 0 {
				high = float64(label.LabelMaximum)
			} else {
				low = float64(label.LabelMinimum)
			}
			if sure := certainty.ConformanceProbability(x, &u, low, high); sure < 0.95 {
				t.Errorf("kept with %v: %+v", sure, p)
			}
			if p.Aim == 0 {
				t.Errorf("the target is too near to the label: %+v", p)
			}
		}
	}
}
