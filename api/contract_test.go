package api

import (
	"encoding/json"
	"fmt"
	"math"
	"net/http"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"wetrun/api/operation"
	"wetrun/calc/unit"
)

// unordered are the arrays whose order the contract leaves open, with the member
// that tells their items apart.
var unordered = map[string]string{"plans": "change", "rejected": "change", "actions": "label", "candidates": "size"}

// TestReferenceContract posts the requests of testdata/contract and finds in each
// answer what must be there. The values come from an independent reference that
// computed them from exact unit definitions; they hold to 1e-5 in any unit.
func TestReferenceContract(t *testing.T) {
	files, err := filepath.Glob("../testdata/contract/*.json")
	if err != nil || len(files) == 0 {
		t.Fatal("no contract files", err)
	}
	for _, file := range files {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".json"), func(t *testing.T) {
			var c struct {
				Operation         string
				Request, Response json.RawMessage
			}
			readJSON(t, file, &c)
			if !slices.ContainsFunc(operation.All, func(o operation.Operation) bool { return o.Name == c.Operation }) {
				t.Fatalf("no operation %s", c.Operation)
			}
			w := post(t, c.Operation, string(c.Request))
			if w.Code != http.StatusOK {
				t.Fatalf("%d %s", w.Code, w.Body)
			}
			var want, got any
			if json.Unmarshal(c.Response, &want) != nil || json.Unmarshal(w.Body.Bytes(), &got) != nil {
				t.Fatal("not JSON")
			}
			holds(t, "#", want, got, 1e-5)
		})
	}
}

func readJSON(t testing.TB, file string, into any) {
	t.Helper()
	b, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(b, into); err != nil {
		t.Fatal(file, err)
	}
}

// holds reports where got lacks something that want has. Quantities may differ in
// their unit, and by the tolerance, relative.
func holds(t testing.TB, at string, want, got any, tolerance float64) {
	t.Helper()
	switch w := want.(type) {
	case map[string]any:
		g, ok := got.(map[string]any)
		if !ok {
			t.Errorf("%s: want an object, got %v", at, got)
			return
		}
		if a, isQuantity := si(w); isQuantity {
			if b, ok := si(g); !ok || math.Abs(a-b) > tolerance*math.Max(math.Abs(a), 1e-12) {
				t.Errorf("%s: want %v, got %v", at, want, got)
			}
			return
		}
		for name, x := range w {
			if g[name] == nil {
				t.Errorf("%s/%s: missing", at, name)
				continue
			}
			holdsMember(t, at+"/"+name, name, x, g[name], tolerance)
		}
	default:
		if fmt.Sprint(want) != fmt.Sprint(got) {
			t.Errorf("%s: want %v, got %v", at, want, got)
		}
	}
}

func holdsMember(t testing.TB, at, name string, want, got any, tolerance float64) {
	t.Helper()
	w, isList := want.([]any)
	if !isList {
		holds(t, at, want, got, tolerance)
		return
	}
	g, _ := got.([]any)
	if len(w) != len(g) {
		t.Errorf("%s: want %d items, got %d", at, len(w), len(g))
		return
	}
	key := unordered[name]
	for i := range w {
		j := i
		if key != "" {
			wanted := fmt.Sprint(w[i].(map[string]any)[key])
			j = slices.IndexFunc(g, func(x any) bool { return fmt.Sprint(x.(map[string]any)[key]) == wanted })
			if j < 0 {
				t.Errorf("%s: nothing with %s %s", at, key, wanted)
				continue
			}
		}
		holds(t, fmt.Sprintf("%s/%d", at, i), w[i], g[j], tolerance)
	}
}

// si returns the SI value of a decoded quantity.
func si(m map[string]any) (float64, bool) {
	value, ok := m["value"].(float64)
	symbol, named := m["unit"].(string)
	id := unit.Lookup(symbol)
	return value * id.Factor(), ok && named && id != unit.None && len(m) == 2
}
