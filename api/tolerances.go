package api

import (
	"github.com/go-json-experiment/json"

	"wetrun/calc"
	"wetrun/internal/text"
)

// TolerancesResponse is the answer of GET /v1/tolerances.
type TolerancesResponse struct {
	Presets []PresetResponse `json:"presets"`
}

// PresetResponse is one preset.
type PresetResponse struct {
	Name      string               `json:"name"`
	Value     Quantity             `json:"value"`
	AppliesTo string               `json:"appliesTo"`
	Basis     string               `json:"basis,omitzero"`
	Default   bool                 `json:"default"`
	Source    PresetSourceResponse `json:"source"`
	Detail    string               `json:"detail"`
}

// PresetSourceResponse says where a preset is from.
type PresetSourceResponse struct {
	Kind      string `json:"kind"`
	Title     string `json:"title,omitzero"`
	Publisher string `json:"publisher,omitzero"`
	Year      int    `json:"year,omitzero"`
	URL       string `json:"url,omitzero"`
}

// tolerances encodes the presets itself, because quantities write themselves in
// the encoder of the operations only.
func tolerances(lang text.Language) ([]byte, error) {
	var r TolerancesResponse
	for _, t := range calc.Tolerances() {
		source := PresetSourceResponse{"common_practice", t.Source.Title, t.Source.Publisher, t.Source.Year, t.Source.URL}
		switch {
		case t.Source.Published():
			source.Kind = "published"
		case t.FromMemory:
			source.Kind = "from_memory"
		}
		r.Presets = append(r.Presets, PresetResponse{
			Name: t.Name, Value: in(t.Value, t.Unit), AppliesTo: t.AppliesTo, Basis: string(t.Basis),
			Default: t.Default, Source: source, Detail: text.Of(lang, "tolerance."+t.Name),
		})
	}
	return json.Marshal(&r)
}
