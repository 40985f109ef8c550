// Package openapi holds the contract of the service: openapi.yaml, OpenAPI 3.1,
// joined as text from hand-written parts. document.yaml is its head, paths holds a
// file per path, components the schemas and shared responses.
//
// After editing a part, join them again with
//
//	go test ./openapi -run TestDocumentIsCurrent -update
package openapi

import (
	"bytes"
	_ "embed"
	"fmt"
	"io/fs"
	"path"
	"strings"
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

// Join builds the document from its parts. Parts are indented, never parsed, so
// what is written there is what is read.
func Join(parts fs.FS) ([]byte, error) {
	var out bytes.Buffer
	head, err := fs.ReadFile(parts, "document.yaml")
	if err != nil {
		return nil, err
	}
	out.WriteString("# Joined from document.yaml, paths and components: edit those, not this file.\n")
	out.Write(head)
	out.WriteString("paths:\n")
	if err := include(&out, parts, "paths/*.yaml", "  ", nil); err != nil {
		return nil, err
	}
	out.WriteString("components:\n")
	own := []string{"responses", "parameters", "headers"}
	for _, section := range own {
		fmt.Fprintf(&out, "  %s:\n", section)
		if err := include(&out, parts, "components/"+section+".yaml", "    ", nil); err != nil {
			return nil, err
		}
	}
	out.WriteString("  schemas:\n")
	if err := include(&out, parts, "components/*.yaml", "    ", own); err != nil {
		return nil, err
	}
	return out.Bytes(), nil
}

func include(out *bytes.Buffer, parts fs.FS, pattern, indent string, except []string) error {
	files, err := fs.Glob(parts, pattern)
	if err != nil {
		return err
	}
next:
	for _, file := range files {
		for _, name := range except {
			if path.Base(file) == name+".yaml" {
				continue next
			}
		}
		text, err := fs.ReadFile(parts, file)
		if err != nil {
			return err
		}
		for line := range strings.Lines(string(text)) {
			if strings.TrimSpace(line) != "" {
				out.WriteString(indent)
			}
			out.WriteString(line)
		}
	}
	return nil
}
