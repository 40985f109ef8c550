package api

import (
	"encoding/json"
	"fmt"
	"maps"
	"net/http"
	"slices"
	"strings"
	"testing"

	"github.com/getkin/kin-openapi/openapi3"

	"wetrun/api/operation"
	"wetrun/api/wire"
)

// unsaid are refusals of members that stand in rules, for reasons that no rule says: what
// another entry of a list has, or the value of a member.
var unsaid = map[string][]string{
	"application-rate":   {"required /width", "required /sprayPressure"},
	"meter-calibration":  {"conflict /pulses", "conflict /indicated", "conflict /currentFactor"},
	"pattern-uniformity": {"required /nozzleSpacing"},
	"pump-demand":        {"required /sprayPressure"},
	"tank-loads":         {"conflict /treatedArea"},
	"wear-forecast":      {"required /hours", "required /date", "conflict /hours", "conflict /hoursPerSeason"},
}

// ruleCodes are those by which the service refuses what breaks a rule.
var ruleCodes = []string{"required", "conflict", "need_three_of_four", "all_four_given", "area_basis_required", "product_form_required"}

// TestRulesHold: the rules that the schemas of requests state are the service's own.
// Wherever an example of the document has an object with rules, its members are left out
// and put in in every combination: the service refuses one of them, by a code of
// ruleCodes, when the schema refuses the request, and only then.
func TestRulesHold(t *testing.T) {
	stated, broken, used := map[string]bool{}, map[string]bool{}, map[string]bool{}
	for _, o := range operation.All {
		t.Run(o.Name, func(t *testing.T) {
			at := trial{t: t, operation: o.Name, places: map[string]int{}, broken: broken, used: used}
			for _, name := range slices.Sorted(maps.Keys(requestExamples(t, o.Name))) {
				at.request = decodeJSON(t, encodeJSON(t, requestExamples(t, o.Name)[name].Value.Value)).(map[string]any)
				delete(at.request, "standardUncertainties") // each needs the member that it is of
				at.walk(requestSchema(t, o.Name), at.request, "")
			}
			ruled(requestSchema(t, o.Name), stated)
		})
	}
	for name, list := range unsaid {
		for _, u := range list {
			if !used[name+" "+u] {
				t.Errorf("%s: %s is refused nowhere: take it out of unsaid", name, u)
			}
		}
	}
	for r := range stated {
		if !broken[r] {
			t.Errorf("%s is nowhere the only rule that is broken: give an example of its object", r)
		}
	}
}

// A rule is one that a schema states of its members.
type rule struct {
	keyword string
	lists   [][]string
}

func (r rule) String() string { return fmt.Sprint(r.keyword, r.lists) }

func (r rule) kept(object map[string]any) bool {
	if r.keyword == "dependentRequired" {
		_, given := object[r.lists[0][0]]
		return !given || !slices.ContainsFunc(r.lists[1], func(name string) bool { return object[name] == nil })
	}
	return keepsRule(object, r.keyword, r.lists)
}

// rulesOf lists the rules of one schema: of what may not stand together, and of what
// needs another, one for each.
func rulesOf(s *openapi3.Schema) (all []rule) {
	for _, keyword := range []string{requiredOneOf, notTogether, threeOf} {
		said, ok := s.Extensions[keyword]
		if !ok {
			continue
		}
		lists, err := ruleLists(said)
		switch {
		case err != nil:
			panic(err)
		case keyword == notTogether:
			for _, list := range lists {
				all = append(all, rule{keyword, [][]string{list}})
			}
		default:
			all = append(all, rule{keyword, lists})
		}
	}
	for _, name := range slices.Sorted(maps.Keys(s.DependentRequired)) {
		all = append(all, rule{"dependentRequired", [][]string{{name}, s.DependentRequired[name]}})
	}
	return all
}

// ruled adds every rule in a schema, wherever it stands.
func ruled(s *openapi3.Schema, stated map[string]bool) {
	for _, r := range rulesOf(s) {
		stated[r.String()] = true
	}
	for _, p := range s.Properties {
		ruled(p.Value, stated)
	}
	if s.Items != nil {
		ruled(s.Items.Value, stated)
	}
}

// A trial breaks and keeps the rules of one operation.
type trial struct {
	t         *testing.T
	operation string
	request   map[string]any
	places    map[string]int  // how often an object was tried, by its place
	broken    map[string]bool // the rules that were the only one broken
	used      map[string]bool // the entries of unsaid that were met
}

// walk tries each object of a request that has rules. The first entry of a list stands
// for all.
func (x *trial) walk(s *openapi3.Schema, value any, at string) {
	switch v := value.(type) {
	case map[string]any:
		if rules := rulesOf(s); len(rules) > 0 && x.places[at] < 2 {
			x.places[at]++
			x.try(s, v, rules)
		}
		for name, member := range v {
			if ref := s.Properties[name]; ref != nil {
				x.walk(ref.Value, member, at+"/"+name)
			}
		}
	case []any:
		if len(v) > 0 {
			x.walk(s.Items.Value, v[0], at+"/0")
		}
	}
}

// try puts the members of the rules in and out, and leaves the object as it was.
func (x *trial) try(s *openapi3.Schema, object map[string]any, rules []rule) {
	whole := maps.Clone(object)
	choices := map[string][]any{} // the values of a member; the first leaves it out
	for _, r := range rules {
		for _, path := range slices.Concat(r.lists...) {
			name, within, deeper := strings.Cut(path, "/")
			if choices[name] == nil {
				choices[name] = []any{nil}
				if whole[name] != nil {
					choices[name] = append(choices[name], whole[name])
				} else if !deeper {
					choices[name] = append(choices[name], sample(s.Properties[name].Value))
				}
			}
			if deeper {
				choices[name] = append(choices[name], objectWith(s.Properties[name].Value, within))
			}
		}
	}
	names := slices.Sorted(maps.Keys(choices))
	combinations := 1
	for _, name := range names {
		combinations *= len(choices[name])
	}
	for i := range combinations {
		for _, name := range names {
			n := len(choices[name])
			if delete(object, name); i%n > 0 {
				object[name] = choices[name][i%n]
			}
			i /= n
		}
		x.send(object, rules)
	}
	clear(object)
	maps.Copy(object, whole)
}

func (x *trial) send(object map[string]any, rules []rule) {
	var broken []rule
	for _, r := range rules {
		if !r.kept(object) {
			broken = append(broken, r)
		}
	}
	body := encodeJSON(x.t, x.request)
	w := call(x.t, http.MethodPost, "/v1/"+x.operation, body)
	var problem wire.Problem
	if w.Code != http.StatusOK && json.Unmarshal(w.Body.Bytes(), &problem) != nil {
		x.t.Fatalf("no problem: %s", w.Body)
	}
	refused, other := false, false
	for _, e := range problem.Errors {
		if !slices.Contains(ruleCodes, e.Code) {
			continue
		}
		unsaid := slices.ContainsFunc(unsaid[x.operation], func(u string) bool {
			code, end, _ := strings.Cut(u, " ")
			found := e.Code == code && strings.HasSuffix(e.Pointer, end)
			x.used[x.operation+" "+u] = x.used[x.operation+" "+u] || found
			return found
		})
		refused, other = refused || !unsaid, other || unsaid
	}
	if len(broken) == 1 && (refused || other) {
		x.broken[broken[0].String()] = true
	}
	switch schema := validates(schemaName(x.operation)+"Request", []byte(body)); {
	case schema == nil && refused:
		x.t.Errorf("the schema takes it, the service does not: %s\n%s", body, w.Body)
	case schema != nil && !refused && !other:
		x.t.Errorf("%v, but the service takes it: %s", schema, body)
	}
}

// objectWith has the member and what that needs.
func objectWith(s *openapi3.Schema, name string) map[string]any {
	object := map[string]any{name: sample(s.Properties[name].Value)}
	for _, needed := range s.DependentRequired[name] {
		object[needed] = sample(s.Properties[needed].Value)
	}
	return object
}

// sample is a value that a schema takes.
func sample(s *openapi3.Schema) any {
	switch {
	case len(s.OneOf) > 0:
		return sample(s.OneOf[0].Value)
	case len(s.Enum) > 0:
		return s.Enum[0]
	case s.Type.Is("object"):
		object := map[string]any{}
		for _, name := range s.Required {
			object[name] = sample(s.Properties[name].Value)
		}
		for _, r := range rulesOf(s) {
			if r.keyword == requiredOneOf {
				for _, path := range r.lists[0] {
					if name, within, deeper := strings.Cut(path, "/"); deeper {
						object[name] = objectWith(s.Properties[name].Value, within)
					} else {
						object[name] = sample(s.Properties[name].Value)
					}
				}
			}
		}
		return object
	case s.Type.Is("array"):
		list := []any{}
		for range max(1, s.MinItems) {
			list = append(list, sample(s.Items.Value))
		}
		return list
	case s.Format == "date":
		return "2026-05-04"
	case s.Type.Is("string"):
		return "a"
	}
	return 3
}
