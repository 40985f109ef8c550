package openapi_test

import (
	"bytes"
	"flag"
	"os"
	"testing"

	"wetrun/openapi"
)

var update = flag.Bool("update", false, "write openapi.yaml anew from its parts")

func TestDocumentIsCurrent(t *testing.T) {
	joined, err := openapi.Join(os.DirFS("."))
	if err != nil {
		t.Fatal(err)
	}
	if *update {
		if err := os.WriteFile("openapi.yaml", joined, 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	if !bytes.Equal(joined, openapi.YAML) {
		t.Error("openapi.yaml is not what its parts make: go test ./openapi -run TestDocumentIsCurrent -update")
	}
}

func TestDocumentIsValid(t *testing.T) {
	doc, err := openapi.Document()
	if err != nil {
		t.Fatal(err)
	}
	if err := doc.Validate(t.Context()); err != nil {
		t.Error(err)
	}
}
