package api

import (
	"encoding/json"
	"fmt"
	"maps"
	"net/http"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/getkin/kin-openapi/openapi3"
	"pgregory.net/rapid"

	"wetrun/api/operation"
	"wetrun/api/wire"
	"wetrun/api/working"
	"wetrun/calc/unit"
	"wetrun/internal/text"
)

// TestRequestTablesMatchDocument binds what the decoder takes to the schemas:
// names, which are required, types, units, bounds, lengths, words.
func TestRequestTablesMatchDocument(t *testing.T) {
	for _, o := range operation.All {
		schema := requestSchema(t, o.Name)
		compareObject(t, o.Name, o.Table.Shape(), schema)
	}
}

func compareObject(t *testing.T, at string, s wire.Shape, schema *openapi3.Schema) {
	t.Helper()
	if schema.AdditionalProperties.Has == nil || *schema.AdditionalProperties.Has {
		t.Errorf("%s: the schema takes any other member", at)
	}
	var names, required []string
	for _, m := range s.Members {
		names = append(names, m.Name)
		if m.Required {
			required = append(required, m.Name)
		}
		p := schema.Properties[m.Name]
		if p == nil {
			t.Errorf("%s/%s: the document does not have it", at, m.Name)
			continue
		}
		compareMember(t, at+"/"+m.Name, m.Shape, p)
	}
	for name := range schema.Properties {
		if !slices.Contains(names, name) {
			t.Errorf("%s/%s: the decoder does not take it", at, name)
		}
	}
	if want := slices.Sorted(slices.Values(schema.Required)); !slices.Equal(slices.Sorted(slices.Values(required)), want) {
		t.Errorf("%s: the decoder requires %v, the document %v", at, required, want)
	}
}

func compareMember(t *testing.T, at string, s wire.Shape, ref *openapi3.SchemaRef) {
	t.Helper()
	schema := ref.Value
	if s.Type == "quantity" {
		var want []string
		for _, u := range unit.All() {
			if name := "wants " + u.Quantity.String(); s.Kinds&(1<<u.Quantity) != 0 && !slices.Contains(want, name) {
				want = append(want, name)
			}
		}
		var got []string
		alternatives := openapi3.SchemaRefs{ref}
		if len(schema.OneOf) > 0 {
			alternatives = schema.OneOf
		}
		for _, a := range alternatives {
			got = append(got, quantityOf(t, at, a.Value, s.Low))
		}
		slices.Sort(got)
		slices.Sort(want)
		if !slices.Equal(got, want) {
			t.Errorf("%s: the decoder %v, the document %v", at, want, got)
		}
		return
	}
	if !schema.Type.Is(s.Type) {
		t.Errorf("%s: the decoder takes %s, the document %v", at, s.Type, schema.Type)
		return
	}
	var low, high float64
	switch s.Type {
	case "object":
		compareObject(t, at, s, schema)
		return
	case "array":
		low = float64(schema.MinItems)
		if schema.MaxItems != nil {
			high = float64(*schema.MaxItems)
		}
		compareItems(t, at, s, schema.Items)
	case "string":
		if schema.MaxLength != nil {
			high = float64(*schema.MaxLength)
		}
		if schema.Format != s.Format {
			t.Errorf("%s: the decoder takes the format %q, the document %q", at, s.Format, schema.Format)
		}
		if schema.Pattern != s.Pattern {
			t.Errorf("%s: the decoder takes the pattern %q, the document %q", at, s.Pattern, schema.Pattern)
		}
		var words []string
		for _, e := range schema.Enum {
			words = append(words, fmt.Sprint(e))
		}
		if !slices.Equal(words, s.Allowed) {
			t.Errorf("%s: the decoder allows %v, the document %v", at, s.Allowed, words)
		}
	case "integer", "number":
		if schema.Min != nil && schema.Max != nil {
			low, high = *schema.Min, *schema.Max
		}
	}
	if low != s.Low || high != s.High {
		t.Errorf("%s: the decoder bounds it to %v..%v, the document to %v..%v", at, s.Low, s.High, low, high)
	}
}

func compareItems(t *testing.T, at string, s wire.Shape, ref *openapi3.SchemaRef) {
	t.Helper()
	if s.Kinds != 0 {
		compareMember(t, at+"/[]", wire.Shape{Type: "quantity", Kinds: s.Kinds}, ref)
		return
	}
	items := ref.Value
	if len(s.Members) > 0 {
		compareObject(t, at+"/[]", wire.Shape{Type: "object", Members: s.Members}, items)
		return
	}
	var words []string
	for _, e := range items.Enum {
		words = append(words, fmt.Sprint(e))
	}
	if !items.Type.Is("string") || !slices.Equal(words, s.Allowed) {
		t.Errorf("%s: the decoder takes %v, the items of the document are %v of %v", at, s.Allowed, items.Type, words)
	}
	item := wire.Shape{Type: "string", Allowed: s.Allowed, Pattern: s.Pattern}
	if len(s.Allowed) == 0 {
		item.High = wire.LongestLabel // of any text
	}
	compareMember(t, at+"/[]", item, openapi3.NewSchemaRef("", items))
}

// quantityOf names the quantity whose units a schema lists, having checked them
// and the bounds of its value.
func quantityOf(t *testing.T, at string, schema *openapi3.Schema, least float64) string {
	t.Helper()
	value, symbol := schema.Properties["value"], schema.Properties["unit"]
	if value == nil || symbol == nil || len(schema.Properties) != 2 || len(schema.Required) != 2 {
		return fmt.Sprintf("no quantity at %s", at)
	}
	if v := value.Value; v.Min == nil || v.Max == nil || *v.Min != least || *v.Max != wire.LargestValue {
		t.Errorf("%s: the value's bounds are not %v..%v", at, least, wire.LargestValue)
	}
	var symbols []string
	for _, e := range symbol.Value.Enum {
		symbols = append(symbols, fmt.Sprint(e))
	}
	if len(symbols) == 0 {
		return "no units"
	}
	kind := unit.Lookup(symbols[0]).Kind()
	if !slices.Equal(symbols, kind.Symbols()) {
		t.Errorf("%s: the document lists %v for %s, the table %v", at, symbols, kind, kind.Symbols())
	}
	return "wants " + kind.String()
}

// TestResponseTypesMatchDocument binds the Go types of answers to the schemas.
func TestResponseTypesMatchDocument(t *testing.T) {
	for _, o := range operation.All {
		compareType(t, o.Name, o.Response, answerSchema(t, o.Name))
	}
	compareType(t, "problem", reflect.TypeFor[wire.Problem](), schemaNamed(t, "Problem"))
}

func compareType(t *testing.T, at string, typ reflect.Type, schema *openapi3.Schema) {
	t.Helper()
	if typ.Kind() == reflect.Pointer {
		typ = typ.Elem()
	}
	want := ""
	switch {
	case typ == reflect.TypeFor[working.MethodSet]():
		want = "array"
	case typ == reflect.TypeFor[wire.Quantity]():
		if schema.Properties["unit"] == nil && len(schema.OneOf) == 0 {
			t.Errorf("%s: a quantity in Go, not in the document", at)
		}
		return
	case typ == reflect.TypeFor[wire.Number](), typ == reflect.TypeFor[working.JSONNumber](), typ.Kind() == reflect.Float64:
		want = "number"
	case typ.Kind() == reflect.Int:
		want = "integer"
	case typ.Kind() == reflect.String:
		want = "string"
		compareWords(t, at, typ, schema)
	case typ.Kind() == reflect.Bool:
		want = "boolean"
	case typ.Kind() == reflect.Slice:
		want = "array"
		if schema.Items != nil {
			compareType(t, at+"/[]", typ.Elem(), schema.Items.Value)
		}
	case typ.Kind() == reflect.Struct:
		want = "object"
		compareStruct(t, at, typ, schema)
	}
	if !schema.Type.Is(want) {
		t.Errorf("%s: %s in Go is %q, in the document %v", at, typ, want, schema.Type)
	}
}

// compareWords holds the words of an enumeration of calc to those of the document.
func compareWords(t *testing.T, at string, typ reflect.Type, schema *openapi3.Schema) {
	t.Helper()
	list, ok := typ.MethodByName("Words")
	if !ok {
		if strings.HasPrefix(typ.PkgPath(), "wetrun/calc") {
			t.Errorf("%s: %v lists no words", at, typ)
		}
		return
	}
	var words, documented []string
	all := list.Func.Call([]reflect.Value{reflect.Zero(typ)})[0]
	for i := range all.Len() {
		words = append(words, all.Index(i).String())
	}
	extensible, _ := schema.Extensions["x-extensible-enum"].([]any)
	for _, word := range append(extensible, schema.Enum...) {
		documented = append(documented, fmt.Sprint(word))
	}
	slices.Sort(words)
	slices.Sort(documented)
	if !slices.Equal(words, documented) {
		t.Errorf("%s: calc has the words %v, the document %v", at, words, documented)
	}
}

func compareStruct(t *testing.T, at string, typ reflect.Type, schema *openapi3.Schema) {
	t.Helper()
	members := map[string]bool{}
	for _, f := range reflect.VisibleFields(typ) {
		name := wire.MemberName(f)
		if name == "" || f.Anonymous {
			continue
		}
		members[name] = true
		p := schema.Properties[name]
		if p == nil {
			t.Errorf("%s/%s: not in the document", at, name)
			continue
		}
		optional := strings.Contains(f.Tag.Get("json"), ",omit")
		if optional == slices.Contains(schema.Required, name) {
			t.Errorf("%s/%s: left out when empty: %v, but required in the document: %v", at, name, optional, !optional)
		}
		compareType(t, at+"/"+name, f.Type, p.Value)
	}
	for name := range schema.Properties {
		if !members[name] {
			t.Errorf("%s/%s: the document promises it, the type does not have it", at, name)
		}
	}
}

// TestExamplesAreTrue posts every example request of the document and compares
// with the example answer beside it, refusals included.
func TestExamplesAreTrue(t *testing.T) {
	for _, o := range operation.All {
		requests, answers, refusals := requestExamples(t, o.Name), answerExamples(t, o.Name), refusalExamples(t, o.Name)
		for name, request := range requests {
			t.Run(o.Name+"/"+name, func(t *testing.T) {
				answer := answers[name]
				if answer == nil {
					t.Fatalf("the request has no answer of its name")
				}
				w := post(t, o.Name, encodeJSON(t, request.Value.Value))
				same(t, http.StatusOK, w.Code, encodeJSON(t, answer.Value.Value), w.Body.String())
			})
		}
		for name := range answers {
			if requests[name] == nil {
				t.Errorf("%s: the answer %s has no request of its name", o.Name, name)
			}
		}
		for name, refusal := range refusals {
			t.Run(o.Name+"/refused/"+name, func(t *testing.T) {
				language, _ := refusal.Value.Extensions["x-accept-language"].(string)
				w := post(t, o.Name, encodeJSON(t, refusal.Value.Extensions["x-request"]), "X-Request-Id", "example-422", "Accept-Language", language)
				same(t, http.StatusUnprocessableEntity, w.Code, encodeJSON(t, refusal.Value.Value), w.Body.String())
			})
		}
	}
}

func encodeJSON(t rapid.TB, v any) string {
	t.Helper()
	b, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

func same(t *testing.T, wantStatus, status int, want, got string) {
	t.Helper()
	var w, g any
	if json.Unmarshal([]byte(want), &w) != nil || json.Unmarshal([]byte(got), &g) != nil || status != wantStatus || !reflect.DeepEqual(w, g) {
		t.Errorf("the document says %d\n%s\nthe service says %d\n%s", wantStatus, want, status, got)
	}
}

// TestRoutesMatchDocument compares paths and methods in both directions.
func TestRoutesMatchDocument(t *testing.T) {
	documented := map[string]bool{}
	for path, item := range document(t).Paths.Map() {
		for method := range item.Operations() {
			documented[method+" "+path] = true
		}
	}
	served := map[string]bool{"POST /v1/batch": true}
	for _, o := range operation.All {
		served["POST /v1/"+o.Name] = true
	}
	for path := range pages(operation.All) {
		if strings.HasPrefix(path, "/problems/") {
			path = "/problems/{type}"
		}
		served["GET "+path] = true
	}
	for r := range documented {
		if !served[r] {
			t.Errorf("%s: documented, not served", r)
		}
	}
	for r := range served {
		if !documented[r] {
			t.Errorf("%s: served, not documented", r)
		}
	}
}

// TestErrorCodesMatchDocument compares the codes that have words with those that
// the document lists, and the warnings and cautions with their words.
func TestErrorCodesMatchDocument(t *testing.T) {
	documented := map[string]bool{}
	for _, c := range wordsOfSchema(schemaNamed(t, "ErrorCode")) {
		documented[c.(string)] = true
	}
	worded := map[string]bool{}
	for _, key := range text.Keys() {
		if code, ok := strings.CutPrefix(key, "problem."); ok {
			worded[code] = true
		}
	}
	if a, b := slices.Sorted(maps.Keys(documented)), slices.Sorted(maps.Keys(worded)); !slices.Equal(a, b) {
		t.Errorf("documented %v\nworded     %v", a, b)
	}
	var types []any
	for _, p := range wire.ProblemTypes {
		types = append(types, string(p.Kind))
		for _, kind := range []string{"title.", "detail.", "remedy."} {
			if !text.Has(kind + string(p.Kind)) {
				t.Errorf("%s%s has no words", kind, p.Kind)
			}
		}
	}
	if listed := got(t, "/problems/{type}").Parameters.GetByInAndName("path", "type").Schema.Value.Enum; !slices.Equal(listed, types) {
		t.Errorf("the document lists the kinds of problem %v, the service has %v", listed, types)
	}
}
