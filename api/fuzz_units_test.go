package api

import (
	"encoding/json"
	"math"
	"net/http"
	"net/url"
	"strings"
	"testing"
	"unicode/utf8"

	"wetrun/api/wire"
	"wetrun/calc/unit"
)

// FuzzUnits converts any number from and to anything. What is taken comes back, and
// what is not names a unit that would be taken.
func FuzzUnits(f *testing.F) {
	for _, u := range unit.All() {
		symbols := u.Quantity.Symbols()
		f.Add(1.0, u.Symbol, symbols[len(symbols)-1])
	}
	for _, spelling := range []string{"gallons", "fl oz", "oz", "lbs", "pounds", "gpm", "gpa", "kph", "litres", "percent"} {
		f.Add(27.5, spelling, spelling+"/ac")
	}
	f.Add(1e-9, "gal/ac", "GPA")
	f.Add(1e9, "Gal_US/acre", " psi")
	f.Add(0.0, "", "/")
	f.Fuzz(func(t *testing.T, value float64, from, to string) {
		if math.IsNaN(value) || math.IsInf(value, 0) {
			return // no JSON number
		}
		body := encodeJSON(t, map[string]any{"quantity": map[string]any{"value": value, "unit": from}, "to": to})
		w := call(t, http.MethodPost, "/v1/convert", body)
		sound(t, w, "ConvertAnswer", body, 200, 422)
		a, b := unit.Lookup(from), unit.Lookup(to)
		should := a != unit.None && b != unit.None && a.Kind() == b.Kind() && value >= 1e-9 && value <= 1e9
		if should != (w.Code == http.StatusOK) {
			t.Fatalf("%d: %s\nto %s", w.Code, w.Body, body)
		}
		if !should {
			var p wire.Problem
			if err := json.Unmarshal(w.Body.Bytes(), &p); err != nil {
				t.Fatal(err)
			}
			for _, e := range p.Errors {
				for _, symbol := range e.Allowed {
					if unit.Lookup(symbol) == unit.None {
						t.Errorf("%q is suggested for %q", symbol, from)
					}
				}
			}
			return
		}
		var answer struct {
			Quantity struct {
				Value float64
				Unit  string
			}
		}
		if err := json.Unmarshal(w.Body.Bytes(), &answer); err != nil {
			t.Fatal(err)
		}
		back := answer.Quantity.Value * b.Factor() / a.Factor()
		if answer.Quantity.Unit != to || math.Abs(back-value) > 5e-6*value {
			t.Errorf("%s, which is %v %s\nto %s", w.Body, back, from, body)
		}
	})
}

// FuzzPointer gives members any name. The pointer of the error leads back to it.
func FuzzPointer(f *testing.F) {
	for _, name := range []string{"x", "", "a/b", "a~b", "~1", "%", "%25", "é", "\u2028", "<script>", "#", "runs", "Runs", strings.Repeat("é", 40), "\U0001F69C"} {
		f.Add(name)
	}
	f.Fuzz(func(t *testing.T, name string) {
		if !utf8.ValidString(name) {
			return // no JSON text
		}
		body := `{"runs":[{"courseLength":{"value":100,"unit":"ft"},"time":{"value":22.8,"unit":"s"},` + encodeJSON(t, name) + `:1}]}`
		w := call(t, http.MethodPost, "/v1/ground-speed", body)
		if name == "label" || name == "time" || name == "courseLength" {
			return // known: another matter
		}
		sound(t, w, "", body, 422)
		var p wire.Problem
		if err := json.Unmarshal(w.Body.Bytes(), &p); err != nil {
			t.Fatal(err)
		}
		if p.Errors = p.Errors[:min(1, len(p.Errors))]; len(p.Errors) == 0 {
			t.Fatalf("no error: %s", w.Body)
		}
		fragment, isFragment := strings.CutPrefix(p.Errors[0].Pointer, "#/runs/0/")
		token, err := url.PathUnescape(fragment)
		if !isFragment || err != nil || strings.ContainsAny(fragment, "/ \"<>") {
			t.Fatalf("%q is no pointer: %v", p.Errors[0].Pointer, err)
		}
		got := strings.NewReplacer("~1", "/", "~0", "~").Replace(token)
		if got != name && !(len(name) > 64 && strings.HasPrefix(name, got) && len(got) > 60) {
			t.Errorf("%q leads to %q, not %q", p.Errors[0].Pointer, got, name)
		}
	})
}
