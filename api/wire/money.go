package wire

import "unsafe"

// Money is an amount in a currency (ISO 4217).
type Money struct {
	Amount   Number `json:"amount" validate:"required"`
	Currency string `json:"currency" validate:"required" is:"currency"`
}

// IsZero makes omitzero leave out what was not given.
func (m Money) IsZero() bool { return m == Money{} }

// readNumber reads a bare number within the bounds of every value.
func readNumber(d *decoder, p unsafe.Pointer) {
	x, ok := d.expectNumber()
	switch {
	case !ok:
	case x < SmallestValue || x > LargestValue:
		d.report(outOfBounds(x, SmallestValue, ""))
	default:
		*(*Number)(p) = Number(x)
	}
}

const currencyPattern = "^[A-Z]{3}$"

// readCurrency reads three capital letters.
func readCurrency(d *decoder, p unsafe.Pointer) {
	raw, ok := d.expectString()
	if !ok {
		return
	}
	capitals := len(raw) == 3
	for _, c := range raw {
		capitals = capitals && c >= 'A' && c <= 'Z'
	}
	if !capitals {
		d.report(FieldError{Code: "not_a_currency"})
		return
	}
	*(*string)(p) = string(raw)
}
