package certainty

import (
	"math"
	"testing"
)

// TestDerivatives: the density is what the probability grows by, and its slope what the density
// grows by, as quotients of differences have them.
func TestDerivatives(t *testing.T) {
	const h = 1e-4
	for _, d := range []Distribution{
		{0, 2, 0}, {3, 2, 0}, {0.5, 2, 0}, {0, 2, 5}, {3, 2, 5}, {0.5, 2, 3}, {7, 2, 40}, {2, 0, 0},
	} {
		k := kernelOf(d.Freedom)
		for _, x := range []float64{-5.1, -3.3, -1.7, -0.6} {
			before, less, _ := d.at(x-h, k)
			after, more, _ := d.at(x+h, k)
			_, density, slope := d.at(x, k)
			if by := (after - before) / (2 * h); math.Abs(density-by) > 1e-7 {
				t.Errorf("%v at %v: a density of %.9f, by differences %.9f", d, x, density, by)
			}
			if by := (more - less) / (2 * h); math.Abs(slope-by) > 1e-7 {
				t.Errorf("%v at %v: a slope of %.9f, by differences %.9f", d, x, slope, by)
			}
		}
	}
}

// TestReachOfAnyScale: errors a thousand times as small, or as large, reach as much less or more
// far, whatever the unit.
func TestReachOfAnyScale(t *testing.T) {
	for _, d := range []Distribution{{1, 1, 3}, {3, 1, 4}, {0.2, 1, 7}, {5, 0.5, 30}, {2, 1, 0}} {
		for _, by := range []float64{1e-3, 1e3} {
			scaled := Distribution{d.Widest * by, d.Rest * by, d.Freedom}
			near(t, "97.5 %", scaled.Reach(), d.Reach()*by, 1e-9)
			near(t, "95 %", scaled.Quantile(0.95), d.Quantile(0.95)*by, 1e-9)
		}
	}
}

// TestReachBetweenTheTable: the cubic between the rows of the table meets the search, at its ends too.
func TestReachBetweenTheTable(t *testing.T) {
	for i := range 4096 {
		rest := (float64(i) + 0.5) / 4096
		d := Distribution{Widest: math.Sqrt(3 * (1 - rest*rest)), Rest: rest}
		near(t, "reach", d.Reach(), d.search(d.search(1.6, 0.025), 0.025), 1e-9)
	}
}

// TestWhatIsAlone: a scale beside which next to nothing was repeated reaches 0.95 of its bound and
// has no degrees of freedom; two alike that have nu each have 2 nu - 2 by the moments of
// Distribution, of which there is no end from a million on.
func TestWhatIsAlone(t *testing.T) {
	u := (&Budget{SourceJugScale: {Standard: 1}, SourceRuns: {1e-6, 4}}).Combine(1, Widest{Scale: 1})
	if u.Error.Freedom != 0 || u.Error.Rest != 0 {
		t.Errorf("%+v", u.Error)
	}
	near(t, "reach", u.Error.Reach(), 0.95*math.Sqrt(3), 1e-9)
	for nu, want := range map[float64]float64{4e5: 8e5 - 2, 6e5: 0, 500_001: 0} {
		u := (&Budget{SourceRuns: {1, nu}, SourceCatches: {1, nu}}).Combine(1, Widest{})
		near(t, "degrees of freedom", u.Error.Freedom, want, 1e-9)
	}
	if c := (Component{Standard: 1}); c.Counted() != c {
		t.Errorf("without an end counted as %+v", c.Counted())
	}
}
