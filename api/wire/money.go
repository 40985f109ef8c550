package wire

import (
	"unsafe"
)

// Money is an amount in a currency (ISO 4217).
type Money struct {
	Amount   Number `json:"amount" validate:"required"`
	Currency string `json:"currency" validate:"required" is:"currency"`
}

// IsZero makes omitzero leave out what is not given.
func (m Money) IsZero() bool { return m == Money{} }

// readNumber reads a bare number within the bounds of every value.
func readNumber(d *Decoder, p unsafe.Pointer) {
	if x, ok := d.expectNumber(); ok {
		// bounds are reported at "value" of a quantity; here the number is the member
		switch {
		case x > Largest:
			d.report(FieldError{Code: "too_large", Limit: &Largest, Args: []any{Figure(Largest, "")}})
		case x <= 0:
			d.report(FieldError{Code: "not_positive", Limit: &Smallest, Args: []any{Figure(Smallest, "")}})
		case x < Smallest:
			d.report(FieldError{Code: "too_small", Limit: &Smallest, Args: []any{Figure(Smallest, "")}})
		default:
			*(*Number)(p) = Number(x)
		}
	}
}

const currencyPattern = "^[A-Z]{3}$"

// readCurrency reads three capital letters.
func readCurrency(d *Decoder, p unsafe.Pointer) {
	raw, ok := d.expectString()
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
	*(*string)(p) = string(raw)
}
