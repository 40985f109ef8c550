package api

import (
	"slices"

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

func meta(text.Language) any {
	r := MetaAnswer{
		Name: "wetrun", Version: buildinfo.Version, Revision: buildinfo.Revision(),
		Limits: LimitsAnswer{
			BodyBytes: mostBody, Catches: mostItems[NozzleFlowRequest]("catches"), Runs: mostItems[GroundSpeedRequest]("runs"), Readings: mostItems[PressureUniformityRequest]("readings"),
			LabelCharacters: longestLabel, SmallestValue: smallest, LargestValue: largest, Digits: significant,
		},
		Links: map[string]string{"batch": "/v1/batch", "document": "/openapi.yaml", "units": "/v1/units", "tolerances": "/v1/tolerances", "methods": "/v1/methods", "nozzleSizes": "/v1/nozzle-sizes", "procedure": "/v1/procedure"},
	}
	for _, l := range text.Languages() {
		r.Languages = append(r.Languages, l.Tag())
	}
	for _, o := range operations {
		r.Operations = append(r.Operations, o.name)
		r.Limits.Lists = append(r.Limits.Lists, listLimits(o.name+"#", o.table.shape())...)
	}
	return r
}

// mostItems is how many items a list of a request may hold.
func mostItems[T any](list string) int {
	t := tableOf[T]()
	return int(t.members[slices.Index(t.names, list)].shape.High)
}

// listLimits reads them out of the tables that requests are decoded by; the first
// item of a list stands for any.
func listLimits(at string, s shape) (all []ListLimit) {
	if s.Type == "array" {
		all = append(all, ListLimit{at, int(s.High)})
		at += "/0"
	}
	for _, m := range s.Members {
		all = append(all, listLimits(at+"/"+m.name, m.shape)...)
	}
	return all
}
