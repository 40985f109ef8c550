package api

import (
	"encoding/json"
	"slices"
	"testing"
)

// TestFlowChartOfASheet: the nozzle stands in the sheet, so a warning of its chart
// points there, not into the catches.
func TestFlowChartOfASheet(t *testing.T) {
	line := func(bar, litres string) string {
		return `{"pressure":{"value":` + bar + `,"unit":"bar"},"flowRate":{"value":` + litres + `,"unit":"L/min"}}`
	}
	w := post(t, "calibrations", `{"nozzle":{"flowChart":[`+line("2", "0.8")+`,`+line("4", "0.7")+`]},
		"output":{"sprayPressure":{"value":5,"unit":"bar"},"catches":[{"volume":{"value":0.8,"unit":"L"},"time":{"value":1,"unit":"min"}}]}}`)
	var a struct {
		Output struct{ Result struct{ Warnings []warning } }
	}
	if err := json.Unmarshal(w.Body.Bytes(), &a); err != nil {
		t.Fatal(err)
	}
	var warned []string
	for _, x := range a.Output.Result.Warnings {
		warned = append(warned, x.Pointer+" "+x.Code)
	}
	if want := []string{"#/output/sprayPressure outside_flow_chart", "#/nozzle/flowChart/1/flowRate flow_chart_implausible"}; !slices.Equal(warned, want) {
		t.Errorf("warned of %v, want %v", warned, want)
	}
}
