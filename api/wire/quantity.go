// Package wire is the JSON of wetrun: quantities with their units, requests read strictly by
// tables made of struct tags, answers written by encoders made of types, and what is wrong
// with a request, worded as a problem. It knows no operation and no HTTP.
package wire

import (
	"errors"
	"math"

	"github.com/go-json-experiment/json/jsontext"

	"wetrun/calc/unit"
)

// A Quantity is a number with its unit, as on the wire. The zero Quantity is one
// that was not given; it is left out of answers.
type Quantity struct {
	Value float64
	Unit  unit.ID
}

// Given tells whether the quantity was in the request.
func (q Quantity) Given() bool { return q.Unit != unit.None }

// Or is the quantity if it was given, and otherwise the computed one.
func (q Quantity) Or(computed Quantity) Quantity {
	if q.Given() {
		return q
	}
	return computed
}

// SI is the value in the coherent SI unit of its quantity, 0 when not given.
func (q Quantity) SI() float64 { return q.Value * q.Unit.Factor() }

// To is the same in another unit that measures the same quantity.
func (q Quantity) To(u unit.ID) Quantity { return Quantity{Value: q.As(u), Unit: u} }

// As is the value in another unit that measures the same quantity.
func (q Quantity) As(u unit.ID) float64 { return q.SI() / u.Factor() }

// IsZero makes omitzero leave out what was not given. Like MarshalJSONTo it takes a
// pointer, since the encoder would copy every value to the heap otherwise.
func (q *Quantity) IsZero() bool { return q.Unit == unit.None }

// In is a value of calc, which is in SI, in a unit that measures its quantity.
func In[T ~float64](si T, u unit.ID) Quantity {
	return Quantity{Value: float64(si) / u.Factor(), Unit: u}
}

// ErrNotComputable is the error of an answer that left the range of a double. The
// bounds of requests are there to prevent it.
var ErrNotComputable = errors.New("wire: a result is not finite")

// MarshalJSONTo writes {"value":…,"unit":…}.
func (q *Quantity) MarshalJSONTo(enc *jsontext.Encoder) error {
	b, err := q.appendTo(enc.AvailableBuffer())
	if err != nil {
		return err
	}
	return enc.WriteValue(b)
}

// appendTo writes {"value":…,"unit":…}. Unit symbols need no escaping.
func (q *Quantity) appendTo(b []byte) ([]byte, error) {
	if math.IsNaN(q.Value) || math.IsInf(q.Value, 0) {
		return nil, ErrNotComputable
	}
	b = AppendNumber(append(b, `{"value":`...), q.Value)
	b = append(append(b, `,"unit":"`...), q.Unit.Symbol()...)
	return append(b, `"}`...), nil
}

// A Range is two quantities that bound a third, ends included.
type Range struct {
	Low  Quantity `json:"low" validate:"required"`
	High Quantity `json:"high" validate:"required"`
}

// IsZero makes omitzero leave out what was not given.
func (r *Range) IsZero() bool { return r.Low.IsZero() && r.High.IsZero() }
