package calc_test

import (
	"strings"
	"testing"

	"wetrun/calc"
	"wetrun/calc/certainty"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// TestReferenceRateBasisDoubtful, by hand: beds of 40 in every 64 in are 0.625 of the field.
// A rate of 62.5 or of 160 per treated acre with 100 wanted is off by just that, within 3 %
// of it; 100 is in order, and 70 or 90 is off by something else. So it is where the target
// is per field acre. Where the bed is as wide as the row nothing is doubtful.
func TestReferenceRateBasisDoubtful(t *testing.T) {
	for _, c := range []struct {
		rate, width float64
		basis       calc.RateBasis
		want        bool
	}{
		{62.5, 40, calc.RateBasisTreated, true}, {160, 40, calc.RateBasisTreated, true},
		{62.5 * 1.029, 40, calc.RateBasisTreated, true}, {62.5 * 1.031, 40, calc.RateBasisTreated, false},
		{160 * 0.971, 40, calc.RateBasisTreated, true}, {160 * 0.969, 40, calc.RateBasisTreated, false},
		{100, 40, calc.RateBasisTreated, false}, {70, 40, calc.RateBasisTreated, false}, {90, 40, calc.RateBasisTreated, false},
		{100, 40, calc.RateBasisField, true}, {256, 40, calc.RateBasisField, true}, {160, 40, calc.RateBasisField, false},
		{85, 64, calc.RateBasisTreated, false}, {101, 63, calc.RateBasisTreated, false},
	} {
		r := mustApplicationRate(t, calc.ApplicationRateInput{
			ApplicationRate: unit.ApplicationRate(c.rate) * unit.USGallonPerAcre, GroundSpeed: 3 * unit.MilePerHour,
			Width: unit.Length(c.width) * unit.Inch, Nozzles: 4, RowSpacing: 64 * unit.Inch,
			TargetApplicationRate: 100 * unit.USGallonPerAcre, RateBasis: c.basis,
		})
		if warns := strings.Contains(warned(r.Warnings), "rateBasis: "+calc.WarnRateBasisDoubtful); r.BasisDoubtful != c.want || warns != c.want {
			t.Errorf("%+v: doubtful %v, warned of %q", c, r.BasisDoubtful, warned(r.Warnings))
		}
	}
	in := wholeSheet() // 24.75 per treated acre; 80 in every 100 in are 19.8 per field acre
	in.Machine.RowSpacing, in.Target.RateBasis, in.Target.ApplicationRate = 100*unit.Inch, calc.RateBasisField, 24.75*unit.USGallonPerAcre
	if r := mustSheet(t, in); !r.Rate.BasisDoubtful || !strings.Contains(warned(r.Rate.Warnings), "target.rateBasis: "+calc.WarnRateBasisDoubtful) {
		t.Errorf("on a sheet: %+v", r.Rate)
	}
}

// TestReferenceLabelMinimumOfARate: 100 keep a minimum of 100 and of 99, and not one of 101;
// no target may be below it.
func TestReferenceLabelMinimumOfARate(t *testing.T) {
	in := calc.ApplicationRateInput{ApplicationRate: 100 * unit.USGallonPerAcre, GroundSpeed: 3 * unit.MilePerHour, SprayedWidthPerNozzle: 20 * unit.Inch}
	if r := mustApplicationRate(t, in); r.LabelMinimumVerdict != 0 {
		t.Errorf("none given: %v", r.LabelMinimumVerdict)
	}
	for least, want := range map[unit.ApplicationRate]finding.Verdict{99: finding.Within, 100: finding.Within, 101: finding.Outside} {
		in.LabelMinimum = least * unit.USGallonPerAcre
		if r := mustApplicationRate(t, in); r.LabelMinimumVerdict != want {
			t.Errorf("%v: %v", least, r.LabelMinimumVerdict)
		}
		in.TargetApplicationRate = 100 * unit.USGallonPerAcre
		_, err := calc.ApplicationRate(in)
		sheet := wholeSheet()
		sheet.Target.LabelMinimum = least / 4 * unit.USGallonPerAcre // of a target of 25
		_, refused := calc.FieldSheet(sheet)
		if want := map[bool]string{true: "targetApplicationRate: below_label_minimum"}[least == 101]; refusal(err) != want {
			t.Errorf("%v: refused with %q, want %q", least, refusal(err), want)
		} else if (refusal(refused) == "target.applicationRate: below_label_minimum") != (least == 101) {
			t.Errorf("%v on a sheet: refused with %q", least, refusal(refused))
		}
		in.TargetApplicationRate = 0
	}
}

// TestReferenceLabelOfAStatedRate, by hand, with z of the normal distribution from a table: of
// 25.74 gal/acre known to 1.64012 %, 0.422167, a least of 24.5 is 1.24 / 0.422167 = 2.937
// below: 0.99834. A label of one rate alone is met by no rate exactly. Without rows there is
// no rate per field.
func TestReferenceLabelOfAStatedRate(t *testing.T) {
	in := calc.ApplicationRateInput{
		NozzleFlowRate: 0.26 * unit.USGallonPerMinute, GroundSpeed: 3 * unit.MilePerHour, SprayedWidthPerNozzle: 20 * unit.Inch,
		LabelMinimum:          24.5 * unit.USGallonPerAcre,
		StandardUncertainties: calc.RateStandards{NozzleFlowRate: 0.012, GroundSpeed: 0.01, SprayedWidthPerNozzle: 0.005},
	}
	u := mustApplicationRate(t, in).Uncertainty
	agrees(t, "above the least", float64(u.UnderLabel.Probability), 0.99834, 1e-4)
	if u.FieldApplicationRate.Budget != (certainty.Budget{}) {
		t.Errorf("per field: %+v", u.FieldApplicationRate)
	}
	in.LabelMaximum = in.LabelMinimum
	if u = mustApplicationRate(t, in).Uncertainty; u.UnderLabel.Conformance != certainty.SurelyOutside {
		t.Errorf("of one rate: %+v", u.UnderLabel)
	}
	// A most alone bounds no other way: twice a rate known to 100 % is one of these above it.
	in.LabelMaximum, in.LabelMinimum, in.StandardUncertainties = 2*25.74*unit.USGallonPerAcre, 0, calc.RateStandards{NozzleFlowRate: 1}
	agrees(t, "under the most", float64(mustApplicationRate(t, in).Uncertainty.UnderLabel.Probability), 0.84134, 1e-4)
	in.LabelMaximum = 0
	if u = mustApplicationRate(t, in).Uncertainty; u.UnderLabel != (certainty.Conformity{}) {
		t.Errorf("without a label: %+v", u.UnderLabel)
	}
}
