package api

import (
	"encoding/json"
	"slices"
	"testing"

	"wetrun/api/operation"
	"wetrun/api/wire"
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
		Output struct {
			Result struct{ Warnings []operation.Warning }
		}
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

// TestDropNozzleOfASheet: what is wrong with one nozzle of a drop is said of it,
// and a drop on a sheet is judged as on a round of its own.
func TestDropNozzleOfASheet(t *testing.T) {
	sheet := func(nozzle string) string {
		return `{"output":{"catchPointsOnBoom":1,"sprayPressure":{"value":3,"unit":"bar"},"catches":[{"nozzlesOnDrop":[{"nozzle":{"size":"02"},"count":2},{"nozzle":` + nozzle + `,"count":1}],
			"volume":{"value":2.8,"unit":"L"},"time":{"value":1,"unit":"min"}}]}}`
	}
	var p wire.Problem
	w := post(t, "calibrations", sheet(`{"sizeRating":"iso_3_bar"}`))
	if err := json.Unmarshal(w.Body.Bytes(), &p); err != nil || len(p.Errors) != 1 || p.Errors[0].Pointer != "#/output/catches/0/nozzlesOnDrop/1/nozzle/size" {
		t.Errorf("%d %s", w.Code, w.Body)
	}
	// Twice 0.8 and once 1.2 L/min at their own 3 bar are the 2.8 L of the minute.
	var answer any
	if err := json.Unmarshal(post(t, "calibrations", sheet(`{"size":"03"}`)).Body.Bytes(), &answer); err != nil {
		t.Fatal(err)
	}
	for member, want := range map[string]any{
		"/output/result/catches/0/ratedFlowRateAtPressure": map[string]any{"value": 2.8, "unit": "L/min"},
		"/output/result/catches/0/deviationFromRated":      map[string]any{"value": 0.0, "unit": "%"},
		"/output/status": "passed",
	} {
		got, err := follow(answer, member)
		if err != nil {
			t.Error(err)
			continue
		}
		holds(t, member, want, got, 1e-5)
	}
}
