package api

import (
	"strconv"
	"strings"

	"wetrun/calc/finding"
)

// pointer renders a place as the JSON pointer of the member, in a URI fragment: the item 2
// of catches, its volume, is #/catches/2/volume. Names of places need no escaping.
func pointer(p finding.Place) string {
	b := append(make([]byte, 0, 64), '#')
	for name, item := range p.Steps() {
		b = append(append(b, '/'), name...)
		if item >= 0 {
			b = strconv.AppendInt(append(b, '/'), int64(item), 10)
		}
	}
	return string(b)
}

// refused turns the violations of calc into a 422.
func refused(v finding.Invalid) *refusal {
	r := &refusal{kind: invalidRequest}
	for _, x := range v {
		e := FieldError{Pointer: pointer(x.Place), Code: x.Code}
		switch {
		case len(x.Allowed) > 0:
			e.Allowed = x.Allowed
			e.wording, e.args = x.Code+"_allowed", []any{words(e.Allowed)}
		case !x.Because.IsZero():
			e.wording, e.args = x.Code+"_because", []any{memberInWords(x.Because)}
		case len(x.Instead) > 0:
			names := make([]string, len(x.Instead))
			for i, p := range x.Instead {
				names[i] = memberInWords(p)
			}
			e.wording, e.args = x.Code+"_or", []any{words(names)}
		}
		r.fields = append(r.fields, e)
	}
	return r
}

// memberInWords is a member as a sentence names it: machine.bedWidth, and of a member in a
// list its own name alone.
func memberInWords(p finding.Place) string {
	var names []string
	inItem := false
	for name, item := range p.Steps() {
		if inItem {
			names, inItem = nil, false
		}
		names = append(names, name)
		inItem = item >= 0
	}
	return strings.Join(names, ".")
}
