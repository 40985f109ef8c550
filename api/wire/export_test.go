package wire

import "unsafe"

// ReadQuickly and ReadStrictly read a body by one of the two readers alone.
func ReadQuickly(body []byte, t *Table, into unsafe.Pointer) bool {
	return new(decoder).decodeQuickly(body, t, into)
}

func ReadStrictly(body []byte, t *Table, into unsafe.Pointer) *Refusal {
	return new(decoder).decodeStrictly(body, t, into)
}
