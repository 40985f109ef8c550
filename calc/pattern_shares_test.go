package calc_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"wetrun/calc"
)

// TestPropertyPatternShares: what a cup gives at a place is that of a straight line down
// to nothing at its neighbours, of every nozzle of the row, by the definition of
// PatternShares. From the definition, no published source.
func TestPropertyPatternShares(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cups := rapid.IntRange(1, 8).Draw(t, "cups")
		d := rapid.Float64Range(0.5, 12).Draw(t, "spacing")
		if rapid.Bool().Draw(t, "whole") {
			d = math.Ceil(d)
		}
		x := rapid.Float64Range(0, d).Draw(t, "place")
		if rapid.Bool().Draw(t, "at a cup") {
			x = math.Floor(x)
		}
		for i, share := range calc.PatternShares(cups, d, x) {
			want := 0.0
			for k := -40; k <= 40; k++ {
				want += max(0, 1-math.Abs(x+float64(k)*d-float64(i)))
			}
			if math.Abs(share-want) > 1e-9 {
				t.Fatalf("cup %d of %d, nozzles %v apart, at %v: a share of %v, want %v", i, cups, d, x, share, want)
			}
		}
	})
}
