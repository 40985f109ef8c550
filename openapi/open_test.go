package openapi_test

import (
	"maps"
	"slices"
	"strings"
	"testing"

	"github.com/getkin/kin-openapi/openapi3"

	"wetrun/openapi/contract"
)

// TestAnswersAreOpen: an answer may get members and words that the document does not
// have yet. Only units are closed, and the words of a request that an answer repeats: who
// does not send a new one does not get it. No object is of both.
func TestAnswersAreOpen(t *testing.T) {
	doc, err := contract.Document()
	if err != nil {
		t.Fatal(err)
	}
	sent, answered := reached{}, reached{}
	for path, item := range doc.Paths.Map() {
		for _, o := range item.Operations() {
			if o.RequestBody != nil {
				sent.content(path+" request", o.RequestBody.Value.Content)
			}
			for status, r := range o.Responses.Map() {
				answered.content(path+" "+status, r.Value.Content)
			}
		}
	}
	for at, s := range answered {
		both := sent[at] != nil
		switch {
		case len(s.Properties) > 0 && s.AdditionalProperties.Has != nil && !*s.AdditionalProperties.Has:
			t.Errorf("%s is closed", at)
		case len(s.Properties) > 0 && both:
			t.Errorf("%s stands in a request as well", at)
		case len(s.Enum) > 0 && !both && !strings.HasSuffix(at, "Unit"):
			t.Errorf("%s: its words are closed; list them under x-extensible-enum", at)
		}
	}
}

// TestSchemasCanBeGeneratedFrom: a quantity of several kinds is exactly one of them, which
// its unit tells, and no number is taken for one of single precision.
func TestSchemasCanBeGeneratedFrom(t *testing.T) {
	doc, err := contract.Document()
	if err != nil {
		t.Fatal(err)
	}
	all := reached{}
	for name, ref := range doc.Components.Schemas {
		all.schema(ref, name)
	}
	for at, s := range all {
		if len(s.AnyOf)+len(s.AllOf) > 0 {
			t.Errorf("%s is any or all of several: write oneOf", at)
		}
		if s.Type.Is("number") && s.Format != "double" {
			t.Errorf("%s: a number without the format double", at)
		}
		units := map[any]bool{}
		for _, kind := range s.OneOf {
			for _, u := range kind.Value.Properties["unit"].Value.Enum {
				if units[u] {
					t.Errorf("%s: %v is of two kinds", at, u)
				}
				units[u] = true
			}
		}
	}
}

// reached are schemas by the name of the component, or of the member of one.
type reached map[string]*openapi3.Schema

func (r reached) content(at string, c openapi3.Content) {
	for _, media := range c {
		if media.Schema != nil {
			r.schema(media.Schema, at)
		}
	}
}

func (r reached) schema(ref *openapi3.SchemaRef, at string) {
	if ref == nil || ref.Value == nil {
		return
	}
	if _, name, ok := strings.Cut(ref.Ref, "/schemas/"); ok {
		at = name
	}
	if r[at] != nil {
		return
	}
	r[at] = ref.Value
	for _, name := range slices.Sorted(maps.Keys(ref.Value.Properties)) {
		r.schema(ref.Value.Properties[name], at+"/"+name)
	}
	r.schema(ref.Value.Items, at+"/[]")
	r.schema(ref.Value.AdditionalProperties.Schema, at+"/*")
	r.schema(ref.Value.ContentSchema, at+"/content")
	for _, list := range []openapi3.SchemaRefs{ref.Value.OneOf, ref.Value.AnyOf, ref.Value.AllOf} {
		for _, x := range list {
			r.schema(x, at+"/of")
		}
	}
}
