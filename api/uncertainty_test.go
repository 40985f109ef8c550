package api

import (
	"encoding/json"
	"net/http"
	"slices"
	"strings"
	"testing"

	"wetrun/api/working"
	"wetrun/calc"
	"wetrun/calc/certainty"
	"wetrun/calc/method"
	"wetrun/internal/text"
)

// twoRuns is the start of a request; the instruments and so on follow.
const twoRuns = `{"runs":[{"courseLength":{"value":30,"unit":"m"},"time":{"value":22.8,"unit":"s"}},
	{"courseLength":{"value":30,"unit":"m"},"time":{"value":23.4,"unit":"s"}NAMES}],`

// anInstrument writes one instrument of a list.
func anInstrument(id, kind, unit, more string) string {
	return `{"id":"` + id + `","kind":"` + kind + `","resolution":{"value":0.01,"unit":"` + unit + `"},"scaleError":{"value":0.1,"unit":"%"}` + more + `}`
}

// TestInstrumentRefusals: what instruments and their names are refused for, at which
// pointer, and what would be allowed.
func TestInstrumentRefusals(t *testing.T) {
	watch, tape, jug := anInstrument("w", "stopwatch", "s", ""), anInstrument("t", "tape", "m", ""), anInstrument("j", "jug", "L", "")
	for name, c := range map[string]struct {
		operation, body, pointer, code string
		allowed                        []string
	}{
		"unknown id":       {"ground-speed", strings.Replace(twoRuns, "NAMES", `,"tape":"x"`, 1) + `"instruments":[` + watch + `,` + tape + `]}`, "#/runs/1/tape", "unknown_instrument", []string{"t"}},
		"unknown, no list": {"ground-speed", strings.Replace(twoRuns, "NAMES", `,"tape":"x"`, 1) + `"uncertainty":false}`, "#/runs/1/tape", "unknown_instrument", nil},
		"another kind":     {"ground-speed", strings.Replace(twoRuns, "NAMES", `,"tape":"w"`, 1) + `"instruments":[` + watch + `,` + tape + `]}`, "#/runs/1/tape", "wrong_instrument", []string{"t"}},
		"not named": {"ground-speed", strings.Replace(twoRuns, "NAMES", ``, 1) + `"instruments":[` + watch + `,` + anInstrument("v", "stopwatch", "s", "") + `]}`,
			"#/runs/0/stopwatch", "instrument_not_named", []string{"w", "v"}},
		"one id twice":        {"ground-speed", strings.Replace(twoRuns, "NAMES", ``, 1) + `"instruments":[` + watch + `,` + watch + `]}`, "#/instruments/1/id", "duplicate_id", nil},
		"an id of nothing":    {"ground-speed", strings.Replace(twoRuns, "NAMES", ``, 1) + `"instruments":[` + anInstrument("", "tape", "m", "") + `]}`, "#/instruments/0/id", "empty", nil},
		"a tape of seconds":   {"ground-speed", strings.Replace(twoRuns, "NAMES", ``, 1) + `"instruments":[` + anInstrument("t", "tape", "s", "") + `]}`, "#/instruments/0/resolution/unit", "wrong_quantity", []string{"ft", "in", "yd", "mi", "m", "cm", "mm", "km"}},
		"a jug that reacts":   {"ground-speed", strings.Replace(twoRuns, "NAMES", ``, 1) + `"instruments":[` + anInstrument("j", "jug", "L", `,"reactionTime":{"value":0.2,"unit":"s"}`) + `]}`, "#/instruments/0/reactionTime", "stopwatch_only", nil},
		"a prior by half":     {"ground-speed", strings.Replace(twoRuns, "NAMES", ``, 1) + `"repeatability":{"runs":{"degreesOfFreedom":3}}}`, "#/repeatability/runs/standardDeviation", "required", nil},
		"a gauge on a sheet":  {"calibrations", `{"pressure":{"readings":[{"pressure":{"value":60,"unit":"psi"},"gauge":"j"}]},"instruments":[` + jug + `]}`, "#/pressure/readings/0/gauge", "wrong_instrument", nil},
		"a sheet's own list":  {"calibrations", `{"speed":` + strings.TrimSuffix(strings.Replace(twoRuns, "NAMES", ``, 1), ",") + `},"instruments":[` + jug + `,` + jug + `]}`, "#/instruments/1/id", "duplicate_id", nil},
		"a tape of a machine": {"calibrations", `{"machine":{"sprayedWidthPerNozzle":{"value":20,"unit":"in"}},"instruments":[` + tape + `,` + anInstrument("u", "tape", "m", "") + `]}`, "#/machine/tape", "instrument_not_named", []string{"t", "u"}},
		"a common gauge":      {"nozzle-flow", `{"catches":[{"volume":{"value":1,"unit":"L"},"time":{"value":60,"unit":"s"}}],"sprayPressure":{"value":3,"unit":"bar"},"gauge":"x"}`, "#/gauge", "unknown_instrument", nil},
		"of what is solved":   {"area-check", `{"volumeUsed":{"value":60,"unit":"L"},"area":{"value":0.2,"unit":"ha"},"standardUncertainties":{"width":{"value":1,"unit":"%"}}}`, "#/width", "required", nil},
	} {
		t.Run(name, func(t *testing.T) {
			_, p := refusals(t, c.operation, c.body)
			found := 0
			for _, e := range p.Errors {
				if e.Pointer == c.pointer && e.Code == c.code && (c.allowed == nil || slices.Equal(e.Allowed, c.allowed)) && e.Detail != "" {
					found++
				}
			}
			if p.Status != http.StatusUnprocessableEntity || found != 1 {
				t.Errorf("%d, %d times %s at %s: %+v", p.Status, found, c.code, c.pointer, p.Errors)
			}
		})
	}
}

// TestUncertaintyCanBeLeftOut: with uncertainty false the answer is the rest of it, but for
// what to do about nozzles, which is how sure one is of them.
func TestUncertaintyCanBeLeftOut(t *testing.T) {
	for _, name := range []string{"ground-speed", "nozzle-flow", "nozzle-acceptance", "pressure-uniformity", "calibrations"} {
		for example, x := range requestExamples(t, name) {
			with := post(t, name, encodeJSON(t, x.Value.Value))
			var request map[string]any
			if err := json.Unmarshal([]byte(encodeJSON(t, x.Value.Value)), &request); err != nil {
				t.Fatal(err)
			}
			request["uncertainty"] = false
			without := post(t, name, encodeJSON(t, request))
			var a, b any
			if json.Unmarshal(with.Body.Bytes(), &a) != nil || json.Unmarshal(without.Body.Bytes(), &b) != nil {
				t.Fatal("not JSON")
			}
			removed := 0
			rest := 0
			same(t, http.StatusOK, without.Code, encodeJSON(t, certain(a, &removed)), encodeJSON(t, certain(b, &rest)))
			if rest != 0 {
				t.Errorf("%s %s: uncertainty all the same", name, example)
			}
			if removed == 0 {
				t.Errorf("%s %s: no uncertainty at all", name, example)
			}
		}
	}
}

// ofUncertainty are the methods of uncertainties and of conformance.
var ofUncertainty = map[string]bool{}

func init() {
	for id := method.ScaleError; id <= method.NormalBelow; id++ {
		ofUncertainty[method.Of(id).ID] = true
	}
}

// certain takes out of an answer what speaks of uncertainty, and counts it.
func certain(v any, removed *int) any {
	switch x := v.(type) {
	case map[string]any:
		for name, member := range x {
			switch name {
			case "uncertainty", "conformanceProbability", "conformance", "conformanceDetail", "measureAgain", "meanConformance", "labelConformance":
				delete(x, name)
				*removed++
			case "actions":
				delete(x, name)
			case "methods":
				x[name] = slices.DeleteFunc(member.([]any), func(id any) bool { return ofUncertainty[id.(string)] })
			case "verdictDetail": // says too that something is too close to be sure
				for _, verdict := range calc.SheetVerdict("").Words() {
					if member == text.Of(text.English, "verdict."+string(verdict)+"_close") {
						x[name] = text.Of(text.English, "verdict."+string(verdict))
					}
				}
			default:
				x[name] = certain(member, removed)
			}
		}
	case []any:
		kept := x[:0]
		for _, item := range x {
			if m, ok := item.(map[string]any); ok && (m["code"] == "settle_catch" || m["code"] == "settle_rate") {
				*removed++
				continue
			}
			kept = append(kept, certain(item, removed))
		}
		return kept
	}
	return v
}

// TestStatedUncertaintiesAreWorded: whichever figure is the uncertain one, a rate at its
// limit says in words what to measure again.
func TestStatedUncertaintiesAreWorded(t *testing.T) {
	const area = `{"volumeUsed":{"value":66,"unit":"L"},"courseLength":{"value":500,"unit":"m"},"width":{"value":4,"unit":"m"},
		"expectedApplicationRate":{"value":300,"unit":"L/ha"},"standardUncertainties":{"NAME":{"value":2,"unit":"%"}}}`
	const rate = `{"nozzleFlowRate":{"value":1.1,"unit":"L/min"},"groundSpeed":{"value":2,"unit":"m/s"},"GIVEN,
		"targetApplicationRate":{"value":100,"unit":"L/ha"},"standardUncertainties":{"NAME":{"value":2,"unit":"%"}}}`
	width := strings.Replace(rate, "GIVEN", `sprayedWidthPerNozzle":{"value":0.8333333333,"unit":"m"}`, 1)
	given := strings.Replace(rate, "GIVEN", `applicationRate":{"value":110,"unit":"L/ha"}`, 1)
	for _, c := range []struct {
		operation, body, name string
		measurement           certainty.Measurement
	}{
		{"area-check", area, "volumeUsed", "volume_used"}, {"area-check", area, "courseLength", "area"}, {"area-check", area, "width", "area"},
		{"area-check", area, "expectedApplicationRate", "application_rate"}, {"application-rate", given, "applicationRate", "application_rate"},
		{"application-rate", width, "nozzleFlowRate", "nozzle_flow_rate"}, {"application-rate", width, "groundSpeed", "ground_speed"},
		{"application-rate", width, "sprayedWidthPerNozzle", "width"},
	} {
		w := post(t, c.operation, strings.Replace(c.body, "NAME", c.name, 1))
		var a struct {
			ConformanceDetail string
			MeasureAgain      *working.MeasureAgainAnswer
		}
		if err := json.Unmarshal(w.Body.Bytes(), &a); err != nil || w.Code != http.StatusOK {
			t.Fatalf("%s: %d %s", c.name, w.Code, w.Body)
		}
		if want := (working.MeasureAgainAnswer{Measurement: c.measurement, How: "again"}); a.MeasureAgain == nil || *a.MeasureAgain != want || a.ConformanceDetail == "" {
			t.Errorf("%s %s: %s", c.operation, c.name, w.Body)
		}
	}
}
