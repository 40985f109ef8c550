package api

import (
	"encoding/binary"
	"encoding/json"
	"math"
	"net/http"
	"slices"
	"strings"
	"testing"

	"wetrun/api/operation"
	"wetrun/calc/unit"
)

// FuzzDecode posts any bytes to any operation.
func FuzzDecode(f *testing.F) {
	for i, o := range operation.All {
		for _, request := range exampleRequests(f, o.Name) {
			f.Add(uint8(i), request)
		}
	}
	for _, sheet := range []string{"ready", "boom-to-repair", "rate-to-correct"} {
		f.Add(uint8(indexOfOperation("calibrations")), []byte(demo(f, sheet)))
	}
	f.Fuzz(func(t *testing.T, which uint8, body []byte) {
		o := operation.All[int(which)%len(operation.All)]
		w := call(t, http.MethodPost, "/v1/"+o.Name, string(body))
		sound(t, w, schemaName(o.Name)+"Answer", string(body), 200, 400, 413, 422)
		if w.Code == http.StatusOK && validates(schemaName(o.Name)+"Request", body) != nil && !hugeExponent(body) {
			t.Errorf("%s took what the schema refuses: %q", o.Name, body)
		}
	})
}

// hugeExponent tells of numbers that the schema's reader cannot hold.
func hugeExponent(body []byte) bool {
	var v any
	return json.Unmarshal(body, &v) != nil
}

func indexOfOperation(name string) int {
	return slices.IndexFunc(operation.All, func(o operation.Operation) bool { return o.Name == name })
}

// FuzzCalculation keeps the shape of a sound request and draws its numbers, units
// and words anew, so that nearly all of them are calculated.
func FuzzCalculation(f *testing.F) {
	seeds := make([][]string, len(operation.All))
	for i, o := range operation.All {
		for _, request := range exampleRequests(f, o.Name) {
			seeds[i] = append(seeds[i], string(request))
		}
		slices.Sort(seeds[i])
		for j := range seeds[i] {
			f.Add(uint8(i), uint8(j), []byte{})
			f.Add(uint8(i), uint8(j), []byte("\x05\x01\x02\x03\x04\x05\x06\x07\x08\x00\x05\xff\xff\xff\xff\xff\xff\xff\xff\x01"))
		}
	}
	f.Fuzz(func(t *testing.T, which, seed uint8, drawn []byte) {
		i := int(which) % len(operation.All)
		var request any
		if err := json.Unmarshal([]byte(seeds[i][int(seed)%len(seeds[i])]), &request); err != nil {
			t.Fatal(err)
		}
		d := draw{drawn}
		body := encodeJSON(t, d.anew(request))
		w := call(t, http.MethodPost, "/v1/"+operation.All[i].Name, body)
		sound(t, w, schemaName(operation.All[i].Name)+"Answer", body, 200, 422)
	})
}

// A draw takes choices from bytes; when they run out, what stands there stays.
type draw struct{ left []byte }

func (d *draw) byte() byte {
	if len(d.left) == 0 {
		return 0
	}
	b := d.left[0]
	d.left = d.left[1:]
	return b
}

// number is one of all that the wire takes, near to x or far from it.
func (d *draw) number(x float64) float64 {
	how := d.byte()
	bits := make([]byte, 8)
	if n := copy(bits, d.left); how != 0 {
		d.left = d.left[n:]
	}
	share := float64(binary.LittleEndian.Uint64(bits)) / math.MaxUint64 // 0 to 1
	switch how % 6 {
	case 1:
		return x * (0.5 + share)
	case 2:
		return math.Pow(10, 18*share-9)
	case 3:
		return math.Round(x * 10 * share)
	case 4:
		return []float64{1e-9, 1e9, 1, 0, 0.1, 1000, 100, -1}[bits[0]%8]
	case 5:
		return math.Nextafter(x, x*(2*share))
	}
	return x
}

// anew walks a decoded request in a fixed order.
func (d *draw) anew(v any) any {
	switch x := v.(type) {
	case map[string]any:
		names := make([]string, 0, len(x))
		for n := range x {
			names = append(names, n)
		}
		slices.Sort(names)
		for _, n := range names {
			if len(d.left) > 0 && d.byte()%64 == 63 {
				delete(x, n)
				continue
			}
			x[n] = d.anew(x[n])
		}
	case []any:
		for i := range x {
			x[i] = d.anew(x[i])
		}
		if n := int(d.byte()); n >= 128 && len(x) > 0 {
			x = append(x, clone(x[n%len(x)]))
		}
		return x
	case float64:
		return d.number(x)
	case string:
		if id := unit.Lookup(x); id != unit.None {
			symbols := id.Kind().Symbols()
			return symbols[(slices.Index(symbols, x)+int(d.byte()))%len(symbols)]
		}
	case bool:
		return x != (d.byte()%2 == 1)
	}
	return v
}

// FuzzHeaders: whatever the other headers of a request are.
func FuzzHeaders(f *testing.F) {
	f.Add("application/json", "*/*", "a-1", "00-4bf92f3577b34da6a3ce929d0e0e4736-00f067aa0ba902b7-01", "192.0.2.7", "https://a.example")
	f.Add("application/json; charset=\"utf-8\"", "text/html;q=0.5", "%s", "00--", "::ffff:1.2.3.4, [::1]:80", "null")
	f.Add("application/json;;charset", "text/html", "../..", "ff", ",,,", "file:///etc/passwd")
	f.Fuzz(func(t *testing.T, contentType, accept, id, parent, forwarded, origin string) {
		fields := []string{"Content-Type", contentType, "Accept", accept, "X-Request-Id", id, "Traceparent", parent, "X-Forwarded-For", forwarded, "Origin", origin}
		for _, value := range fields {
			if strings.ContainsFunc(value, func(r rune) bool { return r < ' ' && r != '\t' || r == 0x7f }) {
				return // no server hands this on
			}
		}
		w := call(t, http.MethodPost, "/v1/calibrations", "{}", fields...)
		schema := "CalibrationsAnswer"
		if strings.HasPrefix(w.Header().Get("Content-Type"), "text/html") {
			schema = ""
		}
		sound(t, w, schema, strings.Join(fields, "\n"), 200, 415)
		if got := w.Header().Get("X-Request-Id"); !plainID(got) {
			t.Errorf("the id of the request is %q", got)
		}
		for name, values := range w.Header() {
			if found := leaks(strings.Join(values, "\n"), strings.Join(fields, "\n")); found != "" {
				t.Errorf("%s tells of the inside: %q", name, values)
			}
		}
	})
}
