package contract

import (
	"fmt"
	"strings"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"golang.org/x/text/message"
)

// The rules of either and or, as document.yaml describes them.
const (
	RequiredOneOf = "x-required-one-of"
	NotTogether   = "x-not-together"
	ThreeOf       = "x-three-of"
)

// Lists reads a rule: lists of members, each a name or the path of a member's member.
func Lists(rule any) (lists [][]string, err error) {
	outer, ok := rule.([]any)
	for _, list := range outer {
		inner, isList := list.([]any)
		ok = ok && isList && len(inner) > 0
		var names []string
		for _, name := range inner {
			text, isText := name.(string)
			ok = ok && isText
			names = append(names, text)
		}
		lists = append(lists, names)
	}
	if !ok || len(outer) == 0 {
		return nil, fmt.Errorf("%v is not a list of lists of members", rule)
	}
	return lists, nil
}

// Given tells whether an object has a member, or a member's member. A list or text that
// is empty counts as not given.
func Given(object map[string]any, path string) bool {
	name, within, deeper := strings.Cut(path, "/")
	member, ok := object[name]
	if deeper {
		o, isObject := member.(map[string]any)
		return isObject && Given(o, within)
	}
	switch x := member.(type) {
	case []any:
		return len(x) > 0
	case string:
		return x != ""
	}
	return ok
}

// Keeps tells whether an object keeps a rule.
func Keeps(object map[string]any, rule string, lists [][]string) bool {
	whole, begun := 0, 0
	for _, list := range lists {
		given := 0
		for _, path := range list {
			if Given(object, path) {
				given++
			}
		}
		if given == len(list) {
			whole++
		}
		if given > 0 {
			begun++
		}
	}
	switch rule {
	case RequiredOneOf:
		return whole > 0
	case NotTogether:
		return whole == 0
	default:
		return begun == 3
	}
}

// eitherOr makes a validator see the rules.
var eitherOr = &jsonschema.Vocabulary{
	URL: "urn:wetrun:either-or",
	Compile: func(_ *jsonschema.CompilerContext, schema map[string]any) (jsonschema.SchemaExt, error) {
		all := rules{}
		for _, rule := range []string{RequiredOneOf, NotTogether, ThreeOf} {
			if said, ok := schema[rule]; ok {
				lists, err := Lists(said)
				if err != nil {
					return nil, fmt.Errorf("%s: %w", rule, err)
				}
				all[rule] = lists
			}
		}
		if len(all) == 0 {
			return nil, nil
		}
		return all, nil
	},
}

type rules map[string][][]string

func (r rules) Validate(ctx *jsonschema.ValidatorContext, value any) {
	object, ok := value.(map[string]any)
	if !ok {
		return
	}
	for rule, lists := range r {
		if !Keeps(object, rule, lists) {
			ctx.AddError(broken{rule, lists})
		}
	}
}

// broken is the error of a rule that is not kept.
type broken struct {
	rule  string
	lists [][]string
}

func (b broken) KeywordPath() []string { return []string{b.rule} }

func (b broken) LocalizedString(*message.Printer) string {
	return fmt.Sprintf("%s %v is not kept", b.rule, b.lists)
}
