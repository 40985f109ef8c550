package wire

import (
	"math"
	"strconv"
	"testing"

	"pgregory.net/rapid"
)

// TestPropertyUsualNumbersAreThoseOfStrconv compares the quick way of writing a number
// with the library's, near ties above all.
func TestPropertyUsualNumbersAreThoseOfStrconv(t *testing.T) {
	same := func(t interface{ Errorf(string, ...any) }, x float64) bool {
		got, quick := appendUsual([]byte("~"), x)
		if want := strconv.AppendFloat([]byte("~"), x, 'g', SignificantDigits, 64); quick && string(got) != string(want) {
			t.Errorf("%v: %s, want %s", x, got, want)
		}
		return quick
	}
	quick := 0
	for _, x := range []float64{1e-4, 1, 0.1, 100, 99999.5, 100000, 123456.5, 999998.4, 27.5, 1.0 / 3, 0.0001234565, 2.675, 1.0000005, 9.999995, 0.00099999951} {
		for _, y := range []float64{x, -x, math.Nextafter(x, 0), math.Nextafter(x, 1e9)} {
			if same(t, y) {
				quick++
			}
		}
	}
	if quick < 20 {
		t.Errorf("only %d were written the quick way", quick)
	}
	rapid.Check(t, func(t *rapid.T) {
		places := rapid.IntRange(0, 12).Draw(t, "places")
		x := float64(rapid.Int64Range(1, 1e15).Draw(t, "digits")) / math.Pow(10, float64(places))
		if x >= 1e-4 && x < 999_999 {
			same(t, x)
		}
		same(t, rapid.Float64Range(1e-4, 999_998).Draw(t, "any"))
	})
}
