package api

import (
	"encoding/json"
	"fmt"
	"testing"
)

// TestRinseSteps, by hand: 4 L stay. One rinse of 40 L leaves 4/44 = 9.1 %, two of 20 L
// (4/24)^2 = 2.8 %, so three of 40/3 L with (3/13)^3 = 1.2 % are enough for 2 %. Of 4 L
// no number of rinses leaves less than exp(-1) = 37 %.
func TestRinseSteps(t *testing.T) {
	for _, c := range []struct {
		water, wanted, needed int
		within                bool
		step                  string
	}{
		{40, 10, 1, true, ""},
		{40, 2, 3, false, "split_rinse_water"},
		{4, 2, 0, false, "more_rinse_water"},
	} {
		w := post(t, "tank-rinse", fmt.Sprintf(`{"residualVolume":{"value":4,"unit":"L"},"rinseWater":{"value":%d,"unit":"L"},"numberOfRinses":1,"wantedShareLeft":{"value":%d,"unit":"%%"}}`, c.water, c.wanted))
		var a struct {
			WithinTolerance   bool
			EqualRinsesNeeded struct{ Number int }
			NextSteps         []struct{ Code string }
		}
		if err := json.Unmarshal(w.Body.Bytes(), &a); err != nil {
			t.Fatal(err)
		}
		step := ""
		if len(a.NextSteps) > 0 {
			step = a.NextSteps[0].Code
		}
		if a.WithinTolerance != c.within || a.EqualRinsesNeeded.Number != c.needed || step != c.step || len(a.NextSteps) > 1 {
			t.Errorf("%+v: %s", c, w.Body)
		}
	}
}
