package working

import (
	"math/bits"

	"github.com/go-json-experiment/json/jsontext"

	"wetrun/calc/method"
)

// A MethodSet is the methods of one answer. It is a set of bits, so that adding one costs
// next to nothing.
type MethodSet [(method.Count + 63) / 64]uint64

// Join adds the methods of a part.
func (s *MethodSet) Join(part MethodSet) {
	for i := range s {
		s[i] |= part[i]
	}
}

// MarshalJSONTo is AppendJSON for the JSON library.
func (s MethodSet) MarshalJSONTo(enc *jsontext.Encoder) error {
	return enc.WriteValue(s.AppendJSON(enc.AvailableBuffer()))
}

// AppendJSON writes the ids in the order of GET /v1/methods; they need no escaping.
func (s *MethodSet) AppendJSON(b []byte) []byte {
	b = append(b, '[')
	for word, set := range s {
		for ; set != 0; set &= set - 1 {
			if b[len(b)-1] != '[' {
				b = append(b, ',')
			}
			b = append(b, '"')
			b = append(b, method.Of(method.ID(word<<6+bits.TrailingZeros64(set))).ID...)
			b = append(b, '"')
		}
	}
	return append(b, ']')
}
