package api

import (
	"math"
	"strconv"

	"github.com/go-json-experiment/json/jsontext"
)

// significant is how many digits an answer carries: more than any instrument of a
// field can tell, few enough that no rounding of conversions shows.
const significant = 6

// appendNumber writes x with six significant digits as JSON. It is the only place
// that rounds. NaN and infinity never come here: errNotComputable stops them.
func appendNumber(b []byte, x float64) []byte {
	if x == 0 {
		return append(b, '0') // never -0
	}
	if a := math.Abs(x); a >= 1e-4 && a < 999_999 {
		return strconv.AppendFloat(b, x, 'g', significant, 64)
	}
	format := byte('f')
	rounded, _ := strconv.ParseFloat(strconv.FormatFloat(x, 'e', significant-1, 64), 64)
	if a := math.Abs(rounded); a < 1e-6 || a >= 1e21 {
		format = 'e'
	}
	return strconv.AppendFloat(b, rounded, format, -1, 64)
}

// Number is a bare number of an answer, such as a fitted exponent.
type Number float64

// MarshalJSONTo rounds like every other number of an answer.
func (n Number) MarshalJSONTo(enc *jsontext.Encoder) error {
	return enc.WriteValue(appendNumber(enc.AvailableBuffer(), float64(n)))
}
