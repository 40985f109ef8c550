package api

import (
	"fmt"
	"strings"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"golang.org/x/text/message"
)

// The rules of either and or, as openapi/document.yaml describes them.
const (
	requiredOneOf = "x-required-one-of"
	notTogether   = "x-not-together"
	threeOf       = "x-three-of"
)

// ruleLists reads a rule: lists of members, each a name or the path of a member's member.
func ruleLists(rule any) (lists [][]string, err error) {
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

// isGiven tells whether an object has a member, or a member's member. A list or text that
// is empty counts as not given.
func isGiven(object map[string]any, path string) bool {
	name, within, deeper := strings.Cut(path, "/")
	member, ok := object[name]
	if deeper {
		o, isObject := member.(map[string]any)
		return isObject && isGiven(o, within)
	}
	switch x := member.(type) {
	case []any:
		return len(x) > 0
	case string:
		return x != ""
	}
	return ok
}

// keepsRule tells whether an object keeps a rule.
func keepsRule(object map[string]any, rule string, lists [][]string) bool {
	whole, begun := 0, 0
	for _, list := range lists {
		given := 0
		for _, path := range list {
			if isGiven(object, path) {
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
	case requiredOneOf:
		return whole > 0
	case notTogether:
		return whole == 0
	default:
		return begun == 3
	}
}

// eitherOr makes a validator see the rules.
var eitherOr = &jsonschema.Vocabulary{
	URL: "urn:wetrun:either-or",
	Compile: func(_ *jsonschema.CompilerContext, schema map[string]any) (jsonschema.SchemaExt, error) {
		all := ruleSet{}
		for _, rule := range []string{requiredOneOf, notTogether, threeOf} {
			if said, ok := schema[rule]; ok {
				lists, err := ruleLists(said)
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

type ruleSet map[string][][]string

func (r ruleSet) Validate(ctx *jsonschema.ValidatorContext, value any) {
	object, ok := value.(map[string]any)
	if !ok {
		return
	}
	for rule, lists := range r {
		if !keepsRule(object, rule, lists) {
			ctx.AddError(brokenRule{rule, lists})
		}
	}
}

// brokenRule is the error of a rule that is not kept.
type brokenRule struct {
	rule  string
	lists [][]string
}

func (b brokenRule) KeywordPath() []string { return []string{b.rule} }

func (b brokenRule) LocalizedString(*message.Printer) string {
	return fmt.Sprintf("%s %v is not kept", b.rule, b.lists)
}
