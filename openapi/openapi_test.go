package openapi_test

import (
	"bytes"
	"flag"
	"fmt"
	"io/fs"
	"os"
	"path"
	"strings"
	"testing"

	"wetrun/openapi"
	"wetrun/openapi/contract"
)

var update = flag.Bool("update", false, "write openapi.yaml and openapi.json anew from the parts")

func TestDocumentIsCurrent(t *testing.T) {
	joined, err := join(os.DirFS("."))
	if err != nil {
		t.Fatal(err)
	}
	doc, err := contract.Parse(joined)
	if err != nil {
		t.Fatal(err)
	}
	asJSON, err := doc.MarshalJSON()
	if err != nil {
		t.Fatal(err)
	}
	for _, file := range []struct {
		name       string
		has, wants []byte
	}{{"openapi.yaml", openapi.YAML, joined}, {"openapi.json", openapi.JSON, asJSON}} {
		if *update {
			if err := os.WriteFile(file.name, file.wants, 0o644); err != nil {
				t.Fatal(err)
			}
		} else if !bytes.Equal(file.has, file.wants) {
			t.Errorf("%s is not what the parts make: go test ./openapi -run TestDocumentIsCurrent -update", file.name)
		}
	}
}

func TestDocumentIsValid(t *testing.T) {
	doc, err := contract.Document()
	if err != nil {
		t.Fatal(err)
	}
	if err := doc.Validate(t.Context()); err != nil {
		t.Error(err)
	}
}

// join builds the document from its parts. Parts are indented, never parsed, so
// what is written there is what is read.
func join(parts fs.FS) ([]byte, error) {
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
	own := []string{"security-schemes", "responses", "parameters", "headers"}
	for _, section := range own {
		name := section
		if section == "security-schemes" {
			name = "securitySchemes"
		}
		fmt.Fprintf(&out, "  %s:\n", name)
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
