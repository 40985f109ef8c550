package api

import (
	"encoding/json"

	"wetrun/api/operation"
	"wetrun/api/wire"
	"wetrun/internal/text"
	"wetrun/openapi"
)

// pages lists every path of the document that GET and HEAD answer, beside operations.
func pages(operations []operation.Operation) map[string]*page {
	all := map[string]*page{
		"/livez":           {mediaType: "application/json", fresh: true, wordless: true, prepare: encoded(func(text.Language) any { return statusResponse{"alive"} })},
		"/readyz":          {mediaType: "application/json", fresh: true, wordless: true, prepare: encoded(func(text.Language) any { return statusResponse{"ready"} })},
		"/openapi.yaml":    {mediaType: "application/yaml", wordless: true, packed: true, prepare: func(text.Language) ([]byte, error) { return openapi.PackedYAML, nil }},
		"/deprecation":     {mediaType: htmlPage, prepare: deprecationPage(operations)},
		"/docs":            {mediaType: htmlPage, wordless: true, prepare: docsPage},
		"/openapi.json":    {mediaType: "application/json", wordless: true, packed: true, prepare: func(text.Language) ([]byte, error) { return openapi.PackedJSON, nil }},
		"/v1/units":        {mediaType: "application/json", prepare: encoded(operation.Units)},
		"/v1/tolerances":   {mediaType: "application/json", prepare: operation.Tolerances},
		"/v1/methods":      {mediaType: "application/json", prepare: encoded(operation.Methods)},
		"/v1/nozzle-sizes": {mediaType: "application/json", prepare: operation.NozzleSizes},
		"/v1/procedure":    {mediaType: "application/json", prepare: encoded(operation.Procedure)},
		"/v1/meta":         {mediaType: "application/json", wordless: true, prepare: encoded(operation.Meta)},
	}
	for _, t := range wire.ProblemTypes {
		all["/problems/"+string(t.Kind)] = &page{mediaType: htmlPage, prepare: problemPage(t.Kind)}
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
