//go:build !race

package api

import (
	"encoding/json"
	"fmt"
	"maps"
	"net/http"
	"runtime"
	"slices"
	"strings"
	"testing"

	"wetrun/api/operation"
	"wetrun/api/wire"
)

// mostPerByte is how many bytes of memory a request may take for each of its own and of
// its answer.
const mostPerByte = 48

// TestCostIsInProportion asks every operation for all that it can be asked at once: the
// examples of the document, the refused ones too, with each list as long as it may be,
// uncertainties and working. The memory that it takes is in proportion to what went in
// and came out, so nothing is done anew for each item of a list that was long already.
func TestCostIsInProportion(t *testing.T) {
	for _, o := range operation.All {
		answered := 0
		for name, body := range exampleRequests(t, o.Name) {
			for variant, request := range longestRequests(t, &o, body) {
				if strings.HasPrefix(name, "refused ") && variant != "as it is" {
					continue
				}
				accept := "application/json"
				if variant == "as a page" {
					accept = "text/html"
				}
				var before, after runtime.MemStats
				runtime.ReadMemStats(&before)
				w := call(t, http.MethodPost, "/v1/"+o.Name, request, "Accept", accept)
				runtime.ReadMemStats(&after)
				if w.Code == http.StatusOK {
					answered++
				}
				both := uint64(len(request) + w.Body.Len())
				if took := after.TotalAlloc - before.TotalAlloc; took > mostPerByte*both+64<<10 {
					t.Errorf("%s, %s, %s: %d bytes in, %d out, %d in between", o.Name, name, variant, len(request), w.Body.Len(), took)
				}
			}
		}
		if answered == 0 {
			t.Errorf("%s: no such request was answered", o.Name)
		}
	}
}

// longestRequests are a request with its lists as long as they may be, and the same
// with a pressure of its own at each catch, with one name for all, and with nothing in it
// that can be used; and a sheet that is asked for as a page.
func longestRequests(t *testing.T, o *operation.Operation, body []byte) map[string]string {
	t.Helper()
	all := map[string]string{}
	for variant, change := range map[string]func(map[string]any){
		"as it is": func(map[string]any) {},
		"pressures": func(item map[string]any) {
			if item["time"] != nil && item["volume"] != nil {
				item["sprayPressure"] = map[string]any{"value": 30, "unit": "psi"}
			}
		},
		"alike": func(item map[string]any) {
			if _, named := item["label"].(string); named {
				item["label"] = "A"
			}
		},
		"furlongs": func(item map[string]any) {
			if item["unit"] != nil {
				item["unit"] = "furlong"
			}
		},
	} {
		for share := 1.0; ; share *= 0.8 {
			var request map[string]any
			if err := json.Unmarshal(body, &request); err != nil {
				t.Fatal(err)
			}
			lengthen(request, o.Table.Members, share)
			everyObject(request, change)
			request["showWorking"] = true
			delete(request, "uncertainty")
			all[variant] = encodeJSON(t, request)
			if len(all[variant]) <= operation.MostBody {
				break
			}
		}
	}
	for _, variant := range []string{"pressures", "alike"} {
		if all[variant] == all["as it is"] {
			delete(all, variant)
		}
	}
	if o.Record != nil {
		all["as a page"] = all["as it is"]
	}
	return all
}

// lengthen brings each list of an object to a share of its longest, by repeating its
// items with other numbers and names.
func lengthen(x map[string]any, members []wire.Member, share float64) {
	for _, m := range members {
		switch v := x[m.Name].(type) {
		case float64:
			if m.Name == "catchPointsOnBoom" { // as many as are caught, at least
				x[m.Name] = m.Shape.High
			}
		case map[string]any:
			lengthen(v, m.Shape.Members, share)
		case []any:
			if m.Name == "instruments" || len(v) == 0 {
				continue // what has several of one kind has to name one everywhere
			}
			for _, item := range v {
				if item, ok := item.(map[string]any); ok {
					lengthen(item, m.Shape.Members, share)
				}
			}
			first := len(v)
			for i := first; i < int(m.Shape.High*share); i++ {
				item := another(v[i%first], i/first)
				switch m.Name {
				case "flowChart": // has to rise
					item = another(v[first-1], 10*(i-first+1))
				case "dropletChart": // names nozzles of the request
					item.(map[string]any)["label"] = v[i%first].(map[string]any)["label"]
				}
				v = append(v, item)
			}
			x[m.Name] = v
		}
	}
}

// another is an item again, with values a little higher and another name.
func another(item any, n int) any {
	switch v := item.(type) {
	case map[string]any:
		v = maps.Clone(v)
		for name, each := range v {
			switch each := each.(type) {
			case string:
				if name == "label" || name == "id" {
					v[name] = fmt.Sprint(each, " ", n)
				}
			case float64:
				if name == "value" {
					v[name] = each * (1 + 0.001*float64(n))
				}
			default:
				v[name] = another(each, n)
			}
		}
		return v
	case []any:
		v = slices.Clone(v)
		for i := range v {
			v[i] = another(v[i], n)
		}
		return v
	}
	return item
}

// everyObject changes an object and each one in it.
func everyObject(x any, change func(map[string]any)) {
	switch v := x.(type) {
	case map[string]any:
		change(v)
		for _, each := range v {
			everyObject(each, change)
		}
	case []any:
		for _, each := range v {
			everyObject(each, change)
		}
	}
}
