package calc_test

import (
	"math"
	"testing"

	"wetrun/calc"
	"wetrun/calc/unit"
)

// TestReferenceFieldSheetRate holds the rates: 24.75 gal/acre by the arithmetic
// beside wholeSheet; with beds of 80 in every 100 in, 24.75 x 0.8 = 19.8 per field
// acre; a liquid of 1.28 flows 1 / sqrt(1.28) = 0.883883 as fast, 21.87612.
func TestReferenceFieldSheetRate(t *testing.T) {
	in := wholeSheet()
	in.Machine.RowSpacing = 100 * unit.Inch
	in.Target.RateBasis = calc.RateBasisField
	in.Target.ApplicationRate = 16.5 * unit.USGallonPerAcre // 19.8 is 20 % over: drive 3 x 1.2 = 3.6 mph
	in.Limits.SprayPressure = calc.PressureRange{Low: 20 * unit.PoundPerSquareInch, High: 95 * unit.PoundPerSquareInch}
	r := mustSheet(t, in)
	close := func(got, want float64) {
		t.Helper()
		if math.Abs(got/want-1) > 1e-6 {
			t.Errorf("got %v, want %v", got, want)
		}
	}
	close(r.Rate.ApplicationRate.In(unit.USGallonPerAcre), 24.75)
	close(r.Rate.FieldApplicationRate.In(unit.USGallonPerAcre), 19.8)
	close(r.Speed.GroundSpeed.In(unit.MilePerHour), 3)
	if len(r.Correction.Plans) == 0 || r.Correction.Plans[0].Change != calc.ChangePressure && r.Correction.Plans[0].Change != calc.ChangeSpeed {
		t.Fatalf("%+v", r.Correction)
	}
	for _, p := range r.Correction.Plans {
		if p.Change == calc.ChangeSpeed {
			close(p.GroundSpeed.In(unit.MilePerHour), 3.6)
		} else { // 62.5 x (16.5 / 19.8)^2 = 43.40278 psi
			close(p.SprayPressure.In(unit.PoundPerSquareInch), 43.4027778)
		}
	}
	in.Limits.SprayPressure = calc.PressureRange{Low: 45 * unit.PoundPerSquareInch, High: 95 * unit.PoundPerSquareInch}
	for _, p := range mustSheet(t, in).Correction.Plans {
		if p.Change == calc.ChangePressure { // stopped at 45 psi: 19.8 x sqrt(45 / 62.5) = 16.80086
			close(p.SprayPressure.In(unit.PoundPerSquareInch), 45)
			close(p.PredictedApplicationRate.In(unit.USGallonPerAcre), 16.8008571)
		}
	}
	dense := wholeSheet()
	dense.RelativeDensity = 1.28
	close(mustSheet(t, dense).Rate.ApplicationRate.In(unit.USGallonPerAcre), 21.8761161)
	plain := wholeSheet()
	plain.Machine = calc.Machine{SprayedWidthPerNozzle: 20 * unit.Inch}
	close(mustSheet(t, plain).Rate.ApplicationRate.In(unit.USGallonPerAcre), 24.75)
}

// TestReferenceRateOfRunsThatDiffer: 88 ft in 20 and in 25 s are 3 and 2.4 mph, 22 %
// apart. The rate between them is computed, but neither passed nor failed, whatever
// the target; over the label's maximum it fails all the same.
func TestReferenceRateOfRunsThatDiffer(t *testing.T) {
	for _, c := range []struct {
		target, label float64 // gal/acre
		want          calc.PartStatus
	}{
		{27.8, 0, calc.NotDone}, {20, 0, calc.NotDone}, {27.8, 28, calc.NotDone}, {20, 25, calc.Failed},
	} {
		in := wholeSheet()
		in.Speed.Runs[1].Time = 25 * unit.Second
		in.Target = calc.SheetTarget{ApplicationRate: unit.ApplicationRate(c.target) * unit.USGallonPerAcre, LabelMaximum: unit.ApplicationRate(c.label) * unit.USGallonPerAcre}
		in.Cost.PerArea = 1
		r := mustSheet(t, in)
		if r.RateStatus != c.want || r.Rate == nil || r.Correction != nil || r.HasCost || r.Verdict != calc.NotReady {
			t.Errorf("target %v, label %v: rate %v, correction %v, cost %v, verdict %v", c.target, c.label, r.RateStatus, r.Correction, r.HasCost, r.Verdict)
		}
		// Total length over total time, 176 ft in 45 s: 24.75 x 3 / 2.6667 gal/acre.
		agrees(t, "rate", r.Rate.ApplicationRate.In(unit.USGallonPerAcre), 27.84375, 1e-9)
	}
}

// TestPublishedDeviationCost: a tenth too much at 25 dollars an acre costs 2.50
// dollars an acre, 2500 dollars on a thousand acres. Source: 60 Ways Farmers Can
// Protect Surface Water, no. 55, University of Illinois, no year,
// http://thisland.illinois.edu/60ways/60ways_55.html
func TestPublishedDeviationCost(t *testing.T) {
	in := wholeSheet()
	in.Target.ApplicationRate = 22.5 * unit.USGallonPerAcre // 24.75 is a tenth over
	in.Cost = calc.SheetCost{PerArea: 25 / float64(unit.Acre), Area: 1000 * unit.Acre}
	r := mustSheet(t, in)
	if perAcre := r.CostPerArea * float64(unit.Acre); !r.HasCost || math.Abs(perAcre-2.5) > 1e-9 || math.Abs(r.CostTotal-2500) > 1e-6 {
		t.Errorf("%v an acre, %v in all", perAcre, r.CostTotal)
	}
	// Over the label's maximum it is wasted all the same.
	in.Target.LabelMaximum = 23 * unit.USGallonPerAcre
	if over := mustSheet(t, in); over.RateStatus != calc.Failed || !over.HasCost || over.CostTotal != r.CostTotal {
		t.Errorf("over the label's maximum: rate %v, cost %v, %v in all", over.RateStatus, over.HasCost, over.CostTotal)
	}
}
