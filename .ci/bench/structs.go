package main

import (
	"encoding/json"
	"fmt"
	"maps"
	"os"
	"reflect"
	"slices"
)

// structFor makes the struct type that somebody would write down for the JSON in a file,
// and returns the JSON too. A member that some elements of an array lack is optional; no
// other is, which makes decoding cheaper than a type for all requests would.
func structFor(file string) (reflect.Type, []byte, error) {
	text, err := os.ReadFile(file)
	if err != nil {
		return nil, nil, err
	}
	var value any
	if err := json.Unmarshal(text, &value); err != nil {
		return nil, nil, fmt.Errorf("%s: %w", file, err)
	}
	return typeOf([]any{value}), text, nil
}

// typeOf is the type of the values that were seen at one place.
func typeOf(seen []any) reflect.Type {
	if len(seen) == 0 {
		return reflect.TypeFor[any]()
	}
	kind := reflect.TypeOf(seen[0])
	for _, v := range seen {
		if v == nil || reflect.TypeOf(v) != kind {
			return reflect.TypeFor[any]()
		}
	}
	switch seen[0].(type) {
	case []any:
		var elements []any
		for _, v := range seen {
			elements = append(elements, v.([]any)...)
		}
		return reflect.SliceOf(typeOf(elements))
	case map[string]any:
		return structOf(seen)
	}
	return kind // string, float64, bool
}

func structOf(objects []any) reflect.Type {
	members := map[string][]any{}
	for _, o := range objects {
		for name, v := range o.(map[string]any) {
			members[name] = append(members[name], v)
		}
	}
	var fields []reflect.StructField
	for i, name := range slices.Sorted(maps.Keys(members)) {
		kind, options := typeOf(members[name]), ""
		if len(members[name]) < len(objects) {
			options = ",omitempty"
			if k := kind.Kind(); k == reflect.Struct || k == reflect.Float64 || k == reflect.Bool {
				kind = reflect.PointerTo(kind) // 0 and false are not left out
			}
		}
		fields = append(fields, reflect.StructField{
			Name: fmt.Sprintf("Member%d", i), Type: kind,
			Tag: reflect.StructTag(fmt.Sprintf("json:%q", name+options)),
		})
	}
	return reflect.StructOf(fields)
}
