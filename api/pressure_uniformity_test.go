package api

import (
	"encoding/json"
	"net/http"
	"slices"
	"strings"
	"testing"

	"wetrun/api/operation"
)

// notices posts a body that must be answered, and returns warnings as pointer and
// code, and the codes of the next steps.
func notices(t *testing.T, name, body string) (warned, steps []string, answer map[string]any) {
	t.Helper()
	w := post(t, name, body)
	if w.Code != http.StatusOK {
		t.Fatalf("%d %s for %s", w.Code, w.Body, body)
	}
	var a struct {
		Warnings  []operation.Warning
		NextSteps []operation.Notice
		Cautions  []operation.Notice
	}
	if json.Unmarshal(w.Body.Bytes(), &a) != nil || json.Unmarshal(w.Body.Bytes(), &answer) != nil {
		t.Fatal("not JSON")
	}
	for _, x := range a.Warnings {
		warned = append(warned, x.Pointer+" "+x.Code)
		if strings.HasPrefix(x.Detail, "warning.") {
			t.Errorf("%s has no words", x.Code)
		}
	}
	for _, x := range append(a.NextSteps, a.Cautions...) {
		if strings.HasPrefix(x.Text, "next.") || strings.HasPrefix(x.Text, "caution.") {
			t.Errorf("%s has no words", x.Code)
		}
	}
	for _, x := range a.NextSteps {
		steps = append(steps, x.Code)
	}
	return warned, steps, answer
}

// TestPressureUniformityNotices: what is unusual, and what is to be done, each
// with its pointer. 6 psi beside 4 lets a nozzle give sqrt(1.5) = 1.22 times as much. Limits are common practice, 10 % for the cab is published; see
// package calc.
func TestPressureUniformityNotices(t *testing.T) {
	psi := func(x string) string { return `{"value":` + x + `,"unit":"psi"}` }
	readings := func(values ...string) string {
		for i, v := range values {
			values[i] = `{"pressure":` + psi(v) + `}`
		}
		return `{"readings":[` + strings.Join(values, ",") + `]`
	}
	for name, c := range map[string]struct {
		body          string
		warned, steps []string
	}{
		"even":    {readings("100", "105", "110") + `}`, nil, nil},
		"a share": {readings("50", "55", "60") + `}`, []string{"#/readings pressure_share_wide"}, nil}, // 10 of 55 psi
		"uneven":  {readings("50", "55", "60.1") + `}`, nil, []string{"repair_boom"}},
		"single":  {readings("50") + `}`, []string{"#/readings single_reading"}, nil},
		"two":     {readings("50", "61") + `}`, []string{"#/readings few_readings"}, []string{"repair_boom"}},
		"cab":     {readings("50", "50", "50") + `,"cabPressure":` + psi("55") + `}`, nil, nil},
		"cab off": {readings("50", "50", "50") + `,"cabPressure":` + psi("44") + `}`, []string{"#/cabPressure cab_gauge_differs"}, []string{"check_cab_gauge"}},
		"unusual": {
			readings("4", "6", "6") + `,"targetPressure":` + psi("1001") + `}`,
			[]string{"#/readings flow_spread_wide", "#/readings pressure_share_wide", "#/readings/0 unusual_pressure", "#/targetPressure unusual_pressure", "#/targetPressure doubtful_entry"}, nil,
		},
		"range": {
			readings("30", "40", "40") + `,"targetPressure":` + psi("61") + `,"pressureRange":{"low":` + psi("35") + `,"high":` + psi("60") + `}}`,
			[]string{"#/readings pressure_share_wide", "#/readings/0 pressure_outside_nozzle_range", "#/targetPressure pressure_outside_nozzle_range"}, nil,
		},
	} {
		t.Run(name, func(t *testing.T) {
			warned, steps, _ := notices(t, "pressure-uniformity", c.body)
			if !slices.Equal(warned, c.warned) || !slices.Equal(steps, c.steps) {
				t.Errorf("warned of %v, want %v; next %v, want %v", warned, c.warned, steps, c.steps)
			}
		})
	}
}

// TestPressureUniformityLeavesOut: what was not asked for, or cannot be, is left
// out instead of being zero; what is zero is there.
func TestPressureUniformityLeavesOut(t *testing.T) {
	for name, c := range map[string]struct {
		body      string
		in, notIn []string
	}{
		"one reading": {
			`{"readings":[{"pressure":{"value":5,"unit":"psi"}}]}`,
			[]string{"spread", "flowSpread"},
			// 10 psi about 5 psi reaches down to zero.
			[]string{"withinTolerance", "cabOffset", "cabPressureForTarget", "meanWithinRange", "nextSteps", "flowSpreadAtMaxDifference"},
		},
		"nearly no difference": {
			`{"readings":[{"pressure":{"value":500,"unit":"psi"}}],"maxDifference":{"value":1e-9,"unit":"psi"},"cabPressure":{"value":500,"unit":"psi"}}`,
			[]string{"flowSpreadAtMaxDifference", "cabOffset"}, []string{"cabPressureForTarget"},
		},
		"target alone": {
			`{"readings":[{"pressure":{"value":50,"unit":"psi"}}],"targetPressure":{"value":40,"unit":"psi"}}`,
			nil, []string{"cabPressureForTarget"},
		},
	} {
		_, _, answer := notices(t, "pressure-uniformity", c.body)
		for _, m := range c.in {
			if answer[m] == nil {
				t.Errorf("%s: %s is missing", name, m)
			}
		}
		for _, m := range c.notIn {
			if answer[m] != nil {
				t.Errorf("%s: %s is %v", name, m, answer[m])
			}
		}
	}
	// The cab shows 30 psi less than the boom: for 20 psi at the boom it would have to
	// show -10 psi, if its gauge is wrong. If hoses lose it: 20 x 20 / 50 = 8 psi.
	_, _, answer := notices(t, "pressure-uniformity",
		`{"readings":[{"pressure":{"value":50,"unit":"psi"}}],"cabPressure":{"value":20,"unit":"psi"},"targetPressure":{"value":20,"unit":"psi"}}`)
	holds(t, "#", map[string]any{
		"cabOffset":            map[string]any{"value": -30.0, "unit": "psi"},
		"cabPressureForTarget": map[string]any{"ifHoseLoss": map[string]any{"value": 8.0, "unit": "psi"}},
	}, answer, 1e-9)
	if cab, _ := answer["cabPressureForTarget"].(map[string]any); cab["ifGaugeError"] != nil {
		t.Errorf("a cab reading below zero was answered: %v", cab)
	}
}
