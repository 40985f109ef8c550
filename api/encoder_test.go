package api

import (
	"bytes"
	"math"
	"math/rand/v2"
	"reflect"
	"testing"
	"unsafe"

	"github.com/go-json-experiment/json"

	"wetrun/calc/method"
	"wetrun/calc/unit"
)

// TestEncodersWriteWhatTheLibraryWrites fills every type of answer at random, with
// members missing and texts that need escapes.
func TestEncodersWriteWhatTheLibraryWrites(t *testing.T) {
	for _, o := range operations {
		encode := encoderOf(o.response)
		r := rand.New(rand.NewPCG(1, 2))
		for i := range 300 {
			answer := reflect.New(o.response)
			if i > 0 { // the first is empty
				fillAnswer(r, answer.Elem())
			}
			want, err := json.Marshal(answer.Interface())
			if err != nil {
				t.Fatalf("%s: %v", o.name, err)
			}
			got, err := encode([]byte("before"), unsafe.Pointer(answer.Pointer()))
			if err != nil {
				t.Fatalf("%s: %v", o.name, err)
			}
			if !bytes.Equal(got[len("before"):], want) {
				t.Fatalf("%s:\n%s, the library writes\n%s", o.name, got, want)
			}
		}
	}
}

// fillAnswer sets every field of v, or leaves it as it is.
func fillAnswer(r *rand.Rand, v reflect.Value) {
	texts := []string{"", "drop 3", `"quoted" \ back`, "presión <&>", "\x00\t\n\x7f", "水 \u2028 \U0001F4A7"}
	numbers := []float64{0, math.Copysign(0, -1), 1, -2.5, 1.0 / 3, 999_999.5, 1e-7, 1e22, 123456.5}
	if c, ok := v.Addr().Interface().(*constant); ok { // an empty number is no JSON
		*c = constant{"0.25", texts[r.IntN(len(texts))]}
		return
	}
	if r.IntN(4) == 0 {
		return
	}
	switch x := v.Addr().Interface().(type) {
	case *Quantity:
		all := unit.All()
		*x = Quantity{numbers[r.IntN(len(numbers))], unit.Lookup(all[r.IntN(len(all))].Symbol)}
		return
	case *methodSet:
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
		u := UncertaintyAnswer{Standard: Quantity{1, unit.IDFt}, Expanded: Quantity{x, unit.IDFt}}
		if _, err := encoderOf(reflect.TypeOf(u))(nil, unsafe.Pointer(&u)); err == nil {
			t.Errorf("%v in a quantity is written", x)
		}
		u = UncertaintyAnswer{Standard: Quantity{1, unit.IDFt}, Expanded: Quantity{1, unit.IDFt}, CoverageFactor: Number(x)}
		if _, err := encoderOf(reflect.TypeOf(u))(nil, unsafe.Pointer(&u)); err == nil {
			t.Errorf("%v as a bare number is written", x)
		}
	}
}
