package operation

import (
	"slices"

	"wetrun/api/wire"
	"wetrun/internal/buildinfo"
	"wetrun/internal/text"
)

// MetaAnswer is the answer of GET /v1/meta.
type MetaAnswer struct {
	Name       string            `json:"name"`
	Version    string            `json:"version"`
	Revision   string            `json:"revision"`
	Operations []string          `json:"operations"`
	Limits     LimitsAnswer      `json:"limits"`
	Languages  []string          `json:"languages"`
	Links      map[string]string `json:"links"`
}

// LimitsAnswer is what a request may hold.
type LimitsAnswer struct {
	BodyBytes       int     `json:"bodyBytes"`
	Catches         int     `json:"catches"`
	Runs            int     `json:"runs"`
	Readings        int     `json:"readings"`
	LabelCharacters int     `json:"labelCharacters"`
	SmallestValue   float64 `json:"smallestValue"`
	LargestValue    float64 `json:"largestValue"`
	Digits          int     `json:"significantDigits"`

	Lists []ListLimit `json:"lists"`
}

// ListLimit is how many items a list of a request may hold.
type ListLimit struct {
	AppliesTo string `json:"appliesTo"`
	Most      int    `json:"most"`
}

// Meta is the answer of GET /v1/meta, which is in no language.
func Meta(text.Language) any {
	r := MetaAnswer{
		Name: "wetrun", Version: buildinfo.Version, Revision: buildinfo.Revision(),
		Limits: LimitsAnswer{
			BodyBytes: MostBody, Catches: mostItems[NozzleFlowRequest]("catches"), Runs: mostItems[GroundSpeedRequest]("runs"), Readings: mostItems[PressureUniformityRequest]("readings"),
			LabelCharacters: wire.LongestLabel, SmallestValue: wire.SmallestValue, LargestValue: wire.LargestValue, Digits: wire.SignificantDigits,
		},
		Links: map[string]string{"batch": "/v1/batch", "document": "/openapi.yaml", "units": "/v1/units", "tolerances": "/v1/tolerances", "methods": "/v1/methods", "nozzleSizes": "/v1/nozzle-sizes", "procedure": "/v1/procedure"},
	}
	for _, l := range text.Languages() {
		r.Languages = append(r.Languages, l.Tag())
	}
	for _, o := range All {
		r.Operations = append(r.Operations, o.Name)
		r.Limits.Lists = append(r.Limits.Lists, listLimits(o.Name+"#", o.Table.Shape())...)
	}
	return r
}

// mostItems is how many items a list of the request T may hold.
func mostItems[T any](list string) int {
	t := wire.TableOf[T]()
	return int(t.Members[slices.Index(t.Names, list)].Shape.High)
}

// listLimits are those of the lists in what lies at a pointer, from the tables that requests
// are decoded by; the first item of a list stands for any.
func listLimits(pointer string, s wire.Shape) (all []ListLimit) {
	if s.Type == "array" {
		all = append(all, ListLimit{pointer, int(s.High)})
		pointer += "/0"
	}
	for _, m := range s.Members {
		all = append(all, listLimits(pointer+"/"+m.Name, m.Shape)...)
	}
	return all
}
