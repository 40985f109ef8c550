package api

import (
	"encoding/json"
	"fmt"
	"net/http"
	"slices"
	"strings"
	"testing"
	"time"

	"wetrun/api/operation"
	"wetrun/calc"
)

const correctionsStart = `{"measured":{"applicationRate":{"value":150,"unit":"L/ha"},"groundSpeed":{"value":6,"unit":"km/h"},
	"sprayPressure":{"value":3,"unit":"bar"},"engineSpeed":{"value":1800,"unit":"rpm"},"dutyCycle":{"value":70,"unit":"%"}},
	"targetApplicationRate":{"value":200,"unit":"L/ha"},"boomEven":true,"resultUnits":"metric"`

// mostAnswered is how large an answer may be, in bytes: what a page or a phone takes at once.
const mostAnswered = 40_000

// TestCorrectionsOfEverything: the most that a request may hold, twelve gears and
// twenty nozzles with all that can be solved and the longest of labels, is answered in time
// and in bounds, with the best of each kind, and with counts of the rest.
func TestCorrectionsOfEverything(t *testing.T) {
	longest := strings.Repeat("ñ", 77) // of 80
	gears, nozzles := make([]string, mostItems("corrections", "gears")), make([]string, mostItems("corrections", "nozzles"))
	for i := range gears {
		gears[i] = fmt.Sprintf(`{"label":"g%02d%s","groundSpeed":{"value":%v,"unit":"km/h"},"engineSpeed":{"value":1800,"unit":"rpm"}}`, i, longest, 3.1+float64(i))
	}
	for i := range nozzles {
		nozzles[i] = fmt.Sprintf(`{"label":"n%02d%s","ratedFlowRate":{"value":%v,"unit":"L/min"},"ratedPressure":{"value":3,"unit":"bar"}}`, i, longest, 0.5+float64(i)/10)
	}
	body := correctionsStart + `,"nozzle":{"size":"03"},"nozzles":[` + strings.Join(nozzles, ",") + `],"gears":[` + strings.Join(gears, ",") + `],
		"limits":{"sprayPressure":{"low":{"value":1,"unit":"bar"},"high":{"value":8,"unit":"bar"}}},
		"dutyCycleLimits":{"low":{"value":30,"unit":"%"},"high":{"value":100,"unit":"%"}},
		"engineSpeedLimits":{"low":{"value":1200,"unit":"rpm"},"high":{"value":2200,"unit":"rpm"}},
		"allowedDropletClasses":["coarse"],
		"pump":{"type":"centrifugal","drive":"shaft","regulation":"relief_valve"}}`
	start := time.Now()
	w := post(t, "corrections", body)
	if w.Code != http.StatusOK {
		t.Fatalf("%d %s", w.Code, w.Body)
	}
	if took := time.Since(start); took > 10*time.Second { // a hundredth of a second on a quiet machine
		t.Errorf("took %v", took)
	}
	if n := w.Body.Len(); n > mostAnswered {
		t.Errorf("%d bytes", n)
	}
	if err := validates("CorrectionsAnswer", w.Body.Bytes()); err != nil {
		t.Error(err)
	}
	var a attemptsRead
	if err := json.Unmarshal(w.Body.Bytes(), &a); err != nil {
		t.Fatal(err)
	}
	combinations := (len(gears)+1)*(len(nozzles)+1) - 1
	if n := len(a.Plans) + a.PlansLeftOut + len(a.Rejected) + a.RejectedLeftOut; len(a.Plans) != calc.MostPlans || len(a.Rejected) != calc.MostRejected || n < 3*combinations {
		t.Errorf("%d and %d of %d attempts at %d combinations", len(a.Plans), len(a.Rejected), n, combinations)
	}
	kinds := map[string]bool{}
	for _, p := range a.Plans {
		kinds[strings.Join(p.Changes, " ")] = true
		if len(p.Remeasure) == 0 || p.Remeasure[len(p.Remeasure)-1] != "application-rate" {
			t.Errorf("it does not say to measure the rate again: %+v", p)
		}
	}
	for _, single := range []string{"speed", "pressure", "engine_speed", "gear", "duty_cycle", "nozzle"} {
		if !kinds[single] || len(kinds) != calc.MostPlans {
			t.Errorf("no plan by %s, only by %v", single, kinds)
		}
	}
}

// attemptsRead is what the test above reads of an answer.
type attemptsRead struct {
	Plans                         []struct{ Changes, Remeasure, Cautions []string }
	Rejected                      []struct{ Reason string }
	PlansLeftOut, RejectedLeftOut int
}

// TestCorrectionsCautions: more pressure calls for the caution of drift, another
// engine speed for that of the shaft; the answer words both once.
func TestCorrectionsCautions(t *testing.T) {
	w := post(t, "corrections", correctionsStart+`,
		"limits":{"sprayPressure":{"low":{"value":1,"unit":"bar"},"high":{"value":8,"unit":"bar"}}},
		"ratedShaft":{"engineSpeed":{"value":2000,"unit":"rpm"}},
		"pump":{"type":"positive_displacement","drive":"independent","regulation":"relief_valve"}}`)
	var a struct {
		Plans []struct {
			Change   string
			Cautions []string
		}
		Cautions []operation.Notice
	}
	if err := json.Unmarshal(w.Body.Bytes(), &a); err != nil || w.Code != http.StatusOK {
		t.Fatal(w.Code, err)
	}
	want := map[string]string{"speed": "", "pressure": "drift", "engine_speed": "shaft_speed"}
	for _, p := range a.Plans {
		if w, ok := want[p.Change]; !ok || strings.Join(p.Cautions, " ") != w {
			t.Errorf("%s has the cautions %v", p.Change, p.Cautions)
		}
		delete(want, p.Change)
	}
	if len(want) != 0 {
		t.Errorf("no plan by %v", want)
	}
	count := map[string]int{}
	for _, c := range a.Cautions {
		count[c.Code]++
	}
	if count["drift"] != 1 || count["shaft_speed"] != 1 {
		t.Errorf("the answer's cautions are %v", a.Cautions)
	}
}

// TestPlansOfNewNozzlesStopTheMachine: whoever fits nozzles opens the boom, so such a plan
// says first to stop the machine and let the pressure out.
func TestPlansOfNewNozzlesStopTheMachine(t *testing.T) {
	sheet := strings.Replace(demo(t, "rate-to-correct"), `"planning": {`, `"planning": {"nozzles": [{"label": "blue", "ratedFlowRate": {"value": 0.17, "unit": "gal_us/min"}, "ratedPressure": {"value": 40, "unit": "psi"}}],`, 1)
	var a struct {
		Correction struct{ Result attemptsRead }
	}
	if w := call(t, http.MethodPost, "/v1/calibrations", sheet); json.Unmarshal(w.Body.Bytes(), &a) != nil {
		t.Fatal(w.Code, w.Body)
	}
	fitted := 0
	for _, p := range a.Correction.Result.Plans {
		first := strings.HasPrefix(strings.Join(p.Cautions, " "), "machine_off pressure_injects")
		fits := slices.Contains(p.Changes, "nozzle")
		if first != fits {
			t.Errorf("a plan by %v has the cautions %v", p.Changes, p.Cautions)
		}
		if fits {
			fitted++
		}
	}
	if fitted == 0 {
		t.Error("no plan by nozzle")
	}
}

// TestCorrectionsController: a regulation by rate controller is the same as
// rateController, and may not be denied there.
func TestCorrectionsController(t *testing.T) {
	pump := `,"pump":{"type":"centrifugal","drive":"shaft","regulation":"rate_controller"}`
	for more, want := range map[string]string{
		pump + "}": `"decision":"calibrate_controller"`, `,"rateController":true}`: `"decision":"calibrate_controller"`,
		pump + `,"rateController":true}`: `"decision":"calibrate_controller"`, pump + `,"rateController":false}`: `"pointer":"#/rateController","code":"conflict"`,
	} {
		if w := post(t, "corrections", correctionsStart+more); !strings.Contains(w.Body.String(), want) {
			t.Errorf("%s: %s", more, w.Body)
		}
	}
}

// TestChartLineOnce: what the chart says at the measured pressure, on which every plan
// by pressure rests, and what other nozzles do to the flow have one line each.
func TestChartLineOnce(t *testing.T) {
	const chart = `"flowChart":[{"pressure":{"value":2,"unit":"bar"},"flowRate":{"value":1,"unit":"L/min"}},{"pressure":{"value":4,"unit":"bar"},"flowRate":{"value":1.4,"unit":"L/min"}}]`
	w := post(t, "corrections", `{"measured":{"applicationRate":{"value":120,"unit":"L/ha"},"groundSpeed":{"value":6,"unit":"km/h"},"sprayPressure":{"value":3,"unit":"bar"}},
		"targetApplicationRate":{"value":100,"unit":"L/ha"},"nozzle":{`+chart+`},"nozzles":[{"label":"B","ratedFlowRate":{"value":1.05,"unit":"L/min"},"ratedPressure":{"value":3,"unit":"bar"}}],
		"limits":{"sprayPressure":{"low":{"value":1,"unit":"bar"},"high":{"value":5,"unit":"bar"}}},"showWorking":true}`)
	var a struct {
		Working []struct{ Method, Member, Substituted string }
	}
	if err := json.Unmarshal(w.Body.Bytes(), &a); err != nil || w.Code != http.StatusOK {
		t.Fatalf("%v %d %.300s", err, w.Code, w.Body)
	}
	seen, charts := map[string]bool{}, 0
	for _, line := range a.Working {
		if line.Member != "" {
			continue
		}
		if seen[line.Method+line.Substituted] {
			t.Errorf("%s stands twice: %s", line.Method, line.Substituted)
		}
		seen[line.Method+line.Substituted] = true
		if line.Method == "flow_chart" {
			charts++
		}
	}
	if charts == 0 {
		t.Error("no line of the chart")
	}
}
