package wire_test

import (
	"bytes"
	"math"
	"math/rand/v2"
	"reflect"
	"testing"
	"unsafe"

	"github.com/go-json-experiment/json"

	"wetrun/api/operation"
	"wetrun/api/wire"
	"wetrun/api/working"
	"wetrun/calc/method"
	"wetrun/calc/unit"
)

// TestEncodersWriteWhatTheLibraryWrites fills every type of answer at random, with
// members missing and texts that need escapes.
func TestEncodersWriteWhatTheLibraryWrites(t *testing.T) {
	for _, o := range operation.All {
		encode := wire.EncoderOf(o.Response)
		r := rand.New(rand.NewPCG(1, 2))
		for i := range 300 {
			answer := reflect.New(o.Response)
			if i > 0 { // the first is empty
				fillAnswer(r, answer.Elem())
			}
			want, err := json.Marshal(answer.Interface())
			if err != nil {
				t.Fatalf("%s: %v", o.Name, err)
			}
			got, err := encode([]byte("before"), unsafe.Pointer(answer.Pointer()))
			if err != nil {
				t.Fatalf("%s: %v", o.Name, err)
			}
			if !bytes.Equal(got[len("before"):], want) {
				t.Fatalf("%s:\n%s, the library writes\n%s", o.Name, got, want)
			}
		}
	}
}

// fillAnswer sets every field of v, or leaves it as it is.
func fillAnswer(r *rand.Rand, v reflect.Value) {
	texts := []string{"", "drop 3", `"quoted" \ back`, "presión <&>", "\x00\t\n\x7f", "水 \u2028 \U0001F4A7"}
	numbers := []float64{0, math.Copysign(0, -1), 1, -2.5, 1.0 / 3, 999_999.5, 1e-7, 1e22, 123456.5}
	if _, writesItself := v.Addr().Interface().(wire.Appender); writesItself && v.Kind() == reflect.String {
		v.SetString("0.25") // an empty number is no JSON
		return
	}
	if r.IntN(4) == 0 && v.Type().String() != "working.constant" { // which has such a number
		return
	}
	switch x := v.Addr().Interface().(type) {
	case *wire.Quantity:
		all := unit.All()
		*x = wire.Quantity{Value: numbers[r.IntN(len(numbers))], Unit: unit.Lookup(all[r.IntN(len(all))].Symbol)}
		return
	case *working.MethodSet:
		for range r.IntN(4) {
			id := r.IntN(int(method.Count))
			x[id/64] |= 1 << (id % 64)
		}
		return
	}
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			if f := v.Field(i); f.CanSet() {
				fillAnswer(r, f)
			}
		}
	case reflect.Pointer:
		v.Set(reflect.New(v.Type().Elem()))
		fillAnswer(r, v.Elem())
	case reflect.Slice:
		n := r.IntN(3)
		v.Set(reflect.MakeSlice(v.Type(), n, n))
		for i := range n {
			fillAnswer(r, v.Index(i))
		}
	case reflect.String:
		v.SetString(texts[r.IntN(len(texts))])
	case reflect.Float64:
		v.SetFloat(numbers[r.IntN(len(numbers))])
	case reflect.Int:
		v.SetInt(int64(r.IntN(5)) - 1)
	case reflect.Bool:
		v.SetBool(r.IntN(2) == 0)
	}
}

// TestEncodersRefuseWhatIsNotFinite: JSON has no such numbers.
func TestEncodersRefuseWhatIsNotFinite(t *testing.T) {
	for _, x := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		u := working.UncertaintyAnswer{Standard: wire.Quantity{Value: 1, Unit: unit.IDFt}, Expanded: wire.Quantity{Value: x, Unit: unit.IDFt}}
		if _, err := wire.EncoderOf(reflect.TypeOf(u))(nil, unsafe.Pointer(&u)); err == nil {
			t.Errorf("%v in a quantity is written", x)
		}
		u = working.UncertaintyAnswer{Standard: wire.Quantity{Value: 1, Unit: unit.IDFt}, Expanded: wire.Quantity{Value: 1, Unit: unit.IDFt}, CoverageFactor: wire.Number(x)}
		if _, err := wire.EncoderOf(reflect.TypeOf(u))(nil, unsafe.Pointer(&u)); err == nil {
			t.Errorf("%v as a bare number is written", x)
		}
	}
}
