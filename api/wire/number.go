package wire

import (
	"math"
	"strconv"

	"github.com/go-json-experiment/json/jsontext"
)

// SignificantDigits is how many digits an answer carries: more than any instrument of a
// field can tell, few enough that no rounding of conversions shows.
const SignificantDigits = 6

// AppendNumber writes x with six significant digits as JSON. It is the only place
// that rounds. NaN and infinity never come here: ErrNotComputable stops them.
func AppendNumber(b []byte, x float64) []byte {
	if x == 0 {
		return append(b, '0') // never -0
	}
	if a := math.Abs(x); a >= 1e-4 && a < 999_999 {
		if written, ok := appendUsual(b, x); ok {
			return written
		}
		return strconv.AppendFloat(b, x, 'g', SignificantDigits, 64)
	}
	format := byte('f')
	rounded, _ := strconv.ParseFloat(strconv.FormatFloat(x, 'e', SignificantDigits-1, 64), 64)
	if a := math.Abs(rounded); a < 1e-6 || a >= 1e21 {
		format = 'e'
	}
	return strconv.AppendFloat(b, rounded, format, -1, 64)
}

// tens are the powers of ten that bring a number of an answer to six digits before
// the point. Each is exact as a double, so that bringing it there rounds only once.
var tens = [...]float64{1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9}

// tensSuffice are the numbers from which on that many tens are enough.
var tensSuffice = [...]float64{1e5, 1e4, 1e3, 1e2, 1e1, 1, 1e-1, 1e-2, 1e-3, 1e-4}

// appendUsual writes what strconv writes, in a fifth of the time; false where the
// seventh digit lies so near to a tie that it takes strconv to tell which way.
func appendUsual(b []byte, x float64) ([]byte, bool) {
	a, places := math.Abs(x), 0
	for places < len(tensSuffice)-1 && a < tensSuffice[places] {
		places++
	}
	scaled := a * tens[places]
	digits := uint32(scaled)
	rest := scaled - float64(digits)
	if digits < 1e5 || digits >= 999_999 || math.Abs(rest-0.5) < 1e-6 {
		return b, false
	}
	if rest > 0.5 {
		digits++
	}
	var written [SignificantDigits]byte
	for i := range written {
		written[len(written)-1-i] = '0' + byte(digits%10)
		digits /= 10
	}
	whole, n := SignificantDigits-places, SignificantDigits // digits before the point, and all of them
	for n > max(whole, 0) && written[n-1] == '0' {
		n--
	}
	if x < 0 {
		b = append(b, '-')
	}
	if whole > 0 {
		if b = append(b, written[:whole]...); n == whole {
			return b, true
		}
		return append(append(b, '.'), written[whole:n]...), true
	}
	b = append(append(b, "0."...), "000"[:-whole]...)
	return append(b, written[:n]...), true
}

// Number is a bare number of an answer, such as a fitted exponent.
type Number float64

// MarshalJSONTo rounds like every other number of an answer.
func (n Number) MarshalJSONTo(enc *jsontext.Encoder) error {
	return enc.WriteValue(AppendNumber(enc.AvailableBuffer(), float64(n)))
}
