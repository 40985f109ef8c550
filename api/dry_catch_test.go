package api

import (
	"math/rand/v2"
	"net/http"
	"slices"
	"strings"
	"testing"
)

// TestDryCatch: a plugged nozzle is recorded as what it gave, nothing.
func TestDryCatch(t *testing.T) {
	a := postSheet(t, decided(append(right(11), 0), rateTarget("190", "250")+`,"uncertainty":false`, ""))
	if !slices.Equal(a.steps(), []string{"clean_and_recatch n12", "measure_again"}) || a.Output.Result.Decision != "fix_listed" {
		t.Errorf("%s %q", a.Output.Result.Decision, a.steps())
	}
	again := `,"followUps":[{"replaces":"n12","volume":{"value":0,"unit":"mL"},"time":{"value":30,"unit":"s"}}]`
	if a := postSheet(t, decided(append(right(11), 0), rateTarget("190", "250"), again)); !slices.Contains(a.steps(), "still_low n12") {
		t.Errorf("%q", a.steps())
	}
	dry := `{"catches":[{"volume":{"value":0,"unit":"L"},"time":{"value":60,"unit":"s"}},{"volume":{"value":0,"unit":"L"},"time":{"value":60,"unit":"s"}}]}`
	want := []string{"#/catches/0/volume/value not_positive", "#/catches/1/volume/value not_positive"}
	if codes, _ := refusals(t, "nozzle-flow", dry); !slices.Equal(codes, want) {
		t.Errorf("%q, want %q", codes, want)
	}
	if w := post(t, "nozzle-acceptance", dry).Body.String(); !strings.Contains(w, `"decision":"not_judged"`) || !strings.Contains(w, `"action":"check_supply"`) {
		t.Errorf("all dry: %s", w)
	}
	below := strings.Replace(dry, `"value":0`, `"value":-1`, 1)
	if codes, _ := refusals(t, "nozzle-acceptance", below); !slices.Equal(codes, []string{"#/catches/0/volume/value too_small"}) {
		t.Errorf("%q", codes)
	}
}

// TestPropertyDryCatchesAnswer: sheets with dry catches anywhere, all of them among
// them, are answered, with their working and as a record.
func TestPropertyDryCatchesAnswer(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for try := range 40 {
		catches := right(1 + r.IntN(14))
		for i := range catches {
			catches[i] += 40*r.Float64() - 20
			if try == 0 || r.IntN(3) == 0 {
				catches[i] = 0
			}
		}
		basis := []string{"", `,"tolerance":{"limit":{"value":10,"unit":"%"},"basis":"mean"}`, `,"tolerance":{"limit":{"value":150,"unit":"%"},"basis":"both"}`}[r.IntN(3)]
		if len(catches) == 1 {
			basis = ""
		}
		sheet := decided(catches, rateTarget("190", "250")+`,"showWorking":true`, basis)
		postSheet(t, sheet)
		if w := call(t, http.MethodPost, "/v1/calibrations", sheet, "Accept", "text/html"); w.Code != http.StatusOK || strings.Contains(w.Body.String(), "NaN") || strings.Contains(w.Body.String(), "Inf") {
			t.Errorf("%d: %s", w.Code, sheet)
		}
	}
}
