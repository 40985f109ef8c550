package api

import (
	"encoding/json"
	"net/http"
	"strings"
	"testing"

	"wetrun/api/wire"
)

// TestProblemsAreBounded: a problem lists a hundred errors at most, whether the reader of a
// request finds them or the calculation.
func TestProblemsAreBounded(t *testing.T) {
	catch := `{"volume":{"value":1,"unit":"L"},"time":{"value":60,"unit":"s"},"jug":"none","stopwatch":"none"}`
	catches := "[" + strings.TrimSuffix(strings.Repeat(catch+",", 1000), ",") + "]"
	for operation, body := range map[string]string{
		"nozzle-acceptance": `{"catches":` + catches + `}`,
		"calibrations":      `{"output":{"catches":` + catches + `}}`,
	} {
		w := post(t, operation, body)
		var p wire.Problem
		if err := json.Unmarshal(w.Body.Bytes(), &p); err != nil {
			t.Fatal(err)
		}
		if w.Code != http.StatusUnprocessableEntity || len(p.Errors) != wire.MostErrors {
			t.Errorf("%s: %d with %d errors", operation, w.Code, len(p.Errors))
		}
	}
}

// TestRefusedRecordIsNoPage: a client that asks for the record of a sheet that is refused
// gets the headers of a problem, not those of a page.
func TestRefusedRecordIsNoPage(t *testing.T) {
	w := call(t, http.MethodPost, "/v1/calibrations", `{"label":3}`, "Accept", "text/html")
	if w.Code != http.StatusUnprocessableEntity || strings.Contains(w.Header().Get("Content-Security-Policy"), "style-src") {
		t.Errorf("%d %v", w.Code, w.Header())
	}
}
