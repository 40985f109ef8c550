// Package openapi holds the contract of the service: openapi.yaml, OpenAPI 3.1,
// joined as text from hand-written parts. document.yaml is its head, paths holds a
// file per path, components the schemas and shared responses.
//
// After editing a part, join them again with
//
//	go test ./openapi -run TestDocumentIsCurrent -update
package openapi

import _ "embed"

// PackedYAML is the joined document, compressed with gzip: as text it would be a fortieth
// of the program.
//
//go:embed openapi.yaml.gz
var PackedYAML []byte

// PackedJSON is the same document as JSON, compressed too.
//
//go:embed openapi.json.gz
var PackedJSON []byte
