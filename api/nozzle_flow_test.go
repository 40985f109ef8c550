package api

import (
	"slices"
	"strings"
	"testing"
)

// TestNozzleFlowNotices: every warning with its pointer and its words. The limits
// are judgement, no published source; see package calc.
func TestNozzleFlowNotices(t *testing.T) {
	catch := func(litres, seconds, bar string) string {
		return `{"volume":{"value":` + litres + `,"unit":"L"},"time":{"value":` + seconds + `,"unit":"s"},"sprayPressure":{"value":` + bar + `,"unit":"bar"}}`
	}
	body := func(at string, catches ...string) string {
		return `{"catches":[` + strings.Join(catches, ",") + `],"predictAt":[{"sprayPressure":{"value":` + at + `,"unit":"bar"}}]}`
	}
	for name, c := range map[string]struct {
		body   string
		warned []string
	}{
		"usual": {body("2", catch("1", "60", "3")), nil},
		"short": {body("2", catch("1", "19", "3")), []string{"#/catches/0/time short_catch"}},
		// 1 to 2 L/min from 1 to 4 bar: the square root
		"mixed": {body("2", catch("1", "60", "1"), catch("2", "60", "4")), []string{"#/catches mixed_pressures"}},
		// 1 to 3 L/min: ln 3 / ln 4 = 0.79; 1 to 8: 1.5
		"unusual exponent":     {body("2", catch("1", "60", "1"), catch("3", "60", "4")), []string{"#/catches mixed_pressures", "#/catches exponent_unusual"}},
		"implausible exponent": {body("2", catch("1", "60", "1"), catch("8", "60", "4")), []string{"#/catches mixed_pressures", "#/catches exponent_implausible"}},
		"far":                  {body("7", catch("1", "60", "3")), []string{"#/predictAt/0/sprayPressure far_prediction"}},
	} {
		t.Run(name, func(t *testing.T) {
			if warned, _, _ := notices(t, "nozzle-flow", c.body); !slices.Equal(warned, c.warned) {
				t.Errorf("warned of %v, want %v", warned, c.warned)
			}
		})
	}
}

// TestNozzleFlowRefusals: what only shows once all members are read.
func TestNozzleFlowRefusals(t *testing.T) {
	const volume, bar = `"volume":{"value":1,"unit":"L"},"time":{"value":60,"unit":"s"}`, `"sprayPressure":{"value":3,"unit":"bar"}`
	for name, c := range map[string]struct {
		body string
		want []string
	}{
		"nothing to predict at": {`{"catches":[{` + volume + `}],"predictAt":[{}]}`, []string{"#/predictAt/0/sprayPressure required"}},
		"no pressure":           {`{"catches":[{` + volume + `}],"predictAt":[{` + bar + `}]}`, []string{"#/sprayPressure pressure_required"}},
		"one without pressure": {
			`{"catches":[{` + volume + `,` + bar + `},{` + volume + `}],"predictAt":[{` + bar + `}]}`,
			[]string{"#/catches/1/sprayPressure pressure_required"},
		},
		"half a nozzle":    {`{"catches":[{` + volume + `,"nozzles":1.5}]}`, []string{"#/catches/0/nozzles wrong_type"}},
		"no nozzles":       {`{"catches":[{` + volume + `,"nozzles":0}]}`, []string{"#/catches/0/nozzles too_small"}},
		"too many nozzles": {`{"catches":[{` + volume + `,"nozzles":1001}]}`, []string{"#/catches/0/nozzles too_large"}},
		"too many catches": {`{"catches":[` + strings.Repeat(`{`+volume+`},`, 1000) + `{` + volume + `}]}`, []string{"#/catches too_many"}},
	} {
		t.Run(name, func(t *testing.T) {
			if codes, _ := refusals(t, "nozzle-flow", c.body); !slices.Equal(codes, c.want) {
				t.Errorf("want %v, got %v", c.want, codes)
			}
		})
	}
}
