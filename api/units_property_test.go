package api

import (
	"encoding/json"
	"fmt"
	"maps"
	"math"
	"net/http"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"wetrun/api/operation"
	"wetrun/calc/unit"
)

// TestPropertyUnitsChangeNothing sends the examples of every operation once more, with
// each quantity in any other unit of its kind, answered in US units or in metric ones,
// and some of them made a little larger or smaller first: the answers are the same,
// word by word and quantity by quantity.
func TestPropertyUnitsChangeNothing(t *testing.T) {
	for _, o := range operation.All {
		if o.Name == "convert" { // whose answer is a unit
			continue
		}
		examples := requestExamples(t, o.Name)
		names := slices.Sorted(maps.Keys(examples))
		t.Run(o.Name, func(t *testing.T) {
			rapid.Check(t, func(t *rapid.T) {
				body := encodeJSON(t, examples[rapid.SampledFrom(names).Draw(t, "example")].Value.Value)
				request := decodeJSON(t, body).(map[string]any)
				if rapid.Bool().Draw(t, "changed") {
					quantities(request, func(q map[string]any) {
						q["value"] = q["value"].(float64) * rapid.SampledFrom([]float64{1, 1, 1, 0.9, 1.1, 1.02}).Draw(t, "factor")
					})
				}
				delete(request, "resultUnits")
				first := encodeJSON(t, request)
				request["resultUnits"] = rapid.SampledFrom([]string{"us", "metric"}).Draw(t, "answer in")
				quantities(request, func(q map[string]any) {
					from := unit.Lookup(q["unit"].(string))
					to := unit.Lookup(rapid.SampledFrom(from.Kind().Symbols()).Draw(t, "unit"))
					q["value"], q["unit"] = q["value"].(float64)*from.Factor()/to.Factor(), to.Symbol()
				})
				second := encodeJSON(t, request)
				a, b := call(t, http.MethodPost, "/v1/"+o.Name, first), call(t, http.MethodPost, "/v1/"+o.Name, second)
				if diff := apart("", decodeJSON(t, a.Body.String()), decodeJSON(t, b.Body.String())); a.Code != b.Code || diff != "" {
					t.Fatalf("%d and %d, %s\n%s\n%s", a.Code, b.Code, diff, first, second)
				}
			})
		})
	}
}

func decodeJSON(t rapid.TB, text string) (v any) {
	if err := json.Unmarshal([]byte(text), &v); err != nil {
		t.Fatal(err)
	}
	return v
}

// quantities calls f with every quantity, in an order that does not change.
func quantities(v any, f func(map[string]any)) {
	switch v := v.(type) {
	case map[string]any:
		if _, ok := si(v); ok {
			f(v)
			return
		}
		for _, k := range slices.Sorted(maps.Keys(v)) {
			quantities(v[k], f)
		}
	case []any:
		for _, x := range v {
			quantities(x, f)
		}
	}
}

// apart says where two answers differ; it is empty where they do not. An answer has
// six digits, and of what is nearly nothing in % only what six digits of a whole leave.
func apart(at string, a, b any) string {
	if x, ok := a.(map[string]any); ok {
		y, ok := b.(map[string]any)
		if !ok {
			return at + ": no object"
		}
		if p, ok := si(x); ok {
			q, ok := si(y)
			if !ok || math.Abs(p-q) > 2e-5*math.Max(math.Abs(p), math.Abs(q)) && math.Abs(p-q) > leftover(x) {
				return fmt.Sprintf("%s: %v and %v", at, x, y)
			}
			return ""
		}
		if per, ok := x["per"].(map[string]any); ok && x["pulses"] != nil { // so many to another amount
			one, _ := si(per)
			other, _ := si(y["per"].(map[string]any))
			return apart(at+"/pulses", x["pulses"].(float64)/one, y["pulses"].(float64)/other)
		}
		for k := range y {
			if _, ok := x[k]; !ok {
				return at + ": only the second has " + k
			}
		}
		for k := range x {
			if k == "working" { // written in the units that came
				continue
			}
			if k == "methods" {
				x[k], y[k] = butConversion(x[k]), butConversion(y[k])
			}
			if k == "text" { // names a nozzle by the rating that came
				x[k], y[k] = butNozzle(x[k]), butNozzle(y[k])
			}
			if slices.Contains([]any{"check_entry", "doubtful_entry", "aim_lower"}, x["code"]) && (k == "text" || k == "detail" || k == "slip") {
				continue // worded in the unit that was typed
			}
			if strings.HasPrefix(at, "/errors") && (k == "detail" || k == "limit") || at == "/wouldFit" && k == "detail" || k == "requestId" { // worded in the unit that came, or that is asked for
				continue
			}
			if _, ok := y[k]; !ok {
				return at + ": only the first has " + k
			}
			if diff := apart(at+"/"+k, x[k], y[k]); diff != "" {
				return diff
			}
		}
		return ""
	}
	if x, ok := a.([]any); ok {
		y, ok := b.([]any)
		if !ok || len(x) != len(y) {
			return fmt.Sprintf("%s: lists of %d and %d", at, len(x), len(y))
		}
		for i := range x {
			if diff := apart(fmt.Sprintf("%s/%d", at, i), x[i], y[i]); diff != "" {
				return diff
			}
		}
		return ""
	}
	if x, ok := a.(float64); ok {
		y, ok := b.(float64)
		if !ok || math.Abs(x-y) > 2e-5*math.Max(math.Abs(x), math.Abs(y)) {
			return fmt.Sprintf("%s: %v and %v", at, a, b)
		}
		return ""
	}
	if a != b {
		return fmt.Sprintf("%s: %v and %v", at, a, b)
	}
	return ""
}

// butNozzle leaves out which new nozzle is asked for.
func butNozzle(words any) any {
	text, _ := words.(string)
	for _, asked := range []string{"a new one, ", "a new nozzle, "} {
		before, after, asks := strings.Cut(text, asked)
		if _, then, ok := strings.Cut(after, ", and "); asks && ok {
			return before + then
		}
	}
	return words
}

// leftover is what a difference of two nearly equal quantities may be.
func leftover(q map[string]any) float64 {
	if unit.Lookup(q["unit"].(string)).Kind() == unit.KindRatio {
		return 1e-8
	}
	return 0
}

// butConversion leaves out the method that an answer needs in some units alone.
func butConversion(methods any) any {
	all, _ := methods.([]any)
	return slices.DeleteFunc(all, func(id any) bool { return id == "unit_conversion" })
}
