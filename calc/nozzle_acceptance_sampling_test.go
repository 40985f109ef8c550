package calc_test

import (
	"fmt"
	"slices"
	"testing"

	"wetrun/calc"
	"wetrun/calc/certainty"
	"wetrun/calc/unit"
)

// TestReferenceOutliersOfCatches: invented readings, worked by hand.
func TestReferenceOutliersOfCatches(t *testing.T) {
	dozen := []unit.Volume{1, 1.01, 0.99, 1.02, 0.98, 1, 1.01, 0.99, 1, 1.01, 0.99, 1}
	with := func(change func(*calc.NozzleAcceptanceInput)) calc.NozzleAcceptanceInput {
		in := litreRated(0.1, slices.Clone(dozen)...)
		change(&in)
		return in
	}
	for _, c := range []struct {
		what string
		in   calc.NozzleAcceptanceInput
		want string
	}{
		{"even", with(func(*calc.NozzleAcceptanceInput) {}), "[]"},
		{"one high", with(func(in *calc.NozzleAcceptanceInput) { in.Catches[4].Volume = 1.06 * unit.Litre }), "[4]"},
		{"high and low", with(func(in *calc.NozzleAcceptanceInput) {
			in.Catches[4].Volume, in.Catches[7].Volume = 1.08*unit.Litre, 0.92*unit.Litre
		}), "[7 4]"},
		// 8 % more flow at (1.08 / 1)² of the pressure is no more at all.
		{"another pressure", with(func(in *calc.NozzleAcceptanceInput) {
			in.Catches[4].Volume, in.Catches[4].SprayPressure = 1.08*unit.Litre, 3*1.08*1.08*unit.Bar
		}), "[]"},
		// One mark of the jug, 5 mL, is nearer than half a second of a minute, 8.3 mL.
		{"one mark", func() calc.NozzleAcceptanceInput {
			in := litreRated(0.1, slices.Repeat([]unit.Volume{1}, 12)...)
			in.Catches[3].Volume = 1.005 * unit.Litre
			return in
		}(), "[]"},
		{"two marks", func() calc.NozzleAcceptanceInput {
			in := litreRated(0.1, slices.Repeat([]unit.Volume{1}, 12)...)
			in.Catches[3].Volume = 1.01 * unit.Litre
			return in
		}(), "[3]"},
		{"six", litreRated(0.1, 1, 1, 1, 1, 1, 1.5), "[]"},
		{"alike", litreRated(0.1, slices.Repeat([]unit.Volume{1}, 12)...), "[]"},
		// Of drops of two sorts, those of the usual number of nozzles are compared.
		{"a drop among nozzles", with(func(in *calc.NozzleAcceptanceInput) {
			in.Catches[0].Volume, in.Catches[0].Nozzles = 3.3*unit.Litre, 3
			in.Catches[4].Volume = 1.06 * unit.Litre
		}), "[4]"},
		{"half and half", with(func(in *calc.NozzleAcceptanceInput) {
			in.Catches[4].Volume = 1.5 * unit.Litre
			for i := range 6 {
				in.Catches[i].Nozzles = 2
				in.Catches[i].Volume *= 2
			}
		}), "[]"},
		{"different nozzles", with(func(in *calc.NozzleAcceptanceInput) {
			in.Catches[4].Volume = 3 * unit.Litre
			in.Catches[4].NozzlesOnDrop = []calc.DropNozzle{{Nozzle: in.Nozzle}}
		}), "[]"},
	} {
		var found []int
		for _, x := range mustAccept(t, c.in).Outliers {
			found = append(found, x.Value)
		}
		if got := fmt.Sprint(found); got != c.want {
			t.Errorf("%s: %s, want %s", c.what, got, c.want)
		}
	}
}

// TestReferenceSidesToGoOn: catches that are placed tell where to go on: here the right has
// one fewer.
func TestReferenceSidesToGoOn(t *testing.T) {
	in := litreRated(0.1, 1, 1, 1.2, 1, 1)
	for i, side := range []certainty.Position{certainty.Left, certainty.Left, certainty.Center, certainty.Center, certainty.Right} {
		in.Catches[i].Position = side
	}
	if r := mustAccept(t, in); !slices.Equal(r.Sampling.MoreOn, []certainty.Position{certainty.Right}) {
		t.Errorf("go on at %v: %+v", r.Sampling.MoreOn, r.Sampling)
	}
	in.Catches[0].Position = certainty.Unplaced // perhaps at the right
	if r := mustAccept(t, in); r.Sampling.More == 0 || r.Sampling.MoreOn != nil {
		t.Errorf("go on at %v: %+v", r.Sampling.MoreOn, r.Sampling)
	}
}

// TestReferenceSamplingCountsDrops: a drop of which each nozzle was caught alone is
// one point of the boom, and outside when one of its nozzles is.
func TestReferenceSamplingCountsDrops(t *testing.T) {
	in := litreRated(0.1, 1, 1.2, 1.3, 1, 1)
	for i := 1; i < 3; i++ {
		in.Catches[i+1].SamePoint = true
	}
	in.CatchPointsOnBoom = 3
	r := mustAccept(t, in)
	if statuses(r) != "waaww" || !r.Sampling.Known || r.Sampling.LowPoints != 1 || r.Sampling.HighPoints != 1 {
		t.Errorf("%s: %+v", statuses(r), r.Sampling)
	}
	in.CatchPointsOnBoom = 2
	if _, err := calc.NozzleAcceptance(in); refusal(err) != "catchPointsOnBoom: fewer_than_caught" {
		t.Errorf("refused with %q", refusal(err))
	}
}

// TestReferenceScatterCountsDrops: ten points of twelve, one or two of them caught nozzle by
// nozzle, leave 1 - 10 / 12 of the boom uncaught, however many catches they are.
func TestReferenceScatterCountsDrops(t *testing.T) {
	for _, twice := range []int{0, 1, 2} {
		in := litreRated(0.1, 1, 1.02, 0.98, 1, 1.02, 0.98, 1, 1.02, 0.98, 1)
		for range twice {
			again := in.Catches[len(in.Catches)-1]
			again.SamePoint = true
			in.Catches = slices.Insert(in.Catches, 1, again)
		}
		in.CatchPointsOnBoom = 12
		in.Measuring = certainty.Measuring{Uncertainty: true, Explain: true}
		r := mustAccept(t, in)
		of := r.Uncertainty.MeanNozzleFlowRate.Parts.Catches
		agrees(t, "share caught", of.Caught, 10.0/12, 1e-12)
		if twice == 2 {
			in.CatchPointsOnBoom = 10 // every one of them
			r = mustAccept(t, in)
			agrees(t, "share caught of all", r.Uncertainty.MeanNozzleFlowRate.Parts.Catches.Caught, 1, 1e-12)
		}
	}
}
