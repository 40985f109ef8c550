package api

import (
	"encoding/json"
	"math"
	"net/http"
	"slices"
	"strings"
	"testing"

	"wetrun/api/operation"
	"wetrun/api/wire"
)

// refusals posts body and returns pointer and code of each error.
func refusals(t *testing.T, operation, body string) (codes []string, p wire.Problem) {
	t.Helper()
	w := post(t, operation, body)
	if w.Code != http.StatusUnprocessableEntity && w.Code != http.StatusBadRequest {
		t.Fatalf("%d %s for %.300s", w.Code, w.Body, body)
	}
	if err := json.Unmarshal(w.Body.Bytes(), &p); err != nil {
		t.Fatal(err)
	}
	for _, e := range p.Errors {
		codes = append(codes, e.Pointer+" "+e.Code)
	}
	return codes, p
}

// TestStrictMembers reads the refusals of one operation: the decoder is the same
// for all.
func TestStrictMembers(t *testing.T) {
	run := func(s string) string { return `{"runs":[` + s + `]}` }
	const length, time = `"courseLength":{"value":100,"unit":"ft"}`, `"time":{"value":20,"unit":"s"}`
	for name, c := range map[string]struct {
		body string
		want []string
	}{
		"missing":            {`{}`, []string{"#/runs required"}},
		"missing below":      {run(`{` + length + `}`), []string{"#/runs/0/time required"}},
		"missing in two":     {run(`{` + length + `},{` + time + `}`), []string{"#/runs/0/time required", "#/runs/1/courseLength required"}},
		"unknown":            {`{"colour":1,"runs":[{` + length + `,` + time + `}]}`, []string{"#/colour unknown_member"}},
		"misspelt":           {run(`{"coarseLength":1,` + time + `}`), []string{"#/runs/0/coarseLength misspelt_member", "#/runs/0/courseLength required"}},
		"cut short":          {run(`{"courseLen":1,` + time + `}`), []string{"#/runs/0/courseLen misspelt_member", "#/runs/0/courseLength required"}},
		"wrong case":         {run(`{` + length + `,"Time":1}`), []string{"#/runs/0/Time wrong_case", "#/runs/0/time required"}},
		"duplicate":          {run(`{` + length + `,` + time + `,` + time + `}`), []string{"#/runs/0/time duplicate_member"}},
		"duplicate escaped":  {run(`{` + length + `,` + time + `,"tim\u0065":1}`), []string{"#/runs/0/time duplicate_member"}},
		"duplicate value":    {run(`{` + length + `,"time":{"value":20,"value":21,"unit":"s"}}`), []string{"#/runs/0/time/value duplicate_member"}},
		"null":               {run(`{` + length + `,"time":null}`), []string{"#/runs/0/time null_value"}},
		"null value":         {run(`{` + length + `,"time":{"value":null,"unit":"s"}}`), []string{"#/runs/0/time/value null_value"}},
		"null list":          {`{"runs":null}`, []string{"#/runs null_value"}},
		"null body":          {`null`, []string{"# null_value"}},
		"array body":         {`[]`, []string{"# wrong_type"}},
		"bare number":        {run(`{` + length + `,"time":20}`), []string{"#/runs/0/time wrong_type"}},
		"string value":       {run(`{` + length + `,"time":{"value":"20","unit":"s"}}`), []string{"#/runs/0/time/value wrong_type"}},
		"no unit":            {run(`{` + length + `,"time":{"value":20}}`), []string{"#/runs/0/time/unit unit_required"}},
		"no value":           {run(`{` + length + `,"time":{"unit":"s"}}`), []string{"#/runs/0/time/value required"}},
		"wrong quantity":     {run(`{` + length + `,"time":{"value":20,"unit":"ft"}}`), []string{"#/runs/0/time/unit wrong_quantity"}},
		"unit in wrong case": {run(`{` + length + `,"time":{"value":20,"unit":"S"}}`), []string{"#/runs/0/time/unit misspelt_unit"}},
		"unknown unit":       {run(`{` + length + `,"time":{"value":20,"unit":"fortnight"}}`), []string{"#/runs/0/time/unit unknown_unit"}},
		"zero":               {run(`{` + length + `,"time":{"value":0,"unit":"s"}}`), []string{"#/runs/0/time/value not_positive"}},
		"minus zero":         {run(`{` + length + `,"time":{"value":-0.0,"unit":"s"}}`), []string{"#/runs/0/time/value not_positive"}},
		"negative":           {run(`{` + length + `,"time":{"value":-5,"unit":"s"}}`), []string{"#/runs/0/time/value not_positive"}},
		"tiny":               {run(`{` + length + `,"time":{"value":1e-320,"unit":"s"}}`), []string{"#/runs/0/time/value too_small"}},
		"huge":               {run(`{` + length + `,"time":{"value":1e308,"unit":"s"}}`), []string{"#/runs/0/time/value too_large"}},
		"beyond double":      {run(`{` + length + `,"time":{"value":1e999,"unit":"s"}}`), []string{"#/runs/0/time/value too_large"}},
		"below double":       {run(`{` + length + `,"time":{"value":-1e999,"unit":"s"}}`), []string{"#/runs/0/time/value not_positive"}},
		"empty list":         {`{"runs":[]}`, []string{"#/runs too_few"}},
		"101 runs":           {run(strings.Repeat(`{`+length+`,`+time+`},`, 100) + `{` + length + `,` + time + `}`), []string{"#/runs too_many"}},
		"long label":         {run(`{"label":"` + strings.Repeat("é", 81) + `",` + length + `,` + time + `}`), []string{"#/runs/0/label too_long"}},
		"word not allowed":   {`{"resultUnits":"US","runs":[{` + length + `,` + time + `}]}`, []string{"#/resultUnits not_allowed"}},
		"empty word":         {`{"resultUnits":"","runs":[{` + length + `,` + time + `}]}`, []string{"#/resultUnits not_allowed"}},
		"strange name":       {`{"a/b~c d%":1,"runs":[{` + length + `,` + time + `}]}`, []string{"#/a~1b~0c%20d%25 unknown_member"}},
		"nested in unknown":  {`{"x":{"runs":[1,2,{"y":null}]},"runs":[{` + length + `,` + time + `}]}`, []string{"#/x unknown_member"}},
	} {
		t.Run(name, func(t *testing.T) {
			codes, p := refusals(t, "ground-speed", c.body)
			if !slices.Equal(codes, c.want) {
				t.Errorf("want %v, got %v", c.want, codes)
			}
			for _, e := range p.Errors {
				if e.Detail == "" || strings.Contains(e.Detail, "problem.") || strings.Contains(e.Detail, "wording.") || strings.ContainsAny(e.Detail, "%{") && !strings.Contains(e.Detail, "%,") {
					t.Errorf("%s: worded as %q", e.Pointer, e.Detail)
				}
			}
		})
	}
	if codes, _ := refusals(t, "ground-speed", run(strings.Repeat(`{},`, 99)+`{}`)); len(codes) != wire.MostErrors {
		t.Errorf("200 mistakes are listed as %d errors, want %d", len(codes), wire.MostErrors)
	}
}

// TestAmbiguousGallon reads both that a bare gal could mean.
func TestAmbiguousGallon(t *testing.T) {
	for unit, want := range map[string][]string{
		"gal": {"gal_us", "gal_imp"}, "fl_oz": {"fl_oz_us", "fl_oz_imp"}, "pt": {"pt_us"},
		"Gallons": {"gal_us", "gal_imp"}, "gpm": {"gal_us/min", "gal_imp/min"}, "GPA": {"gal_us/acre", "gal_imp/acre"},
		"gal/ac": {"gal_us/acre", "gal_imp/acre"}, "gal/minute": {"gal_us/min", "gal_imp/min"},
		"feet": {"ft"}, "sec": {"s"}, "liters/ha": {"L/ha"}, "kph": {"km/h"}, "psig": {"psi"}, "percent": {"%"},
	} {
		_, p := refusals(t, "convert", `{"quantity":{"value":1,"unit":"`+unit+`"},"to":"L"}`)
		if len(p.Errors) != 1 || p.Errors[0].Pointer != "#/quantity/unit" || !slices.Equal(p.Errors[0].Allowed, want) {
			t.Errorf("%s: %+v", unit, p.Errors)
		}
	}
}

// TestNotOneJSONText is refused with 400, whatever the operation.
func TestNotOneJSONText(t *testing.T) {
	for name, body := range map[string]string{
		"empty":          "",
		"space":          " \n",
		"two values":     `{} {}`,
		"more after":     `{"runs":[]}x`,
		"form":           `runs=1&time=2`,
		"NaN":            `{"runs":NaN}`,
		"Infinity":       `{"runs":[{"time":{"value":Infinity}}]}`,
		"cut short":      `{"runs":[{"time":`,
		"single quotes":  `{'runs':1}`,
		"trailing comma": `{"runs":[],}`,
		"comment":        `{/* none */}`,
		"not UTF-8":      "{\"\xff\":1}",
		"byte order":     "\ufeff{}",
		"lone surrogate": `{"\ud800":1}`,
	} {
		for _, o := range operation.All {
			_, p := refusals(t, o.Name, body)
			if p.Status != http.StatusBadRequest || p.Type != "/problems/not_json" {
				t.Errorf("%s to %s: %+v", name, o.Name, p)
			}
		}
	}
}

// TestDeepNesting is refused, not followed, however deep.
func TestDeepNesting(t *testing.T) {
	for _, body := range []string{
		strings.Repeat("[", 100_000),
		strings.Repeat("[", 100_000) + strings.Repeat("]", 100_000),
		`{"runs":` + strings.Repeat("[", 50_000) + strings.Repeat("]", 50_000) + `}`,
		strings.Repeat(`{"a":`, 40_000) + "1" + strings.Repeat("}", 40_000),
	} {
		_, p := refusals(t, "ground-speed", body)
		if p.Status != http.StatusUnprocessableEntity {
			t.Errorf("%.20s: %+v", body, p)
		}
	}
}

// TestNumberFormatting holds the one function that rounds.
func TestNumberFormatting(t *testing.T) {
	for _, c := range []struct {
		x    float64
		want string
	}{
		{0, "0"}, {math.Copysign(0, -1), "0"}, {1, "1"}, {-2.5, "-2.5"}, {1.0 / 3, "0.333333"}, {2.0 / 3e3, "0.000666667"},
		{123456.7, "123457"}, {999999.6, "1000000"}, {1234567, "1234570"}, {1e20, "100000000000000000000"}, {1.23456789e21, "1.23457e+21"},
		{0.00001234567, "0.0000123457"}, {1.23456789e-9, "1.23457e-09"},
	} {
		if got := string(wire.AppendNumber(nil, c.x)); got != c.want {
			t.Errorf("%v is written %s, want %s", c.x, got, c.want)
		}
	}
}
