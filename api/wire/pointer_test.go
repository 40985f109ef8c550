package wire

import (
	"testing"

	"wetrun/calc/finding"
)

// TestPlaceAsPointer renders members, items and lists in lists, and words a member for a
// sentence.
func TestPlaceAsPointer(t *testing.T) {
	for _, c := range []struct {
		place          finding.Place
		pointer, words string
	}{
		{finding.Place{}, "#", ""},
		{finding.Member("sprayPressure"), "#/sprayPressure", "sprayPressure"},
		{finding.Member("machine").Member("bedWidth"), "#/machine/bedWidth", "machine.bedWidth"},
		{finding.Item("sizes", 0), "#/sizes/0", "sizes"},
		{finding.Member("output").Item("catches", 2).Member("volume"), "#/output/catches/2/volume", "volume"},
		{finding.Item("shelf", 12).Item("flowChart", 3).Member("pressure"), "#/shelf/12/flowChart/3/pressure", "pressure"},
		{finding.Item("shelf", 12).Member("pressureRange").Member("low"), "#/shelf/12/pressureRange/low", "pressureRange.low"},
	} {
		if got := Pointer(c.place); got != c.pointer {
			t.Errorf("%v is rendered as %s, want %s", c.place, got, c.pointer)
		}
		if got := memberInWords(c.place); got != c.words {
			t.Errorf("%v is worded %q, want %q", c.place, got, c.words)
		}
	}
}
