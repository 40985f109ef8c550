package wire

import (
	"strconv"
	"strings"

	"wetrun/calc/finding"
)

// Pointer renders a place as the JSON pointer of the member, in a URI fragment: the item 2
// of catches, its volume, is #/catches/2/volume. Names of places need no escaping.
func Pointer(p finding.Place) string {
	b := append(make([]byte, 0, 64), '#')
	for name, item := range p.Steps() {
		b = append(append(b, '/'), name...)
		if item >= 0 {
			b = strconv.AppendInt(append(b, '/'), int64(item), 10)
		}
	}
	return string(b)
}

// RefusalOfViolations turns the violations of calc into a 422.
func RefusalOfViolations(v finding.Invalid) *Refusal {
	r := &Refusal{Kind: InvalidRequest}
	for _, x := range v {
		e := FieldError{Pointer: Pointer(x.Place), Code: x.Code}
		switch {
		case len(x.Allowed) > 0:
			e.Allowed = x.Allowed
			e.Wording, e.Args = x.Code+"_allowed", []any{Words(e.Allowed)}
		case !x.Because.IsZero():
			e.Wording, e.Args = x.Code+"_because", []any{memberInWords(x.Because)}
		case len(x.Instead) > 0:
			names := make([]string, len(x.Instead))
			for i, p := range x.Instead {
				names[i] = memberInWords(p)
			}
			e.Wording, e.Args = x.Code+"_or", []any{Words(names)}
		}
		r.Fields = append(r.Fields, e)
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
