package openapi_test

import (
	"bytes"
	"flag"
	"fmt"
	"io/fs"
	"os"
	"path"
	"regexp"
	"strings"
	"testing"

	"wetrun/internal/packed"
	"wetrun/openapi/contract"
)

var update = flag.Bool("update", false, "write openapi.yaml, openapi.yaml.gz and openapi.json.gz anew from the parts")

// joinedDocument is what the parts make, in both forms.
func joinedDocument(t *testing.T) (joined, asJSON []byte) {
	t.Helper()
	joined, err := join(os.DirFS("."))
	if err != nil {
		t.Fatal(err)
	}
	doc, err := contract.Parse(joined)
	if err != nil {
		t.Fatal(err)
	}
	asJSON, err = doc.MarshalJSON()
	if err != nil {
		t.Fatal(err)
	}
	return joined, asJSON
}

func TestDocumentIsCurrent(t *testing.T) {
	joined, asJSON := joinedDocument(t)
	for _, file := range []struct {
		name   string
		packed bool
		wants  []byte
	}{{"openapi.yaml", false, joined}, {"openapi.yaml.gz", true, joined}, {"openapi.json.gz", true, asJSON}} {
		if *update {
			body := file.wants
			if file.packed {
				var err error
				if body, err = packed.Pack(body); err != nil {
					t.Fatal(err)
				}
			}
			if err := os.WriteFile(file.name, body, 0o644); err != nil {
				t.Fatal(err)
			}
			continue
		}
		// What is packed is compared unpacked: another Go may compress in another way.
		has, err := os.ReadFile(file.name)
		if err == nil && file.packed {
			has, err = packed.Unpack(has)
		}
		if err != nil || !bytes.Equal(has, file.wants) {
			t.Errorf("%s is not what the parts make: go test ./openapi -run TestDocumentIsCurrent -update (%v)", file.name, err)
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
	var paths bytes.Buffer
	if err := include(&paths, parts, "paths/*.yaml", "  ", nil); err != nil {
		return nil, err
	}
	if err := withEvery(&out, paths.String(), parts); err != nil {
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
	return withOperations(out.Bytes())
}

// everyLine stands for what every operation has; it names a part in the folder every.
var everyLine = regexp.MustCompile(`^( *)# every: (\w+)\n$`)

// withEvery writes the paths, with the parts that all of them share in their places.
func withEvery(out *bytes.Buffer, paths string, parts fs.FS) error {
	for line := range strings.Lines(paths) {
		m := everyLine.FindStringSubmatch(line)
		if m == nil {
			out.WriteString(line)
		} else if err := include(out, parts, "every/"+m[2]+".yaml", m[1], nil); err != nil {
			return err
		}
	}
	return nil
}

var (
	posted     = regexp.MustCompile(`(?m)^  /v1/([a-z-]+):\n    post:`)
	everyNamed = []byte("enum: [] # every operation; the step that joins the parts fills it in\n")
)

// withOperations lists the operations where a line of a batch names one: every path that
// is posted to, but the batch itself.
func withOperations(joined []byte) ([]byte, error) {
	var names []string
	for _, m := range posted.FindAllSubmatch(joined, -1) {
		if name := string(m[1]); name != "batch" {
			names = append(names, name)
		}
	}
	if bytes.Count(joined, everyNamed) != 1 || len(names) == 0 {
		return nil, fmt.Errorf("components/batch.yaml has no line %q for the operations %v", everyNamed, names)
	}
	return bytes.Replace(joined, everyNamed, []byte("enum: ["+strings.Join(names, ", ")+"]\n"), 1), nil
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
