package api

import (
	"strings"
	"testing"
)

// TestUnknownLabelNamesWhatIsThere: who names a gear or a catch that is not there reads
// which are, the long ones shortened.
func TestUnknownLabelNamesWhatIsThere(t *testing.T) {
	const caught = `"volume":{"value":1,"unit":"L"},"time":{"value":1,"unit":"min"}`
	long := strings.Repeat("x", 40)
	for _, c := range []struct{ path, body, pointer, want string }{
		{"corrections", `{"measured":{"applicationRate":{"value":120,"unit":"L/ha"},"groundSpeed":{"value":6,"unit":"km/h"},"engineSpeed":{"value":1800,"unit":"rpm"},"gear":"C"},
			"targetApplicationRate":{"value":100,"unit":"L/ha"},"gears":[{"label":"A","groundSpeed":{"value":6,"unit":"km/h"},"engineSpeed":{"value":1800,"unit":"rpm"}}]}`,
			"#/measured/gear", "Use one of: A. "},
		{"calibrations", `{"output":{"catches":[{"label":"n1",` + caught + `},{"label":"` + long + `",` + caught + `}],"followUps":[{"replaces":"n2",` + caught + `}]}}`,
			"#/output/followUps/0/replaces", "Use one of: n1, " + strings.Repeat("x", 24) + "…. "},
	} {
		_, p := refusals(t, c.path, c.body)
		if len(p.Errors) != 1 || p.Errors[0].Pointer != c.pointer || p.Errors[0].Code != "unknown_label" || !strings.Contains(p.Errors[0].Detail, c.want) {
			t.Errorf("%s: %+v does not say %q", c.path, p.Errors, c.want)
		}
	}
}
