package operation

import (
	"encoding/json"
	"strconv"

	"wetrun/calc/unit"
	"wetrun/internal/text"
)

// UnitsAnswer is the answer of GET /v1/units.
type UnitsAnswer struct {
	Acre  AcreAnswer   `json:"acre"`
	Units []UnitAnswer `json:"units"`
}

// AcreAnswer says which acre is meant.
type AcreAnswer struct {
	Name        string      `json:"name"`
	SquareMetre json.Number `json:"squareMetres"`
	Detail      string      `json:"detail"`
}

// UnitAnswer is one unit. Its factor is exact as a quotient of two decimals.
type UnitAnswer struct {
	Symbol   string       `json:"symbol"`
	Quantity string       `json:"quantity"`
	SI       string       `json:"si"`
	Factor   json.Number  `json:"factor"`
	Exact    FactorAnswer `json:"exactFactor"`
	UCUM     string       `json:"ucum,omitempty"`
	Rec20    string       `json:"rec20,omitempty"`
	ADAPT    string       `json:"adapt,omitempty"`
}

// FactorAnswer is an exact factor.
type FactorAnswer struct {
	Numerator   json.Number `json:"numerator"`
	Denominator json.Number `json:"denominator"`
}

// Units is the answer of GET /v1/units.
func Units(lang text.Language) any {
	r := UnitsAnswer{Acre: AcreAnswer{"international", exact(unit.Acre.In(unit.SquareMetre)), text.Of(lang, "units.acre")}}
	for _, u := range unit.All() {
		r.Units = append(r.Units, UnitAnswer{
			Symbol: u.Symbol, Quantity: u.Quantity.String(), SI: u.Quantity.SI(), Factor: exact(u.Factor),
			Exact: FactorAnswer{exact(u.Numerator), exact(u.Denominator)},
			UCUM:  u.UCUM, Rec20: u.Rec20, ADAPT: u.ADAPT,
		})
	}
	return r
}

// exact writes a double with all its digits; factors alone are not rounded.
func exact(x float64) json.Number { return json.Number(strconv.FormatFloat(x, 'g', -1, 64)) }
