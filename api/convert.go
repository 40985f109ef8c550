package api

import (
	"context"

	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// ConvertRequest is the body of POST /v1/convert. To is a symbol on the wire.
type ConvertRequest struct {
	Quantity Quantity `json:"quantity" validate:"required"`
	To       unit.ID  `json:"to" validate:"required"`
	Showing
}

// ConvertResponse is the answer.
type ConvertResponse struct {
	Quantity Quantity `json:"quantity"`
	Explained
}

var convertTable = objectOf(
	quantity("quantity", func(r *ConvertRequest) *Quantity { return &r.Quantity }, allKinds()...),
	symbol("to", func(r *ConvertRequest) *unit.ID { return &r.To }, allKinds()...),
	showing(func(r *ConvertRequest) *Showing { return &r.Showing }),
)

// allKinds lists every quantity that a unit measures.
func allKinds() (kinds []unit.Kind) {
	for _, u := range unit.All() {
		if len(kinds) == 0 || kinds[len(kinds)-1] != u.Quantity {
			kinds = append(kinds, u.Quantity)
		}
	}
	return kinds
}

func convert(_ context.Context, r *ConvertRequest) (ConvertResponse, error) {
	if kind := r.Quantity.Unit.Kind(); r.To.Kind() != kind {
		e := unitError(r.To.Symbol(), r.To, kindsOf(kind))
		e.Pointer = pointer(finding.Member("to"))
		return ConvertResponse{}, &refusal{kind: invalidRequest, fields: []FieldError{e}}
	}
	a := ConvertResponse{Quantity: in(r.Quantity.si(), r.To)}
	w := explaining(r.shows())
	r.work(w, &a)
	a.Explained = w.answer()
	return a, nil
}
