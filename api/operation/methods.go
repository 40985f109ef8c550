package operation

import (
	"wetrun/calc/method"
	"wetrun/calc/unit"
	"wetrun/internal/text"
)

// MethodsAnswer is the answer of GET /v1/methods.
type MethodsAnswer struct {
	Methods []MethodAnswer `json:"methods"`
}

// MethodAnswer is one method.
type MethodAnswer struct {
	ID         string             `json:"id"`
	Title      string             `json:"title"`
	Formula    string             `json:"formula"`
	Symbols    []SymbolAnswer     `json:"symbols"`
	Domain     string             `json:"domain"`
	Source     PresetSourceAnswer `json:"source"`
	Operations []string           `json:"operations"`
}

// SymbolAnswer is one symbol of a formula. Quantity and SI are left out for a plain
// number, and for what is of whatever quantity the request has.
type SymbolAnswer struct {
	Symbol   string `json:"symbol"`
	Meaning  string `json:"meaning"`
	Quantity string `json:"quantity,omitempty"`
	SI       string `json:"si,omitempty"`
}

// Methods is the answer of GET /v1/methods.
func Methods(lang text.Language) any {
	var r MethodsAnswer
	for _, m := range method.All() {
		a := MethodAnswer{
			ID: m.ID, Title: text.Of(lang, "method."+m.ID), Formula: m.Formula,
			Domain: text.Of(lang, "domain."+m.Domain), Source: sourceResponse(m.Source), Operations: m.Operations,
		}
		if m.SourceNotRead && !m.Source.Published() {
			a.Source.Kind = "source_not_read"
		}
		for _, s := range m.Symbols {
			x := SymbolAnswer{Symbol: s.Symbol, Meaning: text.Of(lang, "symbol."+s.Meaning)}
			if s.Kind != unit.KindNone {
				x.Quantity, x.SI = s.Kind.String(), s.Kind.SI()
			}
			a.Symbols = append(a.Symbols, x)
		}
		r.Methods = append(r.Methods, a)
	}
	return &r
}
