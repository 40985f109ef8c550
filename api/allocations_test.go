//go:build !race

package api

import "testing"

// TestAllocationsOfARequest holds a request with everything on to its budget. A
// request costs a collector of garbage more than it costs the CPU. On a busy machine
// pools are emptied oftener, which is a few allocations more.
func TestAllocationsOfARequest(t *testing.T) {
	for _, row := range []struct {
		name   string
		bench  func(*testing.B)
		budget int64
	}{
		{"twelve catches", BenchmarkTwelveCatchesObserved, 72}, // of two what would settle them is looked for
		{"twelve catches without uncertainty", BenchmarkTwelveCatchesCertain, 38},
		{"a whole sheet without uncertainty", BenchmarkSheetCertain, 72},
	} {
		if n := testing.Benchmark(row.bench).AllocsPerOp(); n == 0 || n > row.budget {
			t.Errorf("%s: %d allocations, at most %d wanted", row.name, n, row.budget)
		}
	}
}
