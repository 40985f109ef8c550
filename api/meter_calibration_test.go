package api

import (
	"encoding/json"
	"net/http"
	"slices"
	"testing"

	"wetrun/api/operation"
	"wetrun/api/wire"
)

// TestRefusalsThatCalcCannotSee: units that do not fit the kind of meter, and a
// rating of a size that is not there, are refused where they stand, all at once.
func TestRefusalsThatCalcCannotSee(t *testing.T) {
	for _, c := range []struct {
		operation, body string
		want            []string // pointer and code
	}{
		{"meter-calibration", `{"meterTolerance":{"value":5,"unit":"%"},"kind":"flow_meter","readings":[
			{"indicated":{"value":5,"unit":"gal_us"},"measured":{"value":5,"unit":"ft"}},
			{"indicated":{"value":5,"unit":"m"},"measured":{"value":5,"unit":"L"}}],
			"currentSetting":{"pulses":5,"per":{"value":1,"unit":"m"}}}`,
			[]string{"#/readings/0/measured/unit wrong_quantity", "#/readings/1/indicated/unit wrong_quantity", "#/currentSetting/per/unit wrong_quantity"}},
		{"meter-calibration", `{"meterTolerance":{"value":5,"unit":"%"},"kind":"speed_sensor","readings":[{"pulses":500,"measured":{"value":5,"unit":"gal_us"}}]}`,
			[]string{"#/readings/0/measured/unit wrong_quantity"}},
		{"pump-demand", `{"nozzleGroups":[{"nozzles":2,"nozzleFlowRate":{"value":1,"unit":"L/min"},"nozzle":{"sizeRating":"us_40_psi"}},
			{"nozzles":2,"nozzle":{"sizeRating":"us_40_psi","ratedFlowRate":{"value":1,"unit":"L/min"}}}]}`,
			[]string{"#/nozzleGroups/0/nozzle/size required", "#/nozzleGroups/1/nozzle/sizeRating conflict", "#/nozzleGroups/1/nozzle/ratedPressure required"}},
	} {
		w := post(t, c.operation, c.body)
		var p wire.Problem
		if err := json.Unmarshal(w.Body.Bytes(), &p); err != nil || w.Code != http.StatusUnprocessableEntity {
			t.Fatal(w.Code, w.Body)
		}
		var got []string
		for _, e := range p.Errors {
			got = append(got, e.Pointer+" "+e.Code)
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: refused by %v, want %v", c.operation, got, c.want)
		}
	}
}

// TestMeterSteps: what to do with the setting hangs on the error, the spread, and how
// the display is set.
func TestMeterSteps(t *testing.T) {
	for _, c := range []struct {
		first, second, more string
		want                []string
	}{
		{"103", "103", "", []string{"meter_in_order", "apply_correction", "read_meter_again"}},
		{"110", "110", "", []string{"apply_correction", "read_meter_again"}},
		{"110", "110", `,"currentFactor":{"value":120,"unit":"%"}`, []string{"enter_factor", "read_meter_again"}},
		{"110", "110", `,"currentSetting":{"pulses":1,"per":{"value":13,"unit":"cm"}}`, []string{"enter_pulses", "read_meter_again"}},
		{"98", "104", "", []string{"repeat_readings"}},
	} {
		body := `{"meterTolerance":{"value":5,"unit":"%"},"kind":"speed_sensor","readings":[` + reading(c.first) + "," + reading(c.second) + "]" + c.more + "}"
		var a struct{ NextSteps []operation.Notice }
		if err := json.Unmarshal(post(t, "meter-calibration", body).Body.Bytes(), &a); err != nil {
			t.Fatal(err)
		}
		var got []string
		for _, s := range a.NextSteps {
			got = append(got, s.Code)
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s and %s%s: %v, want %v", c.first, c.second, c.more, got, c.want)
		}
	}
}

// reading is one of a speed sensor that was driven 100 m.
func reading(metres string) string {
	return `{"indicated":{"value":` + metres + `,"unit":"m"},"measured":{"value":100,"unit":"m"}}`
}
