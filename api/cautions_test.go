package api

import (
	"encoding/json"
	"net/http"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"wetrun/api/operation"
	"wetrun/internal/text"
)

// TestCautionsAreThoseOfTheTable: the answers to the examples of each operation have the
// cautions of its row in CAUTIONS.md, all of them, and no other; each caution has its hazard.
func TestCautionsAreThoseOfTheTable(t *testing.T) {
	page, err := os.ReadFile("../internal/text/CAUTIONS.md")
	if err != nil {
		t.Fatal(err)
	}
	rows, hazards := map[string][]string{}, map[string]bool{}
	code := regexp.MustCompile("`([a-z0-9_-]+)`")
	for _, row := range regexp.MustCompile("(?m)^\\| `([a-z0-9_-]+)` \\| (.*) \\|$").FindAllStringSubmatch(string(page), -1) {
		name, cell := row[1], row[2]
		if text.Has("caution." + name) {
			hazards[name] = true
			continue
		}
		rows[name] = []string{}
		for _, c := range code.FindAllStringSubmatch(cell, -1) {
			rows[name] = append(rows[name], c[1])
		}
	}
	answers := map[string][]string{
		"procedure":    {call(t, http.MethodGet, "/v1/procedure", "").Body.String()},
		"nozzle-sizes": {call(t, http.MethodGet, "/v1/nozzle-sizes", "").Body.String()},
	}
	for _, o := range operation.All {
		answers[o.Name] = nil
		for _, example := range requestExamples(t, o.Name) {
			answers[o.Name] = append(answers[o.Name], post(t, o.Name, encodeJSON(t, example.Value.Value)).Body.String())
		}
	}
	answers["calibrations"] = append(answers["calibrations"], post(t, "calibrations", sheetBelowTarget(t)).Body.String())
	for name, all := range answers {
		want, listed := rows[name]
		got := codesOf(t, all)
		slices.Sort(want)
		want = slices.Compact(want)
		if !listed || !slices.Equal(got, want) {
			t.Errorf("%s: the answers have `%s`\nthe table `%s`", name, strings.Join(got, "` `"), strings.Join(want, "` `"))
		}
		delete(rows, name)
	}
	for name := range rows {
		t.Errorf("there is no operation and no caution %s", name)
	}
	for _, key := range text.Keys() {
		if c, ok := strings.CutPrefix(key, "caution."); ok && !hazards[c] {
			t.Errorf("no hazard for %s", c)
		}
	}
}

// TestPlanThatRaisesPressure: the plan has the caution in words, the sheet, its text for crews
// and its record say it too; another sheet does not.
func TestPlanThatRaisesPressure(t *testing.T) {
	drift := text.Of(text.English, "caution.drift")
	var a struct {
		Cautions   []operation.Notice
		Correction struct {
			Result struct {
				Plans []struct{ Cautions, CautionTexts []string }
			}
		}
	}
	if err := json.Unmarshal(post(t, "calibrations", sheetBelowTarget(t)).Body.Bytes(), &a); err != nil {
		t.Fatal(err)
	}
	raised := false
	for _, p := range a.Correction.Result.Plans {
		raised = raised || slices.Contains(p.Cautions, "drift") && slices.Contains(p.CautionTexts, drift)
	}
	if !raised || !slices.Contains(a.Cautions, operation.Notice{Code: "drift", Text: drift}) {
		t.Errorf("no drift in the plans %+v\nor in the cautions %v", a.Correction.Result.Plans, a.Cautions)
	}
	if said, ok, err := operation.Summarize(t.Context(), strings.NewReader(sheetBelowTarget(t))); err != nil || !ok || !strings.Contains(string(said), drift) {
		t.Errorf("the text for crews does not say it: %s", said)
	}
	if page := call(t, http.MethodPost, "/v1/calibrations", sheetBelowTarget(t), "Accept", "text/html").Body.String(); !strings.Contains(page, drift) {
		t.Error("the record does not say it")
	}
	if in := post(t, "calibrations", readySheet(t)).Body.String(); strings.Contains(in, drift) {
		t.Error("a sheet without such a plan says it")
	}
}

// TestCautionsOfASheetOnce: its parts repeat none, since its own list has them all.
func TestCautionsOfASheetOnce(t *testing.T) {
	body := post(t, "calibrations", sheetBelowTarget(t)).Body.String()
	for _, code := range codesOf(t, []string{body}) {
		if n := strings.Count(body, `{"code":"`+code+`"`); n != 1 {
			t.Errorf("%s stands %d times", code, n)
		}
	}
	for _, part := range []string{"pressure-uniformity", "nozzle-acceptance", "ground-speed", "application-rate", "corrections", "area-check"} {
		for _, example := range requestExamples(t, part) {
			for _, code := range codesOf(t, []string{post(t, part, encodeJSON(t, example.Value.Value)).Body.String()}) {
				if !strings.Contains(body, `{"code":"`+code+`"`) {
					t.Errorf("the sheet lacks %s of %s", code, part)
				}
			}
		}
	}
}

func readySheet(t *testing.T) string {
	return encodeJSON(t, requestExamples(t, "calibrations")["ready"].Value.Value)
}

// sheetBelowTarget is a sheet in order but for a target that asks for more pressure.
func sheetBelowTarget(t *testing.T) string {
	sheet := strings.ReplaceAll(readySheet(t), `"value":126}`, `"value":200}`)
	return strings.ReplaceAll(sheet, `"value":105}`, `"value":127}`)
}

// codesOf are the codes of the cautions of some answers, each once and sorted.
func codesOf(t *testing.T, answers []string) []string {
	t.Helper()
	codes := []string{}
	for _, body := range answers {
		var a struct{ Cautions []operation.Notice }
		if err := json.Unmarshal([]byte(body), &a); err != nil {
			t.Fatal(err)
		}
		for _, c := range a.Cautions {
			codes = append(codes, c.Code)
		}
	}
	slices.Sort(codes)
	return slices.Compact(codes)
}
