package main

import (
	"bytes"
	"os"
	"strings"
	"testing"
)

// TestCalibrateDigest: the command prints the digest that stands on the record of the sheet,
// whatever its spaces are, and another one for another reading. What is no JSON has none.
func TestCalibrateDigest(t *testing.T) {
	sheet, err := os.ReadFile("../../testdata/demo/ready.json")
	if err != nil {
		t.Fatal(err)
	}
	digest := func(sheet string) string {
		var out, errs bytes.Buffer
		if code := run(t.Context(), []string{"calibrate", "-digest", "-"}, noEnv, strings.NewReader(sheet), &out, &errs); code != 0 {
			t.Fatalf("%d %s", code, errs.String())
		}
		return strings.TrimSpace(out.String())
	}
	// From a few lines of Python: see TestRecordDigest of package api.
	const known = "49216c355f62cb5f62f97a54b94bd27243c6e178c024b360cd6f21cf0275d3a1"
	if got := digest(string(sheet)); got != known {
		t.Errorf("%s, not %s", got, known)
	}
	if got := digest(strings.ReplaceAll(string(sheet), "\n", "\n\n ")); got != known {
		t.Errorf("with other spaces %s", got)
	}
	if got := digest(strings.Replace(string(sheet), "46.2", "46.3", 1)); got == known {
		t.Error("another reading has the same digest")
	}
	var out, errs bytes.Buffer
	if code := run(t.Context(), []string{"calibrate", "-digest", "-"}, noEnv, strings.NewReader("{"), &out, &errs); code != 1 || out.Len() != 0 || !strings.Contains(errs.String(), "not_json") {
		t.Errorf("%d %s%s", code, out.String(), errs.String())
	}
}
