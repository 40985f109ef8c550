package certainty

import (
	"fmt"
	"math"
	"testing"
)

// TestReferenceAtMost, by hand: of 40 points 10 are marked, so among 12 there are 3 in the
// middle, as there are with a share of a quarter. Up to 3 are summed, and more count as 1.
func TestReferenceAtMost(t *testing.T) {
	known, share := draw{points: 40, marked: 10}, draw{share: 0.25}
	var of, by float64
	for k := range 4 {
		of += choose(10, k) * choose(30, 12-k) / choose(40, 12)
		by += choose(12, k) * math.Pow(0.25, float64(k)) * math.Pow(0.75, float64(12-k))
		near(t, "known", known.atMost(k, 12), of, 1e-12)
		near(t, "share", share.atMost(k, 12), by, 1e-12)
	}
	near(t, "known, beyond", known.atMost(4, 12), 1, 0)
	near(t, "share, beyond", share.atMost(4, 12), 1, 0)
	// Of 5 points 4 are marked: among 3 there are 2 at least.
	near(t, "two of three", draw{points: 5, marked: 4}.atMost(2, 3), 0.6, 1e-12)
}

// TestReferenceCountAsLimit, by hand: of 40 points with none of 12 outside 9 may be at most, as in
// TestReferenceSamplingDecides. Where 10 are too many that is settled, where 9 are too many it is not.
func TestReferenceCountAsLimit(t *testing.T) {
	for from, want := range map[int]Settled{10: SettledNotAbove, 9: SettledOpen} {
		in := SamplingInput{Caught: 12, CatchPointsOnBoom: 40, ReplaceAllFrom: from}
		if r := mustSample(t, in); r.Settled != want || in.AtLimit() != from-1 {
			t.Errorf("from %d: %v, %d at the limit", from, r.Settled, in.AtLimit())
		}
	}
	if n := (SamplingInput{CatchPointsOnBoom: 40, ReplaceAllFrom: 50}).AtLimit(); n != 40 {
		t.Errorf("of 40 points %d at the limit", n)
	}
}

// TestReferenceSamplingEnds, by hand: of one place that was caught all is known; none of n outside
// may be 1 - 0.025^(1/n) at most; no boom has more outside than all of it; and one more that
// settles it is made at the side with the fewest.
func TestReferenceSamplingEnds(t *testing.T) {
	for outside := range 2 {
		if r := mustSample(t, SamplingInput{Caught: 1, Outside: outside, CatchPointsOnBoom: 1}); float64(r.ChanceAbove) != float64(outside) {
			t.Errorf("%d of one: a chance of %v", outside, r.ChanceAbove)
		}
	}
	for n := 60; n < 70; n++ {
		r := mustSample(t, SamplingInput{Caught: n})
		near(t, fmt.Sprint("none of ", n), float64(r.High), 1-math.Pow(0.025, 1/float64(n)), 1e-9)
	}
	if r := mustSample(t, SamplingInput{Caught: 3, Outside: 3, ReplaceAllAbove: 1}); r.ChanceAbove != 0 {
		t.Errorf("more than all with a chance of %v", r.ChanceAbove)
	}
	r := mustSample(t, SamplingInput{Caught: 12, CaughtOn: [len(Positions)]int{0, 3, 4, 5}})
	if r.More != 1 || fmt.Sprint(r.MoreOn) != "[left]" {
		t.Errorf("%d more, on %v", r.More, r.MoreOn)
	}
}
