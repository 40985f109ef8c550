package wire

import (
	"strings"
	"testing"

	"wetrun/calc/unit"
)

// TestSpellingsMeanUnits: each is no symbol in its own right in some place, and all
// that it may mean are symbols.
func TestSpellingsMeanUnits(t *testing.T) {
	for spelling, could := range spellings {
		for _, s := range could {
			if unit.Lookup(s) == unit.None || s == spelling && len(could) == 1 {
				t.Errorf("%s: %s is no symbol, or nothing else", spelling, s)
			}
		}
		if spelling != strings.ToLower(spelling) {
			t.Errorf("%s is never looked up: not in lower case", spelling)
		}
	}
}
