package api

import (
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"wetrun/calc"
)

// asksForMore are the rules whose steps ask for what a sheet does not have: their pointers
// point to where it is missing.
var asksForMore = []calc.RuleID{calc.RuleReadings, calc.RuleCatches, calc.RuleRuns, calc.RuleWidth, calc.RuleTarget}

// TestStepsSayWhatTheyRestOn: each pointer of because is of the request or of the answer,
// whatever the sheet, and so is that of the step; each step has a rule and its words.
func TestStepsSayWhatTheyRestOn(t *testing.T) {
	var sheets []string
	for _, example := range requestExamples(t, "calibrations") {
		sheets = append(sheets, encodeJSON(t, example.Value.Value))
	}
	for _, pattern := range []string{"../testdata/demo/*.json"} {
		files, err := filepath.Glob(pattern)
		if err != nil || len(files) == 0 {
			t.Fatal(files, err)
		}
		for _, file := range files {
			sheet, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			sheets = append(sheets, string(sheet))
		}
	}
	off := func(n int, by ...float64) []float64 { return append(right(n), by...) }
	sheets = append(sheets,
		decided(right(12), rateTarget("190", "201"), ""), decided(right(12), rateTarget("184", "198"), ""), decided(off(11, 5000), rateTarget("200", "250"), ""),
		decided(off(11, 400), rateTarget("200", "250"), ""), decided(off(11, 552.5), rateTarget("200", "250"), ""), decided(off(8, 600, 600, 600, 600), rateTarget("213", "250"), ""),
		strings.Replace(decided(right(12), rateTarget("200", "250"), ""), `"low":{"value":4,`, `"low":{"value":7,`, 1), `{}`,
	)
	rules := map[string]bool{}
	for _, sheet := range sheets {
		w := post(t, "calibrations", sheet)
		var request, answer any
		var a struct {
			NextSteps []struct {
				Code, Pointer, Rule, Why string
				Because                  []string
			}
		}
		for body, into := range map[string]any{sheet: &request, w.Body.String(): &answer} {
			if err := json.Unmarshal([]byte(body), into); err != nil {
				t.Fatal(err)
			}
		}
		if err := json.Unmarshal(w.Body.Bytes(), &a); err != nil {
			t.Fatal(err)
		}
		found := func(pointer string) bool {
			_, inRequest := follow(request, strings.TrimPrefix(pointer, "#"))
			_, inAnswer := follow(answer, strings.TrimPrefix(pointer, "#"))
			return inRequest == nil || inAnswer == nil
		}
		for _, s := range a.NextSteps {
			rules[s.Rule] = true
			if s.Rule == "" || s.Why == "" || strings.HasPrefix(s.Why, "rule.") {
				t.Errorf("%s: rule %q, why %q", s.Code, s.Rule, s.Why)
			}
			if s.Pointer != "" && !found(s.Pointer) {
				t.Errorf("%s points to %s, which is not there\n%s", s.Code, s.Pointer, sheet)
			}
			for _, pointer := range s.Because {
				if !found(pointer) && !slices.Contains(asksForMore, calc.RuleID(s.Rule)) {
					t.Errorf("%s rests on %s, which is not there\n%s", s.Code, pointer, sheet)
				}
			}
		}
	}
	if len(rules) < 15 {
		t.Errorf("only %d rules were met: %v", len(rules), rules)
	}
}
