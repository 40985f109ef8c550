//go:build !race

package api

import "testing"

// TestAllocationsOfARequest holds a request with everything on to its budget. A
// request costs a collector of garbage more than it costs the CPU.
func TestAllocationsOfARequest(t *testing.T) {
	// 70 without uncertainty; the rest is its figures, and words with arguments for what
	// is too close to its limit.
	const budget = 125
	r := testing.Benchmark(BenchmarkTwelveCatchesObserved)
	if n := r.AllocsPerOp(); n == 0 || n > budget {
		t.Errorf("%d allocations for twelve catches, at most %d wanted", n, budget)
	}
}
