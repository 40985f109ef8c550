package main

import (
	"bytes"
	"encoding/json"
	"os"
	"strings"
	"testing"

	"wetrun/internal/text"
)

// hostile is what a label of the sheets below begins with, as JSON: it would clear a
// terminal, begin a line of its own, and show what follows it from right to left.
const hostile = `"label": "\u001b[2J\u009b2J\u000aREADY. \u2028\u202e`

// TestTextIsSafeToShow: labels neither move the cursor of a terminal nor turn its text
// around, and make no line more.
func TestTextIsSafeToShow(t *testing.T) {
	for _, name := range []string{"ready", "boom-to-repair", "rate-to-correct"} {
		sheet, err := os.ReadFile("../../testdata/demo/" + name + ".json")
		if err != nil {
			t.Fatal(err)
		}
		calibrated := func(sheet string, args ...string) string {
			var out, errs bytes.Buffer
			run(t.Context(), append([]string{"calibrate"}, args...), noEnv, strings.NewReader(sheet), &out, &errs)
			refused, _, _ := strings.Cut(errs.String(), "\nwetrun:")
			return out.String() + refused
		}
		plain := string(sheet)
		marked := strings.ReplaceAll(plain, `"label": "`, hostile)
		safe := calibrated(marked, "-text", "-")
		if i := strings.IndexFunc(strings.ReplaceAll(safe, "\n", ""), text.Hidden); i >= 0 || !strings.Contains(safe, "[2J2J READY.  ") {
			t.Errorf("%s: %q", name, safe)
		}
		if got, want := strings.Count(safe, "\n"), strings.Count(calibrated(plain, "-text", "-"), "\n"); got != want {
			t.Errorf("%s has %d lines, and %d with plain labels", name, got, want)
		}
		wrong := strings.Replace(marked, `"catches": [`, `"followUps": [{"replaces": "none", "volume": {"value": 1, "unit": "L"}, "time": {"value": 30, "unit": "s"}}], "catches": [`, 1)
		for _, said := range []string{calibrated(marked, "-"), calibrated(wrong, "-"), calibrated(wrong, "-text", "-")} {
			if i := strings.IndexFunc(strings.ReplaceAll(said, "\n", ""), text.Hidden); i >= 0 || !strings.Contains(said, `\u202e`) || !json.Valid([]byte(said)) {
				t.Errorf("%s: %q", name, said)
			}
		}
	}
}
