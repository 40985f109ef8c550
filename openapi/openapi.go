// Package openapi holds the contract of the service: openapi.yaml, OpenAPI 3.1,
// joined as text from hand-written parts. document.yaml is its head, paths holds a
// file per path, components the schemas and shared responses.
//
// After editing a part, join them again with
//
//	go test ./openapi -run TestDocumentIsCurrent -update
package openapi

import _ "embed"

// YAML is the joined document.
//
//go:embed openapi.yaml
var YAML []byte

// JSON is the same document as JSON, written along with the YAML.
//
//go:embed openapi.json
var JSON []byte
