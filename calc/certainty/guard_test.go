package certainty_test

import (
	"math"
	"testing"

	"wetrun/calc/certainty"
)

// TestReferenceGuard: the one-sided 95 % points of Student's t as tables print them, from
// memory: 6.314 of 1, 2.015 of 5, 1.812 of 10, 1.697 of 30 degrees of freedom, and 1.645
// without end. So far from its limit a value keeps it with 95 %.
func TestReferenceGuard(t *testing.T) {
	for nu, want := range map[float64]float64{1: 6.314, 5: 2.015, 10: 1.812, 30: 1.697, 0: 1.645} {
		u := (&certainty.Budget{certainty.SourceRuns: {Standard: 2, DegreesOfFreedom: nu}}).Combine(1, certainty.Widest{})
		if got := u.Guard() / 2; math.Abs(got-want) > 0.00051 {
			t.Errorf("%v degrees of freedom: %v, want %v", nu, got, want)
		}
		if p := certainty.ConformanceProbability(10-u.Guard(), &u, certainty.Unlimited, 10); math.Abs(p-0.95) > 1e-6 {
			t.Errorf("%v degrees of freedom: kept with %v", nu, p)
		}
	}
}
