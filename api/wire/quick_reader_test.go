package wire_test

import (
	"encoding/json"
	"reflect"
	"strings"
	"testing"

	"wetrun/api/operation"
	"wetrun/api/wire"
	"wetrun/openapi/contract"
)

// exampleRequests are the requests that the document shows for an operation, those of its
// refusals under names that begin with refused.
func exampleRequests(t testing.TB, operation string) map[string][]byte {
	t.Helper()
	document, err := contract.Document()
	if err != nil {
		t.Fatal(err)
	}
	all := map[string][]byte{}
	add := func(name string, request any) {
		if all[name], err = json.Marshal(request); err != nil {
			t.Fatal(err)
		}
	}
	post := document.Paths.Value("/v1/" + operation).Post
	for name, x := range post.RequestBody.Value.Content["application/json"].Examples {
		add(name, x.Value.Value)
	}
	for name, x := range post.Responses.Status(422).Value.Content["application/problem+json"].Examples {
		add("refused "+name, x.Value.Extensions["x-request"])
	}
	if len(all) < 2 {
		t.Fatalf("%s: the document shows no more than %d requests", operation, len(all))
	}
	return all
}

// reread reads a body in both ways: by the quick reader, and by the library.
func reread(table *wire.Table, body []byte) (quickly bool, fast any, refused *wire.Refusal, slow any) {
	a, b := reflect.New(table.Of), reflect.New(table.Of)
	quickly = wire.ReadQuickly(body, table, a.UnsafePointer())
	refused = wire.ReadStrictly(body, table, b.UnsafePointer())
	return quickly, a.Elem().Interface(), refused, b.Elem().Interface()
}

// tableNamed is that of an operation, or of a line of a batch.
func tableNamed(name string) *wire.Table {
	if o := operation.Named(name); o != nil {
		return o.Table
	}
	return wire.TableOf[operation.BatchLine]()
}

// agree fails when the quick reader takes what the library refuses, or reads
// something else in it. It returns whether the quick reader took the body.
func agree(t *testing.T, operation string, body []byte) bool {
	t.Helper()
	quickly, fast, refused, slow := reread(tableNamed(operation), body)
	switch {
	case !quickly:
	case refused != nil:
		t.Errorf("%s: the quick reader takes %q, the library does not: %+v", operation, body, refused)
	case !reflect.DeepEqual(fast, slow):
		t.Errorf("%s: %q reads as %+v, and by the library as %+v", operation, body, fast, slow)
	case !json.Valid(body): // a third opinion
		t.Errorf("%s: %q is no JSON", operation, body)
	}
	return quickly
}

func TestExamplesAreReadQuickly(t *testing.T) {
	for _, o := range operation.All {
		for name, body := range exampleRequests(t, o.Name) {
			if strings.HasPrefix(name, "refused") {
				continue // as they should be; FuzzQuick starts from them too
			}
			if !agree(t, o.Name, body) {
				t.Errorf("%s: the quick reader gives up on the example %q", o.Name, name)
			}
			line := `{"id":"a","operation":"` + o.Name + `","request":` + string(body) + "}"
			if !agree(t, "batch", []byte(line)) {
				t.Errorf("batch: the quick reader gives up on %s", line)
			}
		}
	}
}

// TestQuickReaderGivesUp spoils a sound request in all the ways that text can be
// close to JSON (RFC 8259), or mean something else than its writer thinks.
func TestQuickReaderGivesUp(t *testing.T) {
	sound := `{"runs":[{"courseLength":{"value":100,"unit":"ft"},"time":{"value":22.8,"unit":"s"}}],"uncertainty":false}`
	if !agree(t, "ground-speed", []byte(sound)) {
		t.Fatal("the quick reader gives up on a sound request")
	}
	spoilt := map[string][2]string{
		"leading zero":              {"100", "0100"},
		"leading plus":              {"100", "+100"},
		"no digits after point":     {"100", "100."},
		"no digits before point":    {"22.8", ".8"},
		"no exponent":               {"100", "1e"},
		"a sign and no exponent":    {"100", "1e+"},
		"minus alone":               {"100", "-"},
		"hexadecimal":               {"100", "0x64"},
		"underscore":                {"100", "1_00"},
		"infinity":                  {"100", "Infinity"},
		"not a number":              {"100", "NaN"},
		"out of range":              {"100", "1e400"},
		"comma at the end":          {"false}", "false,}"},
		"comma at the end of list":  {"}],", "},],"},
		"comma at the start":        {`{"runs"`, `{,"runs"`},
		"two commas":                {`,"uncertainty"`, `,,"uncertainty"`},
		"no comma":                  {`,"uncertainty"`, ` "uncertainty"`},
		"no colon":                  {`"uncertainty":`, `"uncertainty" `},
		"two colons":                {`"uncertainty":`, `"uncertainty"::`},
		"half a word":               {"false}", "fals}"},
		"a longer word":             {"false}", "falsey}"},
		"a word in capitals":        {"false}", "False}"},
		"single quotes":             {`"ft"`, `'ft'`},
		"no quotes":                 {`"ft"`, `ft`},
		"open string":               {`"uncertainty":false}`, `"uncertainty`},
		"control character":         {`"ft"`, "\"f\tt\""},
		"bytes that are no UTF-8":   {`"ft"`, "\"ft\xff\""},
		"half a surrogate":          {`"ft"`, `"ft\ud800"`},
		"unknown escape":            {`"ft"`, `"\ft"`},
		"no bracket at the end":     {"false}", "false"},
		"wrong bracket":             {"}],", "}},"},
		"wrong bracket at the end":  {"false}", "false]"},
		"another value behind":      {"false}", "false}{}"},
		"a null byte behind":        {"false}", "false}\x00"},
		"a null byte inside":        {`,"uncertainty"`, "\x00,\"uncertainty\""},
		"a byte order mark":         {`{"runs"`, "\ufeff" + `{"runs"`},
		"a comment":                 {`{"runs"`, `{/* */"runs"`},
		"a space that JSON has not": {`,"uncertainty"`, ",\u00a0\"uncertainty\""},
		"duplicate member":          {`"uncertainty"`, `"runs":[],"uncertainty"`},
		"duplicate value":           {`"unit":"s"`, `"value":22.8,"unit":"s"`},
		"unknown member":            {`"uncertainty"`, `"uncertain":false,"uncertainty"`},
		"wrong case":                {`"unit":"s"`, `"Unit":"s"`},
		"null":                      {"false}", "null}"},
		"wrong type":                {"false}", `"false"}`},
		"nothing":                   {sound, ""},
		"only white space":          {sound, " \n"},
		"not an object":             {sound, "[]"},
	}
	for name, change := range spoilt {
		body := strings.Replace(sound, change[0], change[1], 1)
		if body == sound {
			t.Fatalf("%s: nothing is spoilt", name)
		}
		if agree(t, "ground-speed", []byte(body)) {
			t.Errorf("%s: the quick reader takes %s", name, body)
		}
	}
}

// FuzzQuick gives any bytes to both readers.
func FuzzQuick(f *testing.F) {
	for i, o := range operation.All {
		for _, request := range exampleRequests(f, o.Name) {
			f.Add(uint8(i), request)
		}
	}
	f.Add(uint8(len(operation.All)), []byte(` { "id" : "1", "operation":"convert","request" : { "a":[1,-2.5e+3,true,"ñ",{}],"b":[] } } `))
	f.Fuzz(func(t *testing.T, which uint8, body []byte) {
		name := "batch"
		if i := int(which) % (len(operation.All) + 1); i < len(operation.All) {
			name = operation.All[i].Name
		}
		agree(t, name, body)
	})
}
