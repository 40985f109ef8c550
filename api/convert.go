package api

import (
	"context"

	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// ConvertRequest is the body of POST /v1/convert. To is a symbol on the wire.
type ConvertRequest struct {
	Quantity Quantity `json:"quantity" validate:"required" is:"any"`
	To       unit.ID  `json:"to" validate:"required" is:"any"`
	Showing
}

// ConvertAnswer is the answer.
type ConvertAnswer struct {
	Quantity Quantity `json:"quantity"`
	Explained
}

func convert(_ context.Context, r *ConvertRequest) (ConvertAnswer, error) {
	if kind := r.Quantity.Unit.Kind(); r.To.Kind() != kind {
		e := unitError(r.To.Symbol(), r.To, kindsOf(kind))
		e.Pointer = pointer(finding.Member("to"))
		return ConvertAnswer{}, &refusal{kind: invalidRequest, fields: []FieldError{e}}
	}
	a := ConvertAnswer{Quantity: in(r.Quantity.si(), r.To)}
	w := explaining(r.shows())
	r.work(w, &a)
	a.Explained = w.answer()
	return a, nil
}
