package calc_test

import (
	"testing"

	"wetrun/calc"
	"wetrun/calc/certainty"
	"wetrun/calc/unit"
)

// sixBeds are two drops of each of six beds, two on the left, two in the center and two on
// the right, at 1 but for some beds.
func sixBeds(change map[int][2]unit.Volume) calc.NozzleAcceptanceInput {
	in := litreRated(0.1, dozen()...)
	for i := range in.Catches {
		c := &in.Catches[i]
		c.Bed, c.Position = i/2+1, certainty.Sides[i/4]
		if off, ok := change[c.Bed]; ok {
			c.Volume = off[i%2] * unit.Litre
		}
	}
	in.CatchPointsOnBoom = 24
	return in
}

// TestReferenceABedOfAnotherSize: a bed, or a whole side, that is off alike by about a size
// while the others are in order is asked for its size once, and none of its nozzles is bought
// or cleaned. Sizes of ISO 10625 next to each other are 20 to 50 % apart. Own rule.
func TestReferenceABedOfAnotherSize(t *testing.T) {
	for _, c := range []struct {
		what   string
		change map[int][2]unit.Volume
		want   string
	}{
		{"the next size up, 025 for 02", map[int][2]unit.Volume{3: {1.25, 1.26}}, "fix_listed, bed 3 check_size"},
		{"02 for 025", map[int][2]unit.Volume{3: {0.8, 0.81}}, "fix_listed, bed 3 check_size"},
		{"a side", map[int][2]unit.Volume{5: {1.25, 1.26}, 6: {1.24, 1.27}}, "fix_listed, right check_size"},
		{"two beds of one side, unlike each other", map[int][2]unit.Volume{5: {1.25, 1.26}, 6: {1.5, 1.51}}, "fix_listed, bed 5 check_size, bed 6 check_size"},
		{"a bed, and a dirty drop elsewhere", map[int][2]unit.Volume{3: {1.25, 1.26}, 1: {1, 0.5}}, "fix_listed, 2 clean_and_recatch, bed 3 check_size"},
		{"15 % above", map[int][2]unit.Volume{3: {1.15, 1.15}}, "fix_listed, bed 3 check_size"},
		{"60 % above", map[int][2]unit.Volume{3: {1.6, 1.6}}, "fix_listed, bed 3 check_size"},
		{"13 % below", map[int][2]unit.Volume{3: {0.87, 0.87}}, "fix_listed, bed 3 check_size"},
		{"40 % below", map[int][2]unit.Volume{3: {0.6, 0.6}}, "fix_listed, bed 3 check_size"},
		{"less than a size above: worn", map[int][2]unit.Volume{3: {1.14, 1.15}}, "fix_listed, 5 replace, 6 replace"},
		{"more: looked into", map[int][2]unit.Volume{3: {1.6, 1.62}}, "fix_listed, 5 check_and_recatch, 6 check_and_recatch"},
		{"less than a size below: dirt", map[int][2]unit.Volume{3: {0.87, 0.88}}, "fix_listed, 5 clean_and_recatch, 6 clean_and_recatch"},
		{"not alike: half of the limit is 5 %", map[int][2]unit.Volume{3: {1.2, 1.28}}, "fix_listed, 5 replace, 6 replace"},
		{"one of it in order", map[int][2]unit.Volume{3: {1.25, 1}}, "fix_listed, 5 replace"},
		{"others worn too", map[int][2]unit.Volume{3: {1.25, 1.26}, 1: {1, 1.2}}, "fix_listed, 2 replace, 5 replace, 6 replace"},
	} {
		if got := toldTo(mustAccept(t, sixBeds(c.change))); got != c.want {
			t.Errorf("%s: %s, want %s", c.what, got, c.want)
		}
	}
	// By the mean alone a bed of twelve stands out as well.
	in := sixBeds(map[int][2]unit.Volume{3: {1.25, 1.26}})
	in.Nozzle, in.SprayPressure = calc.Nozzle{}, 0
	if got := toldTo(mustAccept(t, in)); got != "fix_listed, bed 3 check_size" {
		t.Errorf("by the mean: %s", got)
	}
}

// TestReferenceAGroupIsTwoPoints: the two nozzles of one drop are no bed, and the whole round
// is no part of it.
func TestReferenceAGroupIsTwoPoints(t *testing.T) {
	in := sixBeds(map[int][2]unit.Volume{3: {1.25, 1.26}})
	in.Catches[5].SamePoint = true
	if got := toldTo(mustAccept(t, in)); got != "fix_listed, 5 replace, 6 replace" {
		t.Errorf("one drop: %s", got)
	}
	in = litreRated(0.1, 1.25, 1.26)
	in.Catches[0].Bed, in.Catches[1].Bed = 3, 3
	if got := toldTo(mustAccept(t, in)); got != "fix_listed, all check_reference" {
		t.Errorf("nothing but a bed: %s", got)
	}
}

// TestReferenceAlikeByWhatInstrumentsExplain: readings that differ by 8 % are alike where a
// jug is read to 10 % of a catch: its reading has a standard uncertainty of 2.9 %.
func TestReferenceAlikeByWhatInstrumentsExplain(t *testing.T) {
	for resolution, want := range map[unit.Volume]string{
		100 * unit.Millilitre: "fix_listed, bed 3 check_size", 1 * unit.Millilitre: "fix_listed, 5 replace, 6 replace",
	} {
		in := sixBeds(map[int][2]unit.Volume{3: {1.24, 1.34}})
		in.Measuring = certainty.Measuring{Uncertainty: true, Instruments: []certainty.Instrument{
			{ID: "j", Kind: certainty.Jug, Resolution: float64(resolution), ScaleError: 1e-9}, exact("w", certainty.Stopwatch, 0), exact("g", certainty.Gauge, 0),
		}}
		if got := toldTo(mustAccept(t, in)); got != want {
			t.Errorf("read to %v: %s, want %s", resolution, got, want)
		}
	}
}
