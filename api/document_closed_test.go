package api

import (
	"bytes"
	"maps"
	"slices"
	"sync"

	"github.com/santhosh-tekuri/jsonschema/v6"

	"wetrun/internal/packed"
	"wetrun/openapi"
)

// validates holds a JSON text against a schema of the document, closed: clients are told to
// expect more members and words in answers, but the service is to give none that the
// document does not have. The rules of either and or hold too.
func validates(name string, body []byte) error {
	schema, err := compileSchema(name)
	if err != nil {
		return err
	}
	value, err := jsonschema.UnmarshalJSON(bytes.NewReader(body))
	if err != nil {
		return err
	}
	return schema.Validate(value)
}

var (
	compiledSchemas sync.Map
	compiling       sync.Mutex // a compiler serves one at a time
)

func compileSchema(name string) (*jsonschema.Schema, error) {
	if schema, ok := compiledSchemas.Load(name); ok {
		return schema.(*jsonschema.Schema), nil
	}
	compiling.Lock()
	defer compiling.Unlock()
	c, err := documentCompiler()
	if err != nil {
		return nil, err
	}
	schema, err := c.Compile("openapi.json#/components/schemas/" + name)
	if err != nil {
		return nil, err
	}
	compiledSchemas.Store(name, schema)
	return schema, nil
}

var documentCompiler = sync.OnceValues(func() (*jsonschema.Compiler, error) {
	asJSON, err := packed.Unpack(openapi.PackedJSON)
	if err != nil {
		return nil, err
	}
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(asJSON))
	if err != nil {
		return nil, err
	}
	for _, schema := range doc.(map[string]any)["components"].(map[string]any)["schemas"].(map[string]any) {
		closeSchema(schema)
	}
	c := jsonschema.NewCompiler()
	c.DefaultDraft(jsonschema.Draft2020)
	c.RegisterVocabulary(eitherOr)
	c.AssertVocabs()
	return c, c.AddResource("openapi.json", doc)
})

// closeSchema closes a schema and those in it: an object takes its own members only, and
// of words that may grow those that are listed.
func closeSchema(schema any) {
	s, ok := schema.(map[string]any)
	if !ok {
		return
	}
	if words, ok := s["x-extensible-enum"]; ok {
		s["enum"] = words
	}
	members, _ := s["properties"].(map[string]any)
	if _, said := s["additionalProperties"]; len(members) > 0 && !said {
		s["additionalProperties"] = false
	}
	within := slices.Collect(maps.Values(members))
	for _, key := range []string{"oneOf", "anyOf", "allOf"} {
		list, _ := s[key].([]any)
		within = append(within, list...)
	}
	for _, x := range append(within, s["items"], s["contentSchema"]) {
		closeSchema(x)
	}
}
