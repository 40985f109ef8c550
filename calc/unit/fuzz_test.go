package unit_test

import (
	"math"
	"slices"
	"testing"

	"wetrun/calc/unit"
)

// FuzzLookup: a symbol is found only as it is written in the table, and what is
// found can be calculated with.
func FuzzLookup(f *testing.F) {
	for _, u := range unit.All() {
		f.Add(u.Symbol)
		f.Add(u.Symbol + " ")
	}
	for _, seed := range []string{"", "gal", "GPA", "Psi", "gal_us/", "/acre", "ft²", "\x00", "psi\n"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, symbol string) {
		id := unit.Lookup(symbol)
		known := slices.ContainsFunc(unit.All(), func(u unit.Info) bool { return u.Symbol == symbol })
		if known != (id != unit.None) {
			t.Fatalf("%q: found is %v, in the table %v", symbol, id != unit.None, known)
		}
		if !known {
			return
		}
		if x := id.Factor(); id.Symbol() != symbol || !(x > 0) || math.IsInf(x, 0) || !slices.Contains(id.Kind().Symbols(), symbol) {
			t.Errorf("%q is %q, %v of %v", symbol, id.Symbol(), x, id.Kind())
		}
	})
}
