package api

import (
	"math/bits"

	"github.com/go-json-experiment/json/jsontext"

	"wetrun/calc"
	"wetrun/calc/unit"
	"wetrun/internal/text"
)

// A methodSet is the methods of one answer. It is a set of bits, so that saying which
// methods were used costs nothing on the way.
type methodSet [3]uint64

func methodsOf(ids ...calc.MethodID) (s methodSet) {
	s.add(ids...)
	return s
}

func (s *methodSet) add(ids ...calc.MethodID) {
	for _, id := range ids {
		s[id>>6] |= 1 << (id & 63)
	}
}

// addIf adds methods where something was computed.
func (s *methodSet) addIf(computed bool, ids ...calc.MethodID) {
	if computed {
		s.add(ids...)
	}
}

// join adds the methods of a part.
func (s *methodSet) join(part methodSet) {
	for i := range s {
		s[i] |= part[i]
	}
}

// MarshalJSONTo writes the ids in the order of GET /v1/methods.
func (s methodSet) MarshalJSONTo(enc *jsontext.Encoder) error {
	return enc.WriteValue(s.appendTo(enc.AvailableBuffer()))
}

// appendTo writes the ids; they need no escaping.
func (s *methodSet) appendTo(b []byte) []byte {
	b = append(b, '[')
	for word, set := range s {
		for ; set != 0; set &= set - 1 {
			if b[len(b)-1] != '[' {
				b = append(b, ',')
			}
			b = append(b, '"')
			b = append(b, calc.MethodOf(calc.MethodID(word<<6+bits.TrailingZeros64(set))).ID...)
			b = append(b, '"')
		}
	}
	return append(b, ']')
}

// MethodsResponse is the answer of GET /v1/methods.
type MethodsResponse struct {
	Methods []MethodResponse `json:"methods"`
}

// MethodResponse is one method.
type MethodResponse struct {
	ID         string               `json:"id"`
	Title      string               `json:"title"`
	Formula    string               `json:"formula"`
	Symbols    []SymbolResponse     `json:"symbols"`
	Domain     string               `json:"domain"`
	Source     PresetSourceResponse `json:"source"`
	Operations []string             `json:"operations"`
}

// SymbolResponse is one symbol of a formula. Quantity and SI are left out for a plain
// number, and for what is of whatever quantity the request has.
type SymbolResponse struct {
	Symbol   string `json:"symbol"`
	Meaning  string `json:"meaning"`
	Quantity string `json:"quantity,omitempty"`
	SI       string `json:"si,omitempty"`
}

// methods lists every method.
func methods(lang text.Language) any {
	var r MethodsResponse
	for _, m := range calc.Methods() {
		a := MethodResponse{
			ID: m.ID, Title: text.Of(lang, "method."+m.ID), Formula: m.Formula,
			Domain: text.Of(lang, "domain."+m.Domain), Source: sourceResponse(m.Source), Operations: m.Operations,
		}
		if m.FromMemory && !m.Source.Published() {
			a.Source.Kind = "source_not_read"
		}
		for _, s := range m.Symbols {
			x := SymbolResponse{Symbol: s.Symbol, Meaning: text.Of(lang, "symbol."+s.Meaning)}
			if s.Kind != unit.KindNone {
				x.Quantity, x.SI = s.Kind.String(), s.Kind.SI()
			}
			a.Symbols = append(a.Symbols, x)
		}
		r.Methods = append(r.Methods, a)
	}
	return &r
}
