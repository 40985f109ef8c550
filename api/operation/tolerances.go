package operation

import (
	"github.com/go-json-experiment/json"

	"wetrun/api/wire"
	"wetrun/calc"
	"wetrun/calc/method"
	"wetrun/internal/text"
)

// TolerancesAnswer is the answer of GET /v1/tolerances.
type TolerancesAnswer struct {
	Presets []PresetAnswer `json:"presets"`
}

// PresetAnswer is one preset.
type PresetAnswer struct {
	Name      string             `json:"name"`
	Value     wire.Quantity      `json:"value"`
	AppliesTo string             `json:"appliesTo"`
	Basis     string             `json:"basis,omitzero"`
	Default   bool               `json:"default"`
	Source    PresetSourceAnswer `json:"source"`
	Detail    string             `json:"detail"`
}

// PresetSourceAnswer says where a preset or a method is from.
type PresetSourceAnswer struct {
	Kind      string `json:"kind"`
	Title     string `json:"title,omitempty"`
	Publisher string `json:"publisher,omitempty"`
	Year      int    `json:"year,omitzero"`
	URL       string `json:"url,omitempty"`
}

// Tolerances is the answer of GET /v1/tolerances. It is encoded here, since quantities
// write themselves by the encoder of the operations only.
func Tolerances(lang text.Language) ([]byte, error) {
	var r TolerancesAnswer
	for _, t := range calc.Tolerances() {
		source := sourceResponse(t.Source)
		switch {
		case t.OwnJudgement:
			source.Kind = "own_judgement"
		case t.RuleOfThumb:
			source.Kind = "rule_of_thumb"
		}
		r.Presets = append(r.Presets, PresetAnswer{
			Name: t.Name, Value: wire.In(t.Value, t.Unit), AppliesTo: t.AppliesTo, Basis: string(t.Basis),
			Default: t.Default, Source: source, Detail: text.Of(lang, "tolerance."+t.Name),
		})
	}
	return json.Marshal(&r)
}

// sourceResponse words where a preset or a method is from.
func sourceResponse(s method.Source) PresetSourceAnswer {
	a := PresetSourceAnswer{"common_practice", s.Title, s.Publisher, s.Year, s.URL}
	if s.Published() {
		a.Kind = "published"
	}
	return a
}
