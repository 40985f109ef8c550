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
