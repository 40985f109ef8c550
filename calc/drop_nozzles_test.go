package calc_test

import (
	"testing"

	"pgregory.net/rapid"

	"wetrun/calc"
	"wetrun/calc/certainty"
	"wetrun/calc/unit"
)

func gallonsAt40(q float64) calc.Nozzle {
	return calc.Nozzle{RatedFlowRate: unit.FlowRate(q) * unit.USGallonPerMinute, RatedPressure: 40 * unit.PoundPerSquareInch}
}

// twoSizes is a drop of two nozzles of 0.2 and one of 0.1 gal/min, invented, that
// gave so much in 30 s.
func twoSizes(ounces float64) calc.AcceptanceCatch {
	return calc.AcceptanceCatch{
		Catch:         calc.Catch{Volume: unit.Volume(ounces) * unit.USFluidOunce, Time: 30 * unit.Second},
		NozzlesOnDrop: []calc.DropNozzle{{Nozzle: gallonsAt40(0.2), Count: 2}, {Nozzle: gallonsAt40(0.1)}},
	}
}

// TestReferenceDropOfDifferentNozzles, worked by hand. At 90 psi each nozzle gives
// sqrt(90/40) = 1.5 times its rating, so the drop (2 x 0.2 + 0.1) x 1.5 = 0.75
// gal/min, which is 0.375 gal or 48 fl oz in 30 s. Within 10 % a jug reads 43.2 to
// 52.8. 54 is 12.5 % above. A drop right on its rating gives as much as five of its
// smallest nozzle: that one may be off by 4 x 10 % while the others are within.
func TestReferenceDropOfDifferentNozzles(t *testing.T) {
	in := calc.NozzleAcceptanceInput{SprayPressure: 90 * unit.PoundPerSquareInch, Catches: []calc.AcceptanceCatch{twoSizes(48), twoSizes(54)}, ReplaceAllAbove: 1}
	r := mustAccept(t, in)
	right, above := r.Catches[0], r.Catches[1]
	agrees(t, "rated", right.RatedFlowRateAtPressure.In(unit.USGallonPerMinute), 0.75, 1e-12)
	agrees(t, "lowest reading", right.AcceptableVolume.Low.In(unit.USFluidOunce), 43.2, 1e-12)
	agrees(t, "highest reading", right.AcceptableVolume.High.In(unit.USFluidOunce), 52.8, 1e-12)
	agrees(t, "hidden", float64(right.LargestHiddenDeviation), 0.4, 1e-12)
	agrees(t, "deviation", float64(above.DeviationFromRated), 0.125, 1e-12)
	agrees(t, "flow per nozzle", above.NozzleFlowRate.In(unit.USGallonPerMinute), 0.84375/3, 1e-12)
	if r.Basis != calc.RatedBasis || right.Status != calc.StatusWithin || above.Status != calc.StatusAbove || r.Actions[0] != (calc.Action{Catch: 1, Do: calc.CatchEachNozzle}) {
		t.Errorf("%+v", r)
	}
	if r.MeanNozzleFlowRate != 0 || r.HasMean || right.InMean || r.Sides != nil || r.AcceptableFlowRate != (calc.FlowRange{}) {
		t.Errorf("unlike nozzles have no mean: %+v", r)
	}
	if got := warned(r.Warnings); got != "catches[0].nozzlesOnDrop: drop_not_in_mean; catches[0].nozzlesOnDrop: far_from_rating; catches[1].nozzlesOnDrop: drop_not_in_mean; catches[1].nozzlesOnDrop: far_from_rating" {
		t.Errorf("warned of %q", got)
	}
}

// TestReferenceMixedRound: plain drops of three at 0.2 gal/min give 3 x 0.2 x 1.5 x
// 64 = 57.6 fl oz in 30 s. The mean, its spread and the sides are theirs alone.
func TestReferenceMixedRound(t *testing.T) {
	plain := calc.AcceptanceCatch{Catch: calc.Catch{Volume: 57.6 * unit.USFluidOunce, Time: 30 * unit.Second, Nozzles: 3}, Position: certainty.Left}
	mixed := twoSizes(48)
	mixed.Position = certainty.Left
	in := calc.NozzleAcceptanceInput{Nozzle: gallonsAt40(0.2), SprayPressure: 90 * unit.PoundPerSquareInch, Catches: []calc.AcceptanceCatch{plain, mixed, plain}}
	r := mustAccept(t, in)
	agrees(t, "mean", r.MeanNozzleFlowRate.In(unit.USGallonPerMinute), 0.3, 1e-12)
	agrees(t, "spread", float64(r.CoefficientOfVariation), 0, 0)
	if len(r.Sides) != 1 || r.Sides[0].Catches != 2 || r.Catches[1].InMean || !r.Catches[0].InMean || r.Tested != 3 || r.Decision != calc.Keep {
		t.Errorf("%+v", r)
	}
	agrees(t, "rated", r.RatedFlowRateAtPressure.In(unit.USGallonPerMinute), 0.3, 1e-12)

	// At a pressure of its own: 48 fl oz x sqrt(40/90) = 32 at 40 psi is as good.
	mixed.Volume, mixed.SprayPressure = 32*unit.USFluidOunce, 40*unit.PoundPerSquareInch
	in.Catches[1] = mixed
	c := mustAccept(t, in).Catches[1]
	agrees(t, "deviation", float64(c.DeviationFromRated), 0, 0)
	agrees(t, "at the working pressure", c.NozzleFlowRateAtPressure.In(unit.USGallonPerMinute), 0.25, 1e-12)
}

// TestReferenceSheetOfDifferentNozzles: all nozzles of the drops spray, so the rate
// is of all: (0.75 + 0.75) gal/min from six nozzles are 0.25 each, and 5940 x 0.25 /
// (3 x 20) = 24.75 gal/acre.
func TestReferenceSheetOfDifferentNozzles(t *testing.T) {
	s := wholeSheet()
	s.Nozzle, s.Output.SprayPressure = calc.Nozzle{}, 90*unit.PoundPerSquareInch
	s.Output.Catches = []calc.AcceptanceCatch{twoSizes(48), twoSizes(48)}
	r := mustSheet(t, s)
	agrees(t, "rate", r.Rate.ApplicationRate.In(unit.USGallonPerAcre), 24.75, 1e-12)
}

// TestReferenceDropWarnings: a pressure that one of the drop's nozzles is not made
// for, or its chart does not reach, is said of that nozzle; that it is more than twice
// the rated one, here 145 for 40 psi, of the drop.
func TestReferenceDropWarnings(t *testing.T) {
	c := twoSizes(48)
	c.NozzlesOnDrop[0].Nozzle.PressureRange = psiRange(20, 60)
	c.NozzlesOnDrop[1].Nozzle = sheet()
	in := calc.NozzleAcceptanceInput{SprayPressure: 10 * unit.Bar, Catches: []calc.AcceptanceCatch{c}}
	want := "catches[0].nozzlesOnDrop: drop_not_in_mean; catches[0].nozzlesOnDrop[0].nozzle: pressure_outside_nozzle_range; catches[0].nozzlesOnDrop[1].nozzle: outside_flow_chart; catches[0].nozzlesOnDrop: far_from_rating"
	if got := warned(mustAccept(t, in).Warnings); got != want {
		t.Errorf("warned of %q", got)
	}
}

// TestPropertyAlikeOnADrop: a drop of one kind, said so kind by kind, is judged as
// the same drop said by the number of its nozzles.
func TestPropertyAlikeOnADrop(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 6).Draw(t, "nozzles")
		volume := unit.Volume(rapid.Float64Range(0.5, 2).Draw(t, "share")*float64(n)*19.2) * unit.USFluidOunce
		in := calc.NozzleAcceptanceInput{Nozzle: gallonsAt40(0.2), SprayPressure: 90 * unit.PoundPerSquareInch}
		in.Catches = []calc.AcceptanceCatch{{Catch: calc.Catch{Volume: volume, Time: 30 * unit.Second, Nozzles: n}}}
		plain := mustAccept(t, in).Catches[0]
		in.Catches[0].Nozzles, in.Catches[0].NozzlesOnDrop = 0, []calc.DropNozzle{{Nozzle: in.Nozzle, Count: n}}
		kind := mustAccept(t, in).Catches[0]
		if plain.Status != kind.Status {
			t.Errorf("%v and %v", plain.Status, kind.Status)
		}
		agrees(t, "hidden", float64(kind.LargestHiddenDeviation), float64(plain.LargestHiddenDeviation), 1e-9)
		agrees(t, "reading", float64(kind.AcceptableVolume.High), float64(plain.AcceptableVolume.High), 1e-12)
	})
}

func TestDropOfDifferentNozzlesRefuses(t *testing.T) {
	in := func(change func(*calc.NozzleAcceptanceInput)) calc.NozzleAcceptanceInput {
		x := calc.NozzleAcceptanceInput{SprayPressure: 90 * unit.PoundPerSquareInch, Catches: []calc.AcceptanceCatch{twoSizes(48), twoSizes(54)}}
		change(&x)
		return x
	}
	for want, x := range map[string]calc.NozzleAcceptanceInput{
		"catches[0].nozzlesOnDrop: conflict":                         in(func(x *calc.NozzleAcceptanceInput) { x.Catches[0].Nozzles = 3 }),
		"catches[1].nozzlesOnDrop[0].count: not_positive":            in(func(x *calc.NozzleAcceptanceInput) { x.Catches[1].NozzlesOnDrop[0].Count = -1 }),
		"catches[1].nozzlesOnDrop[1].nozzle.ratedPressure: required": in(func(x *calc.NozzleAcceptanceInput) { x.Catches[1].NozzlesOnDrop[1].Nozzle.RatedPressure = 0 }),
		"tolerance.basis: rated_basis_only":                          in(func(x *calc.NozzleAcceptanceInput) { x.Tolerance.Basis = calc.MeanBasis }),
		"sprayPressure: pressure_required":                           in(func(x *calc.NozzleAcceptanceInput) { x.SprayPressure = 0 }),
		"nozzle: nozzle_required":                                    in(func(x *calc.NozzleAcceptanceInput) { x.Catches[1].NozzlesOnDrop = nil }),
	} {
		if _, err := calc.NozzleAcceptance(x); refusal(err) != want {
			t.Errorf("got %q, want %q", refusal(err), want)
		}
	}
}
