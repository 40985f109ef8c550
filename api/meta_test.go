package api

import (
	"encoding/json"
	"net/http"
	"slices"
	"strings"
	"testing"

	"github.com/getkin/kin-openapi/openapi3"

	"wetrun/api/operation"
)

// TestMetaListsEveryList follows the document's requests: each of their lists, and no
// other, is on the page with the length that the document allows.
func TestMetaListsEveryList(t *testing.T) {
	w := call(t, http.MethodGet, "/v1/meta", "")
	var page struct {
		Limits struct{ Lists []operation.ListLimit }
	}
	if err := json.Unmarshal(w.Body.Bytes(), &page); err != nil || w.Code != http.StatusOK {
		t.Fatalf("%d %v", w.Code, err)
	}
	if err := validates("MetaAnswer", w.Body.Bytes()); err != nil {
		t.Error(err)
	}
	want := map[string]int{}
	var follow func(at string, s *openapi3.Schema)
	follow = func(at string, s *openapi3.Schema) {
		if s.Type.Is("array") {
			if s.MaxItems != nil {
				want[at] = int(*s.MaxItems)
			} else {
				t.Errorf("%s has no maxItems", at)
			}
			follow(at+"/0", s.Items.Value)
		}
		for name, p := range s.Properties {
			follow(at+"/"+name, p.Value)
		}
	}
	for _, o := range operation.All {
		follow(o.Name+"#", requestSchema(t, o.Name))
	}
	for _, l := range page.Limits.Lists {
		if most, ok := want[l.AppliesTo]; !ok || most != l.Most || strings.HasSuffix(l.AppliesTo, "/0") {
			t.Errorf("%s: %d, the document says %d", l.AppliesTo, l.Most, most)
		}
		delete(want, l.AppliesTo)
	}
	if len(want) > 0 {
		t.Errorf("not on the page: %v", want)
	}
}

// mostItems is how many items a list at the top of a request of an operation may have.
func mostItems(name, list string) int {
	table := operation.Named(name).Table
	return int(table.Members[slices.Index(table.Names, list)].Shape.High)
}
