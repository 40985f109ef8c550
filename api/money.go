package api

import "github.com/go-json-experiment/json/jsontext"

// Money is an amount in a currency (ISO 4217).
type Money struct {
	Amount   Number `json:"amount"`
	Currency string `json:"currency"`
}

// IsZero makes omitzero leave out what is not given.
func (m Money) IsZero() bool { return m == Money{} }

var moneyTable = objectOf(
	require(number("amount", func(m *Money) *Number { return &m.Amount })),
	require(currency("currency", func(m *Money) *string { return &m.Currency })),
)

// number is a member that is a bare number within the bounds of every value.
func number[T any](name string, at func(*T) *Number) member[T] {
	return member[T]{
		name: name,
		read: func(d *decoder, into *T) {
			if x, ok := d.number(); ok {
				// bounds are reported at "value" of a quantity; here the number is the member
				switch {
				case x > largest:
					d.report(FieldError{Code: "too_large", Limit: &largest, args: []any{figure(largest, "")}})
				case x <= 0:
					d.report(FieldError{Code: "not_positive", Limit: &smallest, args: []any{figure(smallest, "")}})
				case x < smallest:
					d.report(FieldError{Code: "too_small", Limit: &smallest, args: []any{figure(smallest, "")}})
				default:
					*at(into) = Number(x)
				}
			}
		},
		shape: shape{Type: "number", Low: smallest, High: largest},
	}
}

// currency is a member of three capital letters.
func currency[T any](name string, at func(*T) *string) member[T] {
	return member[T]{
		name: name,
		read: func(d *decoder, into *T) {
			if !d.expect(jsontext.KindString, "string") {
				return
			}
			raw, ok := d.raw()
			if !ok {
				return
			}
			sound := len(raw) == 3
			for _, c := range raw {
				sound = sound && c >= 'A' && c <= 'Z'
			}
			if !sound {
				d.report(FieldError{Code: "not_a_currency"})
				return
			}
			*at(into) = string(raw)
		},
		shape: shape{Type: "string", Pattern: "^[A-Z]{3}$"},
	}
}
