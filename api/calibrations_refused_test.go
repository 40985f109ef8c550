package api

import (
	"slices"
	"testing"
)

// TestCalibrationsRefuseWhatCannotBe: a bed that the sprayer does not cover, and a next
// season that began before the wet run.
func TestCalibrationsRefuseWhatCannotBe(t *testing.T) {
	catch := func(bed string) string {
		return `{"volume":{"value":1,"unit":"L"},"time":{"value":60,"unit":"s"},"bed":` + bed + `}`
	}
	output := `"output":{"catches":[` + catch("3") + `,` + catch("4") + `]}`
	for body, want := range map[string][]string{
		`{"machine":{"bedsCovered":3},` + output + `}`: {"#/output/catches/1/bed too_large"},
		`{"machine":{"bedsCovered":4},` + output + `}`: nil,
		`{` + output + `}`: nil,
		`{` + output + `,"schedule":{"measuredOn":"2026-05-12","nextSeasonStart":"2026-03-01"}}`: {"#/schedule/nextSeasonStart not_after_measured"},
		`{` + output + `,"schedule":{"measuredOn":"2026-05-12","nextSeasonStart":"2026-05-12"}}`: {"#/schedule/nextSeasonStart not_after_measured"},
		`{` + output + `,"schedule":{"measuredOn":"2026-05-12","nextSeasonStart":"2027-03-01"}}`: nil,
	} {
		if want == nil {
			if w := post(t, "calibrations", body); w.Code != 200 {
				t.Errorf("%s: %d %s", body, w.Code, w.Body)
			}
			continue
		}
		if codes, _ := refusals(t, "calibrations", body); !slices.Equal(codes, want) {
			t.Errorf("%s: %q, want %q", body, codes, want)
		}
	}
}
