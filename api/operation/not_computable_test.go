package operation

import (
	"math"
	"testing"
	"unsafe"

	"wetrun/api/wire"
	"wetrun/calc/unit"
)

// TestNotComputable: an answer with a number that is none is refused, for those who read it
// as a page or as lines too.
func TestNotComputable(t *testing.T) {
	for _, x := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), 0, 5e-324, math.MaxFloat64} {
		a := CalibrationsAnswer{Correction: CorrectionPart{Result: &CorrectionsAnswer{}}}
		a.Correction.Result.Deviation = wire.Quantity{Value: x, Unit: unit.IDPct}
		_, refused := encoded(encodeCalibrations, nil, unsafe.Pointer(&a))
		if none := math.IsNaN(x) || math.IsInf(x, 0); (refused != nil) != none || none && refused.Fields[0].Code != "not_computable" {
			t.Errorf("%v: %+v", x, refused)
		}
	}
}
