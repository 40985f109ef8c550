package certainty

import (
	"math"
	"testing"

	"wetrun/calc/unit"
)

// Worked by hand: 0.75^10 = 0.0563 and 0.75^11 = 0.0422, so 11 where the points are not
// known. Of 27 points 6 may be outside; with 7 outside none is among 8 with the chance
// C(20,8)/C(27,8) = 125970/2220075 = 0.0567, among 9 with C(20,9)/C(27,9) = 167960/4686825 =
// 0.0358. Of 20 points 5 may be; with 6 outside none is among 6 with C(14,6)/C(20,6) = 3003/38760
// = 0.0775, among 7 with 3432/77520 = 0.0443. Of 4 points 1 may be: with 2 outside none is among 2 with 1/6, among 3 with 0.
func TestReferenceCatchesNeeded(t *testing.T) {
	for _, c := range []struct {
		points int
		limit  unit.Ratio
		want   int
	}{
		{0, 0, 11}, {0, 0.25, 11}, {27, 0.25, 9}, {20, 0.25, 7}, {300, 0.25, 11}, {4, 0.25, 3}, {1, 0.25, 1},
		{0, 0.1, 29}, // 0.9^28 = 0.0523, 0.9^29 = 0.0471
		{0, 0.95, 1}, // one is wrong with 5 %, and no more
		{0, 1, 1}, {9, 1, 1},
	} {
		if got := CatchesNeeded(c.points, c.limit); got != c.want {
			t.Errorf("CatchesNeeded(%d, %g) = %d, want %d", c.points, float64(c.limit), got, c.want)
		}
	}
}

// The chances that twelve catches leave, with 0 to 3 outside, are 0.8, 8, 27 and 52 % (of
// beta(x + 1/2, 12 - x + 1/2) above a quarter, by numerical integration below): up to two
// speak for a long boom, three do not.
func TestReferenceMoreInOrder(t *testing.T) {
	for outside, chance := range []float64{0.008, 0.08, 0.27, 0.52} {
		in := SamplingInput{Caught: 12, Outside: outside}
		if by := aboveQuarter(outside, 12); math.Abs(by-chance) > 0.006 {
			t.Errorf("%d outside: %.4f by integration, want about %g", outside, by, chance)
		}
		if more := in.MoreInOrder(); (more == 0) != (chance < 1./3) {
			t.Errorf("%d of 12 outside: %d more", outside, more)
		}
	}
	three := SamplingInput{Caught: 12, Outside: 3}
	n := 12
	for aboveQuarter(3, n) > 1./3 {
		n++
	}
	if more := three.MoreInOrder(); more != n-12 {
		t.Errorf("3 of 12 outside: %d more, want %d", more, n-12)
	}
	for _, c := range []struct {
		in   SamplingInput
		more int
	}{
		{SamplingInput{Caught: 6}, 5},                                        // to 11
		{SamplingInput{Caught: 6, CatchPointsOnBoom: 27}, 3},                 // to 9
		{SamplingInput{Caught: 6, CatchPointsOnBoom: 300}, 5},                // to 11
		{SamplingInput{Caught: 4, CatchPointsOnBoom: 4}, 0},                  // all of them
		{SamplingInput{Caught: 3, Outside: 1, CatchPointsOnBoom: 4}, 1},      // one of three is more than a quarter, of four it is not
		{SamplingInput{Caught: 5, Outside: 5, CatchPointsOnBoom: 5}, 0},      // there are no others
		{SamplingInput{Caught: 10, Outside: 10, CatchPointsOnBoom: 300}, -1}, // 30 more at least, or a quarter would be outside
	} {
		got := c.in.MoreInOrder()
		if c.more >= 0 && got != c.more || c.more < 0 && got < 30 {
			t.Errorf("%+v: %d more, want %d", c.in, got, c.more)
		}
	}
}

// By hand: with none of 12 outside, the upper end is 1 - 0.025^(1/12) = 0.2647, of 13 it is
// 0.2471: one more settles it. Of 27 points 7 outside leave none among 12 with the chance
// C(20,12)/C(27,12) = 0.0072: settled already. Of 300, 76 outside leave none among 12 with about
// 0.7467^12 = 0.030 (0.0285 without putting back), among 13 with 0.0209. Where one of three was
// outside, of four, the last may be, too, with 1/2 or more, until it is caught.
func TestReferenceMoreToSettle(t *testing.T) {
	for _, c := range []struct {
		in   SamplingInput
		more int
	}{
		{SamplingInput{Caught: 12}, 1}, {SamplingInput{Caught: 13}, 0},
		{SamplingInput{Caught: 12, CatchPointsOnBoom: 27}, 0}, {SamplingInput{Caught: 12, CatchPointsOnBoom: 300}, 1},
		{SamplingInput{Caught: 3, Outside: 3, CatchPointsOnBoom: 4}, 0}, // above it already
		{SamplingInput{Caught: 3, Outside: 1, CatchPointsOnBoom: 4}, 1}, {SamplingInput{CatchPointsOnBoom: 1}, 1},
	} {
		if got := c.in.MoreToSettle(); got != c.more {
			t.Errorf("%+v: %d more, want %d", c.in, got, c.more)
		}
	}
}

// aboveQuarter integrates beta(x + 1/2, n - x + 1/2) above 1/4, after p = sin² u, which takes
// its ends away.
func aboveQuarter(outside, caught int) float64 {
	a, b := float64(outside), float64(caught-outside)
	var above, all float64
	const steps = 20000
	for i := range steps {
		u := (float64(i) + 0.5) / steps * math.Pi / 2
		p := math.Sin(u) * math.Sin(u)
		w := math.Pow(p, a) * math.Pow(1-p, b)
		all += w
		if p > 0.25 {
			above += w
		}
	}
	return above / all
}
