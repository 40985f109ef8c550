// Package contract reads the document with a library, for tests to hold the service
// against it. The service serves bytes and has no need of the library.
package contract

import (
	"sync"

	"github.com/getkin/kin-openapi/openapi3"

	"wetrun/internal/packed"
	"wetrun/openapi"
)

// Document is the document, parsed once.
var Document = sync.OnceValues(func() (*openapi3.T, error) {
	yaml, err := packed.Unpack(openapi.PackedYAML)
	if err != nil {
		return nil, err
	}
	return Parse(yaml)
})

// Parse reads a document.
func Parse(yaml []byte) (*openapi3.T, error) { return openapi3.NewLoader().LoadFromData(yaml) }
