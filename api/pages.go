package api

import (
	"encoding/json"

	"wetrun/internal/text"
	"wetrun/openapi"
)

// pages lists every path of the document that GET and HEAD answer, beside operations.
func pages(operations []operation) map[string]*page {
	all := map[string]*page{
		"/livez":           {mediaType: "application/json", fresh: true, wordless: true, prepare: encoded(func(text.Language) any { return statusResponse{"alive"} })},
		"/readyz":          {mediaType: "application/json", fresh: true, wordless: true, prepare: encoded(func(text.Language) any { return statusResponse{"ready"} })},
		"/openapi.yaml":    {mediaType: "application/yaml", wordless: true, packed: true, prepare: func(text.Language) ([]byte, error) { return openapi.PackedYAML, nil }},
		"/deprecation":     {mediaType: htmlPage, prepare: deprecationPage(operations)},
		"/docs":            {mediaType: htmlPage, wordless: true, prepare: docsPage},
		"/openapi.json":    {mediaType: "application/json", wordless: true, packed: true, prepare: func(text.Language) ([]byte, error) { return openapi.PackedJSON, nil }},
		"/v1/units":        {mediaType: "application/json", prepare: encoded(units)},
		"/v1/tolerances":   {mediaType: "application/json", prepare: tolerances},
		"/v1/methods":      {mediaType: "application/json", prepare: encoded(methods)},
		"/v1/nozzle-sizes": {mediaType: "application/json", prepare: nozzleSizes},
		"/v1/procedure":    {mediaType: "application/json", prepare: encoded(procedure)},
		"/v1/meta":         {mediaType: "application/json", wordless: true, prepare: encoded(meta)},
	}
	for _, t := range problemTypes {
		all["/problems/"+string(t.kind)] = &page{mediaType: htmlPage, prepare: problemPage(t.kind)}
	}
	all["/.well-known/api-catalog"] = &page{mediaType: catalogType, wordless: true, prepare: apiCatalog(operations, all)}
	return all
}

type statusResponse struct {
	Status string `json:"status"`
}

func encoded(value func(text.Language) any) func(text.Language) ([]byte, error) {
	return func(lang text.Language) ([]byte, error) { return json.Marshal(value(lang)) }
}
