package method_test

import (
	"strings"
	"testing"

	"wetrun/calc/method"
)

// TestEachMethodStandsOnce: every constant has its row, no two rows have the same id, and
// a formula is an equation whose symbols are explained once each.
func TestEachMethodStandsOnce(t *testing.T) {
	seen := map[string]bool{}
	for id, m := range method.All() {
		if m.ID == "" || seen[m.ID] || method.Of(method.ID(id)).ID != m.ID {
			t.Errorf("method %d: its id is %q", id, m.ID)
		}
		seen[m.ID] = true
		left, _, equation := strings.Cut(m.Formula, " = ")
		if !equation || len(m.Operations) == 0 {
			t.Errorf("%s: %q, in %v", m.ID, m.Formula, m.Operations)
		}
		symbols := map[string]bool{}
		for _, s := range m.Symbols {
			if symbols[s.Symbol] || !strings.Contains(m.Formula, s.Symbol) {
				t.Errorf("%s: %s twice, or not in %q", m.ID, s.Symbol, m.Formula)
			}
			symbols[s.Symbol] = true
		}
		if !symbols[left] {
			t.Errorf("%s: nothing says what %s is", m.ID, left)
		}
	}
}
