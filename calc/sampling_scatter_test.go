package calc_test

import (
	"slices"
	"testing"

	"wetrun/calc/certainty"
)

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
