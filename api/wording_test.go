package api

import (
	"strings"
	"testing"
)

// TestRefusalsNameTheOtherMember reads aloud what hangs on another member: a
// person has to learn from the words which two it is about.
func TestRefusalsNameTheOtherMember(t *testing.T) {
	const flow = `"nozzleFlowRate":{"value":0.4,"unit":"gal_us/min"}`
	const rest = `"groundSpeed":{"value":5,"unit":"mph"}`
	const width = `"width":{"value":60,"unit":"in"}`
	const each = `"sprayedWidthPerNozzle":{"value":20,"unit":"in"}`
	const rows = `"rowSpacing":{"value":60,"unit":"in"}`
	const volume = `"volumeUsed":{"value":21,"unit":"gal_us"}`
	for name, c := range map[string]struct{ operation, body, pointer, words string }{
		"width without nozzles":   {"application-rate", `{` + flow + `,` + rest + `,` + width + `}`, "#/nozzles", "and width needs it."},
		"rows without width":      {"application-rate", `{` + flow + `,` + rest + `,` + each + `,` + rows + `}`, "#/width", "and rowSpacing needs it."},
		"field without rows":      {"application-rate", `{` + flow + `,` + rest + `,` + each + `,"rateBasis":"field"}`, "#/rowSpacing", "and rateBasis needs it."},
		"nozzle without pressure": {"application-rate", `{` + each + `,` + rest + `,"nozzle":{"size":"04"}}`, "#/sprayPressure", "and nozzle needs it."},
		"both widths":             {"application-rate", `{` + flow + `,` + rest + `,` + each + `,` + width + `,"nozzles":3}`, "#/width", "contradicts sprayedWidthPerNozzle."},
		"flow and nozzle":         {"application-rate", `{` + flow + `,` + rest + `,` + each + `,"nozzle":{"size":"04"},"sprayPressure":{"value":40,"unit":"psi"}}`, "#/nozzle", "contradicts nozzleFlowRate."},
		"rating and size":         {"nozzle-acceptance", `{"catches":[{"volume":{"value":1,"unit":"L"},"time":{"value":60,"unit":"s"}}],"nozzle":{"size":"04","ratedPressure":{"value":40,"unit":"psi"}}}`, "#/nozzle/size", "contradicts nozzle.ratedPressure."},
		"half a rating":           {"nozzle-acceptance", `{"catches":[{"volume":{"value":1,"unit":"L"},"time":{"value":60,"unit":"s"}}],"nozzle":{"ratedPressure":{"value":40,"unit":"psi"}}}`, "#/nozzle/ratedFlowRate", "and nozzle.ratedPressure needs it."},
		"rating of no size":       {"nozzle-acceptance", `{"catches":[{"volume":{"value":1,"unit":"L"},"time":{"value":60,"unit":"s"}}],"nozzle":{"sizeRating":"us_40_psi"}}`, "#/nozzle/size", "and nozzle.sizeRating needs it."},
		"no area":                 {"area-check", `{` + volume + `}`, "#/area", "give instead: courseLength, width."},
		"half a course":           {"area-check", `{` + volume + `,"passes":2,` + width + `}`, "#/courseLength", "and width needs it."},
		"area and passes":         {"area-check", `{` + volume + `,"passes":2,"area":{"value":1,"unit":"acre"}}`, "#/area", "contradicts passes."},
		"nothing to predict":      {"nozzle-flow", `{"catches":[{"volume":{"value":1,"unit":"L"},"time":{"value":60,"unit":"s"}}],"predictAt":[{}]}`, "#/predictAt/0/sprayPressure", "give instead: relativeDensity, liquidDensity."},
		"bed without nozzles":     {"calibrations", `{"machine":{"bedWidth":{"value":40,"unit":"in"}}}`, "#/machine/nozzlesPerBed", "and machine.bedWidth needs it."},
		"bare number":             {"ground-speed", `{"runs":[{"courseLength":100}]}`, "#/runs/0/courseLength", "with value, a number, and unit, one of: ft, in,"},
		"list of numbers":         {"pressure-uniformity", `{"readings":[60]}`, "#/readings/0", "with any of these fields: label, position, pressure, gauge."},
		"number in quotes":        {"application-rate", `{"nozzles":"3"}`, "#/nozzles", "without quotes"},
		"half a nozzle":           {"application-rate", `{"nozzles":2.5}`, "#/nozzles", "a whole number"},
		"one run":                 {"ground-speed", `{"runs":{}}`, "#/runs", "in square brackets"},
		"number as label":         {"calibrations", `{"label":1}`, "#/label", "text in quotes"},
		"yes":                     {"corrections", `{"rateController":"yes"}`, "#/rateController", "true or false"},
	} {
		t.Run(name, func(t *testing.T) {
			_, p := refusals(t, c.operation, c.body)
			for _, e := range p.Errors {
				if e.Pointer == c.pointer && strings.Contains(e.Detail, c.words) {
					return
				}
			}
			t.Errorf("no error at %s says %q: %+v", c.pointer, c.words, p.Errors)
		})
	}
}

// TestBrokenTextListsNoMembers: what is missing may stand behind the break.
func TestBrokenTextListsNoMembers(t *testing.T) {
	for body, words := range map[string]string{"": "The body is empty.", " \n": "The body is empty.", `{"a":1,,"runs":[]}`: "line 1, column 8 (byte 7,"} {
		_, p := refusals(t, "ground-speed", body)
		if p.Status != 400 || len(p.Errors) > 0 || !strings.Contains(p.Detail, words) {
			t.Errorf("%q: %+v", body, p)
		}
	}
}

// TestSpellingsAreExplained: a unit that may be two is refused with both.
func TestSpellingsAreExplained(t *testing.T) {
	_, p := refusals(t, "nozzle-flow", `{"catches":[{"volume":{"value":15,"unit":"oz"},"time":{"value":30,"unit":"s"}}]}`)
	if len(p.Errors) != 1 || p.Errors[0].Code != "ambiguous_unit" || !strings.Contains(p.Errors[0].Detail, "fl_oz_us, fl_oz_imp") {
		t.Errorf("ounces of a volume: %+v", p.Errors)
	}
}
