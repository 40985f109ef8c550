package api

import (
	"slices"
	"strings"
	"testing"
)

// TestMissingNamesTheOther: what is missing says what else would do, or what asks for
// it.
func TestMissingNamesTheOther(t *testing.T) {
	const (
		limits = `"maxCoefficientOfVariation":{"value":15,"unit":"%"},"maxPlaceDeviation":{"value":20,"unit":"%"}`
		row    = `{"cupSpacing":{"value":4,"unit":"in"},"volumes":[{"value":10,"unit":"mL"},{"value":10,"unit":"mL"}]}`
		tank   = `"tankVolume":{"value":300,"unit":"gal_us"}`
		rate   = `{"value":20,"unit":"gal_us/acre"}`
		speed  = `{"value":5,"unit":"mph"}`
		length = `{"value":20,"unit":"ft"}`
		bar    = `{"value":2,"unit":"bar"}`
		caught = `{"hours":{"value":0,"unit":"h"},"volume":{"value":40,"unit":"fl_oz_us"},"time":{"value":1,"unit":"min"}}`
		later  = `{"hours":{"value":9,"unit":"h"},"volume":{"value":41,"unit":"fl_oz_us"},"time":{"value":1,"unit":"min"}}`
	)
	for _, c := range []struct {
		path, body, pointer, names string
	}{
		{"pattern-uniformity", `{` + limits + `}`, "#/readings", "give instead: nozzlePattern."},
		{"pattern-uniformity", `{` + limits + `,"spacing":` + length + `,"nozzleSpacing":` + length + `,"nozzlePattern":` + row + `}`, "#/readings", "and spacing needs it"},
		{"pattern-uniformity", `{` + limits + `,"nozzlePattern":` + row + `}`, "#/nozzleSpacing", "give instead: spacingRange."},
		{"tank-loads", `{` + tank + `,"applicationRate":` + rate + `}`, "#/treatedArea", "give instead: fieldArea."},
		{"tank-loads", `{` + tank + `,"applicationRate":` + rate + `,"width":` + length + `}`, "#/fieldArea", "and width needs it"},
		{"nozzle-selection", `{"targetApplicationRate":` + rate + `,"sprayedWidthPerNozzle":` + length + `,"pressureRange":{"low":` + bar + `,"high":` + bar + `}}`, "#/groundSpeed", "give instead: speedRange."},
		{"nozzle-selection", `{"targetApplicationRate":` + rate + `,"groundSpeed":` + speed + `,"pressureRange":{"low":` + bar + `,"high":` + bar + `}}`, "#/sprayedWidthPerNozzle", "give instead: width, nozzles."},
		{"wear-forecast", `{"sprayPressure":` + bar + `,"catches":[` + caught + `,` + later + `,` + later + `]}`, "#/newFlowRate", "give instead: nozzle."},
		{"pump-demand", `{"nozzles":4}`, "#/nozzleFlowRate", "give instead: nozzle, nozzleGroups."},
		{"pump-demand", `{"nozzles":4,"nozzle":{"size":"02"}}`, "#/sprayPressure", "and nozzle needs it"},
		{"field-capacity", `{"groundSpeed":` + speed + `,"workingWidth":` + length + `,"refillTime":{"value":15,"unit":"min"}}`, "#/tankVolume", "and refillTime needs it"},
		{"corrections", `{"measured":{"applicationRate":` + rate + `,"groundSpeed":` + speed + `},"targetApplicationRate":` + rate + `,"gears":[{"label":"A","groundSpeed":` + speed + `,"engineSpeed":{"value":1900,"unit":"rpm"}}]}`, "#/measured/engineSpeed", "and gears needs it"},
	} {
		found := false
		_, p := refusals(t, c.path, c.body)
		for _, e := range p.Errors {
			found = found || e.Pointer == c.pointer && e.Code == "required" && strings.Contains(e.Detail, c.names)
		}
		if !found {
			t.Errorf("%s %s: no %q at %s in %+v", c.path, c.body, c.names, c.pointer, p.Errors)
		}
	}
}

// TestEverythingWrongAtOnce: what the calculation refuses is listed beside what is
// refused before it, without what only follows from that.
func TestEverythingWrongAtOnce(t *testing.T) {
	const (
		rate  = `"targetApplicationRate":{"value":20,"unit":"gal_us/acre"}`
		bars  = `"pressureRange":{"low":{"value":2,"unit":"bar"},"high":{"value":4,"unit":"bar"}}`
		catch = `"volume":{"value":40,"unit":"fl_oz_us"},"time":{"value":1,"unit":"min"}`
	)
	for _, c := range []struct {
		path, body string
		pointers   []string
	}{
		{"nozzle-selection", `{` + rate + `}`, []string{"#/pressureRange", "#/groundSpeed", "#/sprayedWidthPerNozzle"}},
		{"nozzle-selection", `{` + rate + `,` + bars + `,"sizes":["02","02"],"sizeRating":"x"}`,
			[]string{"#/sizeRating", "#/groundSpeed", "#/sprayedWidthPerNozzle", "#/sizes/1"}},
		{"wear-forecast", `{"catches":[]}`, []string{"#/catches", "#/sprayPressure", "#/newFlowRate"}},
		{"wear-forecast", `{"catches":[{"hours":{"value":1,"unit":"h"},"date":"2026-05-01",` + catch + `},{"date":"2026-06-01",` + catch + `},{` + catch + `}],"limit":1}`,
			[]string{"#/limit", "#/sprayPressure", "#/catches/0/hours", "#/catches/2/date", "#/newFlowRate"}},
		// What could not be read is not missed, nor what it would stand in for.
		{"wear-forecast", `{"catches":[{"date":"May",` + catch + `},{"hours":{"value":1,"unit":"h"},` + catch + `},{"hours":{"value":2,"unit":"h"},` + catch + `}],
			"sprayPressure":{"value":2,"unit":"bar"},"nozzle":{"size":"99"}}`, []string{"#/catches/0/date", "#/nozzle/size"}},
		{"ground-speed", `{"runs":[{"courseLength":5,"time":{"value":20,"unit":"s"}}]}`, []string{"#/runs/0/courseLength"}},
		{"pattern-uniformity", `{"readings":[{"volume":1},{"volume":1}],"maxCoefficientOfVariation":{"value":15,"unit":"%"}}`,
			[]string{"#/readings/0/volume", "#/readings/1/volume", "#/maxPlaceDeviation"}},
	} {
		var got []string
		_, p := refusals(t, c.path, c.body)
		for _, e := range p.Errors {
			got = append(got, e.Pointer)
		}
		slices.Sort(got)
		if slices.Sort(c.pointers); !slices.Equal(got, c.pointers) {
			t.Errorf("%s %s: %q, want %q", c.path, c.body, got, c.pointers)
		}
	}
}
