package operation

import (
	"context"

	"wetrun/api/wire"
	"wetrun/api/working"
	"wetrun/calc/finding"
	"wetrun/calc/method"
	"wetrun/calc/unit"
)

// ConvertRequest is the body of POST /v1/convert. To is a symbol on the wire. The quantity
// cannot be 0: nobody converts nothing, and so every value keeps the one rule.
type ConvertRequest struct {
	Quantity wire.Quantity `json:"quantity" validate:"required" is:"any"`
	To       unit.ID       `json:"to" validate:"required" is:"any"`
	Showing
}

// ConvertAnswer is the answer of POST /v1/convert.
type ConvertAnswer struct {
	Quantity wire.Quantity `json:"quantity"`
	working.Explained
}

func convert(_ context.Context, r *ConvertRequest) (ConvertAnswer, error) {
	if kind := r.Quantity.Unit.Kind(); r.To.Kind() != kind {
		return ConvertAnswer{}, &wire.Refusal{Kind: wire.InvalidRequest, Fields: []wire.FieldError{wire.WrongUnit(finding.Member("to"), r.To, kind)}}
	}
	a := ConvertAnswer{Quantity: wire.In(r.Quantity.SI(), r.To)}
	w := working.New(r.shows())
	r.work(w, &a)
	a.Explained = w.Answer()
	return a, nil
}

func (r *ConvertRequest) work(w working.Working, a *ConvertAnswer) {
	w.Line(method.UnitConversion, "/quantity", a.Quantity).With("x", r.Quantity)
}
