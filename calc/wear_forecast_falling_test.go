package calc_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"wetrun/calc"
)

// TestReferenceWearFallingFlow, by hand: 1000, 966 and 931 mL of 1000, as 29, 28 and 27 fl
// oz are, fall by 6.9 % from first to last; 1000, 990 and 980 by 2 %, which is not more
// than that.
func TestReferenceWearFallingFlow(t *testing.T) {
	for _, c := range []struct {
		millilitres []float64
		want        string
	}{
		{[]float64{1000, 966, 931}, "catches: falling_flow"}, {[]float64{1000, 990, 979}, "catches: falling_flow"},
		{[]float64{1000, 990, 980}, ""}, {[]float64{1000, 1001, 999}, ""}, {[]float64{1000, 1000, 1000}, ""},
	} {
		r := mustWearForecast(t, wearOf([]float64{0, 100, 200}, c.millilitres))
		if got := warned(r.Warnings); got != c.want || r.State != calc.NoWear {
			t.Errorf("%v: warned of %q, want %q; %v", c.millilitres, got, c.want, r.State)
		}
	}
}

// TestReferenceWearFirstOverLimit: a set that gives 12 % more than new when it is first
// caught, with a limit of 10 %; exactly 10 % is not above.
func TestReferenceWearFirstOverLimit(t *testing.T) {
	for first, want := range map[float64]bool{1120: true, 1100: false} {
		r := mustWearForecast(t, wearOf([]float64{0, 100, 200}, []float64{first, first + 10, first + 20}))
		if got := warned(r.Warnings); strings.Contains(got, "catches[0]: first_over_limit") != want {
			t.Errorf("%v mL: warned of %q", first, got)
		}
	}
}

// TestReferenceBeyondWear: 38, 80 and 120 fl oz, of 38.4 of a new one, are 1 % below, 108 %
// and 213 % above; exactly half as much again, 1500 of 1000 mL, may still be wear.
func TestReferenceBeyondWear(t *testing.T) {
	const floz = 1000 / 38.4
	for _, c := range []struct {
		millilitres []float64
		want        []int
	}{
		{[]float64{38 * floz, 80 * floz, 120 * floz}, []int{1, 2}}, {[]float64{1000, 1250, 1500}, nil}, {[]float64{1000, 1250, 1501}, []int{2}},
	} {
		got := warned(mustWearForecast(t, wearOf([]float64{0, 1, 2}, c.millilitres)).Warnings)
		for i := range c.millilitres {
			if slices.Contains(c.want, i) != strings.Contains(got, fmt.Sprintf("catches[%d]: beyond_wear", i)) {
				t.Errorf("%v: warned of %q, want of catches %v", c.millilitres, got, c.want)
			}
		}
	}
}
