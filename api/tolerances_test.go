package api

import (
	"encoding/json"
	"net/http"
	"slices"
	"strings"
	"testing"

	"github.com/getkin/kin-openapi/openapi3"

	"wetrun/api/operation"
	"wetrun/internal/text"
)

// TestTolerancesPage reads the page as a client does: it follows its schema, has
// words for every preset, and every preset names a member that its operation takes.
func TestTolerancesPage(t *testing.T) {
	w := call(t, http.MethodGet, "/v1/tolerances", "")
	if w.Code != http.StatusOK || w.Header().Get("ETag") == "" {
		t.Fatalf("%d %v", w.Code, w.Header())
	}
	if err := validates("TolerancesAnswer", w.Body.Bytes()); err != nil {
		t.Error(err)
	}
	if strings.Contains(w.Body.String(), `"year":0`) {
		t.Error("a source that shows no year has the year 0")
	}
	var page struct {
		Presets []struct {
			Name, AppliesTo, Basis string
			Source                 struct{ Kind string }
			Value                  map[string]any
		}
	}
	if err := json.Unmarshal(w.Body.Bytes(), &page); err != nil {
		t.Fatal(err)
	}
	kinds := map[string]int{}
	for _, p := range page.Presets {
		kinds[p.Source.Kind]++
		if _, ok := si(p.Value); !ok {
			t.Errorf("%s: %v is no quantity", p.Name, p.Value)
		}
		if judged := strings.Contains(strings.ToLower(text.Of(text.English, "tolerance."+p.Name)), "own judgment"); judged != (p.Source.Kind == "own_judgement") {
			t.Errorf("%s is by %s, and its words say otherwise", p.Name, p.Source.Kind)
		}
		if !text.Has("tolerance." + p.Name) {
			t.Errorf("%s has no words", p.Name)
		}
		if !takes(t, p.AppliesTo) {
			t.Errorf("%s: nothing takes %s", p.Name, p.AppliesTo)
		}
	}
	// Eight of common practice, four rules of thumb; thirteen sources, two of which give two
	// rules, and eight more, four of which do; of instruments and repeats one of common
	// practice, one published, nine by own judgement.
	if kinds["common_practice"] != 9 || kinds["rule_of_thumb"] != 4 || kinds["published"] != 28 || kinds["own_judgement"] != 9 {
		t.Errorf("presets by kind: %v", kinds)
	}
}

// takes follows operation#/member/0/member through the document.
func takes(t testing.TB, appliesTo string) bool {
	t.Helper()
	name, path, _ := strings.Cut(appliesTo, "#/")
	ref := openapi3.NewSchemaRef("", requestSchema(t, name))
	for step := range strings.SplitSeq(path, "/") {
		switch {
		case ref == nil:
			return false
		case step == "0":
			ref = ref.Value.Items
		default:
			ref = ref.Value.Properties[step]
		}
	}
	return ref != nil && slices.ContainsFunc(operation.All, func(o operation.Operation) bool { return o.Name == name })
}
