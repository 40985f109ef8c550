package api

import (
	"encoding/json"
	"maps"
	"net/http"
	"slices"
	"strings"

	"wetrun/api/operation"
	"wetrun/internal/text"
)

// links lead from any answer to the contract, to the reference, and to the
// catalogue (RFC 8631, RFC 9727). They are relative, as the server does not know
// under which name it is reached.
var links = []string{`</openapi.yaml>; rel="service-desc"; type="application/yaml", ` +
	`</docs>; rel="service-doc"; type="text/html", ` +
	`</.well-known/api-catalog>; rel="api-catalog"; type="application/linkset+json"`}

// addLinks adds them to an answer that may have links of its own.
func addLinks(h http.Header) {
	if h["Link"] == nil {
		h["Link"] = links // without room to append to: whoever adds gets a copy
		return
	}
	h["Link"] = append(h["Link"], links...)
}

// catalogType is the media type of the catalogue with the profile that RFC 9727 asks for.
const catalogType = `application/linkset+json; profile="https://www.rfc-editor.org/info/rfc9727"`

// CatalogAnswer is a set of links (RFC 9264): GET /.well-known/api-catalog.
type CatalogAnswer struct {
	Linkset []LinkContext `json:"linkset"`
}

// A LinkContext holds the links of one resource.
type LinkContext struct {
	Anchor      string       `json:"anchor"`
	Item        []LinkTarget `json:"item,omitempty"`
	ServiceDesc []LinkTarget `json:"service-desc,omitempty"`
	ServiceDoc  []LinkTarget `json:"service-doc,omitempty"`
	ServiceMeta []LinkTarget `json:"service-meta,omitempty"`
	Status      []LinkTarget `json:"status,omitempty"`
}

// A LinkTarget is what a link leads to.
type LinkTarget struct {
	Href string `json:"href"`
	Type string `json:"type,omitempty"`
}

// apiCatalog lists every endpoint under /v1, and what describes them.
func apiCatalog(operations []operation.Operation, pages map[string]*page) func(text.Language) ([]byte, error) {
	return func(text.Language) ([]byte, error) {
		const reached = "application/json"
		all := LinkContext{Anchor: "/.well-known/api-catalog"}
		for _, o := range operations {
			all.Item = append(all.Item, LinkTarget{"/v1/" + o.Name, reached})
		}
		all.Item = append(all.Item, LinkTarget{"/v1/batch", "application/x-ndjson"})
		for _, path := range slices.Sorted(maps.Keys(pages)) {
			if strings.HasPrefix(path, "/v1/") {
				all.Item = append(all.Item, LinkTarget{path, reached})
			}
		}
		about := LinkContext{
			Anchor:      "/v1",
			ServiceDesc: []LinkTarget{{"/openapi.yaml", "application/yaml"}, {"/openapi.json", "application/json"}},
			ServiceDoc:  []LinkTarget{{"/docs", "text/html"}},
			ServiceMeta: []LinkTarget{{"/v1/meta", reached}},
			Status:      []LinkTarget{{"/readyz", reached}},
		}
		return json.Marshal(CatalogAnswer{[]LinkContext{all, about}})
	}
}
