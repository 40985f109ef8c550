// Package openapi holds the contract of the service: openapi.yaml, OpenAPI 3.1,
// joined as text from hand-written parts. document.yaml is its head, paths holds a
// file per path, components the schemas and shared responses.
//
// After editing a part, join them again with
//
//	go test ./openapi -run TestDocumentIsCurrent -update
package openapi

import (
	_ "embed"
	"sync"

	"github.com/getkin/kin-openapi/openapi3"
)

// YAML is the joined document.
//
//go:embed openapi.yaml
var YAML []byte

// Document loads the document; it is parsed once, when first asked for.
var Document = sync.OnceValues(func() (*openapi3.T, error) {
	return openapi3.NewLoader().LoadFromData(YAML)
})

// JSON is the same document as JSON, made when first asked for.
var JSON = sync.OnceValues(func() ([]byte, error) {
	doc, err := Document()
	if err != nil {
		return nil, err
	}
	return doc.MarshalJSON()
})
