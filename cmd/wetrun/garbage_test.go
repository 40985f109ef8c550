package main

import (
	"runtime/debug"
	"testing"
)

// TestMemoryLimit: there is a soft limit where the environment sets none, and else its own.
func TestMemoryLimit(t *testing.T) {
	percent := debug.SetGCPercent(100)
	limit := debug.SetMemoryLimit(-1)
	defer func() {
		debug.SetGCPercent(percent)
		debug.SetMemoryLimit(limit)
	}()
	for _, c := range []struct {
		environment string
		want        int64
	}{{"", memoryLimit()}, {"1GiB", 1 << 30}} {
		debug.SetMemoryLimit(1 << 30) // as the runtime has it from the environment
		boundGarbage(func(name string) string { return map[string]string{"GOMEMLIMIT": c.environment}[name] })
		if got := debug.SetMemoryLimit(-1); got != c.want || got < 300<<20 {
			t.Errorf("with GOMEMLIMIT=%q: %d bytes, want %d", c.environment, got, c.want)
		}
	}
}
