package api

import (
	"net/http"
	"strings"
	"testing"
)

// TestNoughtIsTaken: on the day of the sheet the sprayer has not been used since, all of
// 50 h are left; and a pump of 20 L/min without any reserve feeds four nozzles of 5.
func TestNoughtIsTaken(t *testing.T) {
	for _, c := range []struct {
		path, body string
		want       []string
	}{
		{"calibrations", `{"schedule":{"measuredOn":"2026-05-01","calibrateEvery":{"value":50,"unit":"h"},"usedSince":{"value":0,"unit":"h"}}}`,
			[]string{`"hoursLeft":{"value":50,"unit":"h"},"dueByHours":false`}},
		{"pump-demand", `{"nozzles":4,"nozzleFlowRate":{"value":5,"unit":"L/min"},"reserve":{"value":0,"unit":"%"},"ratedPumpFlowRate":{"value":20,"unit":"L/min"},"resultUnits":"metric","showWorking":true}`,
			[]string{`"reserve":{"value":0,"unit":"%"},"reserveFlowRate":{"value":0,"unit":"L/min"},"totalFlowRate":{"value":20,"unit":"L/min"}`, `"sufficient":true`}},
	} {
		w := call(t, http.MethodPost, "/v1/"+c.path, c.body)
		for _, want := range c.want {
			if w.Code != http.StatusOK || !strings.Contains(w.Body.String(), want) {
				t.Errorf("%s: no %s in %d %.600s", c.path, want, w.Code, w.Body)
			}
		}
	}
}
