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
		{"a side", map[int][2]unit.Volume{5: {1.2, 1.26}, 6: {1.2, 1.26}}, "fix_listed, right check_size"},
		{"two beds of one side, unlike each other", map[int][2]unit.Volume{5: {1.25, 1.26}, 6: {1.5, 1.51}}, "fix_listed, bed 5 check_size, bed 6 check_size"},
		{"a bed, and a dirty drop elsewhere", map[int][2]unit.Volume{3: {1.25, 1.26}, 1: {1, 0.5}}, "fix_listed, 2 clean_and_recatch, bed 3 check_size"},
		{"15 % above", map[int][2]unit.Volume{3: {1.15, 1.15}}, "fix_listed, bed 3 check_size"},
		{"60 % above", map[int][2]unit.Volume{3: {1.6, 1.6}}, "fix_listed, bed 3 check_size"},
		{"13 % below", map[int][2]unit.Volume{3: {0.87, 0.87}}, "fix_listed, bed 3 check_size"},
		{"40 % below", map[int][2]unit.Volume{3: {0.6, 0.6}}, "fix_listed, bed 3 check_size"},
		{"less than a size above: worn", map[int][2]unit.Volume{3: {1.14, 1.15}}, "fix_listed, 5 replace, 6 replace"},
		{"more: looked into", map[int][2]unit.Volume{3: {1.6, 1.62}}, "fix_listed, 5 check_and_recatch, 6 check_and_recatch"},
		{"more than a size below: dirt", map[int][2]unit.Volume{3: {0.59, 0.59}}, "fix_listed, 5 clean_and_recatch, 6 clean_and_recatch"},
		{"below, and not alike: 0.0424 / 0.81 = 5.2 %", map[int][2]unit.Volume{3: {0.78, 0.84}}, "fix_listed, 5 clean_and_recatch, 6 clean_and_recatch"},
		{"less than a size below: dirt", map[int][2]unit.Volume{3: {0.87, 0.88}}, "fix_listed, 5 clean_and_recatch, 6 clean_and_recatch"},
		// 1.2 and 1.28 vary by 0.0566 / 1.24 = 4.6 %, 1.2 and 1.3 by 0.0707 / 1.25 = 5.7 %.
		{"alike within half of the limit", map[int][2]unit.Volume{3: {1.2, 1.28}}, "fix_listed, bed 3 check_size"},
		{"not alike", map[int][2]unit.Volume{3: {1.2, 1.3}}, "fix_listed, 5 replace, 6 replace"},
		{"a bed that straddles the sides", map[int][2]unit.Volume{2: {1.25, 1.26}, 3: {1.25, 1.26}}, "fix_listed, bed 2 check_size, bed 3 check_size"},
		{"one of it in order", map[int][2]unit.Volume{3: {1.25, 1}}, "fix_listed, 5 replace"},
		{"others worn too", map[int][2]unit.Volume{3: {1.25, 1.26}, 1: {1, 1.2}}, "fix_listed, 2 replace, 5 replace, 6 replace"},
	} {
		if got := toldTo(mustAccept(t, sixBeds(c.change))); got != c.want {
			t.Errorf("%s: %s, want %s", c.what, got, c.want)
		}
	}
	// With a limit of 2 % they may vary by 4 %, as new nozzles do: 1.22 and 1.29 by 3.9 %,
	// 1.22 and 1.30 by 4.5 %.
	for change, want := range map[[2]unit.Volume]string{{1.22, 1.29}: "fix_listed, bed 3 check_size", {1.22, 1.3}: "fix_listed, 5 replace, 6 replace"} {
		in := sixBeds(map[int][2]unit.Volume{3: change})
		in.Tolerance.Limit = 0.02
		if got := toldTo(mustAccept(t, in)); got != want {
			t.Errorf("%v: %s, want %s", change, got, want)
		}
	}
	// By the mean alone a bed of twelve stands out as well.
	in := sixBeds(map[int][2]unit.Volume{3: {1.25, 1.26}})
	in.Nozzle, in.SprayPressure = calc.Nozzle{}, 0
	if got := toldTo(mustAccept(t, in)); got != "fix_listed, bed 3 check_size" {
		t.Errorf("by the mean: %s", got)
	}
}

// TestReferenceAQuarterInOrder: three beds of four are questioned while the fourth is in
// order, a quarter of the round; five of six are not, and it is not the beds then.
func TestReferenceAQuarterInOrder(t *testing.T) {
	off := [2]unit.Volume{1.25, 1.26}
	in := sixBeds(map[int][2]unit.Volume{1: off, 2: off, 3: off})
	in.Catches, in.CatchPointsOnBoom = in.Catches[:8], 0
	for i := range in.Catches {
		in.Catches[i].Position = certainty.Unplaced
	}
	if got := toldTo(mustAccept(t, in)); got != "fix_listed, bed 1 check_size, bed 2 check_size, bed 3 check_size" {
		t.Errorf("three of four: %s", got)
	}
	in.Catches = append(in.Catches, in.Catches[5]) // a third of bed 3: two of nine are less than a quarter
	if got := toldTo(mustAccept(t, in)); got != "replace_all, all replace_all_and_recatch" {
		t.Errorf("seven of nine: %s", got)
	}
	in = sixBeds(map[int][2]unit.Volume{1: off, 2: off, 3: off, 4: off, 5: off, 6: {1, 1}})
	if got := toldTo(mustAccept(t, in)); got != "replace_all, all replace_all_and_recatch" {
		t.Errorf("five of six: %s", got)
	}
}

// TestReferenceHalfOfAnotherSize: by the mean, of two groups the one nearer to the rating is
// right: half of the catches are of three beds with the next size up, or with one down.
func TestReferenceHalfOfAnotherSize(t *testing.T) {
	for _, size := range []unit.Volume{1.25, 0.8} {
		in := sixBeds(map[int][2]unit.Volume{1: {size, size}, 3: {size, size}, 5: {size, size}})
		in.Tolerance.Basis = calc.MeanBasis
		if got := toldTo(mustAccept(t, in)); got != "fix_listed, bed 1 check_size, bed 3 check_size, bed 5 check_size" {
			t.Errorf("%v: %s", size, got)
		}
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

// TestReferenceAlikeByWhatInstrumentsExplain: 1.24 and 1.36 vary by 0.0849 / 1.3 = 6.5 %, more
// than half of the limit of 10 %, and are alike where a jug is read to 100 mL: such a reading
// has a standard uncertainty of 2.2 % of them.
func TestReferenceAlikeByWhatInstrumentsExplain(t *testing.T) {
	for resolution, want := range map[unit.Volume]string{
		100 * unit.Millilitre: "fix_listed, bed 3 check_size", 1 * unit.Millilitre: "fix_listed, 5 replace, 6 replace",
	} {
		in := sixBeds(map[int][2]unit.Volume{3: {1.24, 1.36}})
		in.Measuring = certainty.Measuring{Uncertainty: true, Instruments: []certainty.Instrument{
			{ID: "j", Kind: certainty.Jug, Resolution: float64(resolution), ScaleError: 1e-9}, exact("w", certainty.Stopwatch, 0), exact("g", certainty.Gauge, 0),
		}}
		if got := toldTo(mustAccept(t, in)); got != want {
			t.Errorf("read to %v: %s, want %s", resolution, got, want)
		}
	}
}
