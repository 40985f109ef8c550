package wire

import (
	"errors"
	"slices"
	"strings"

	"wetrun/calc"
	"wetrun/calc/finding"
)

// RefusalOfViolations words the violations of calc, at most MostErrors of them, as a refusal
// of the request.
func RefusalOfViolations(v finding.Invalid) *Refusal {
	r := &Refusal{Kind: InvalidRequest}
	for _, x := range v[:min(len(v), MostErrors)] {
		e := FieldError{Pointer: Pointer(x.Place), Code: x.Code}
		switch {
		case len(x.Allowed) > 0:
			e.Allowed = x.Allowed
			e.Wording, e.Args = x.Code+"_allowed", []any{Enumeration(e.Allowed)}
		case !x.Because.IsZero():
			e.Wording, e.Args = x.Code+"_because", []any{memberInWords(x.Because)}
		case len(x.Instead) > 0:
			names := make([]string, len(x.Instead))
			for i, p := range x.Instead {
				names[i] = memberInWords(p)
			}
			e.Wording, e.Args = x.Code+"_or", []any{Enumeration(names)}
		}
		r.Fields = append(r.Fields, e)
	}
	return r
}

// presenceCodes are those of members that are there or not, whatever their values are.
var presenceCodes = []string{finding.CodeRequired, finding.CodeConflict}

// AddViolations adds those of the error of a calculation that are no consequence of what
// is refused already. A member that could not be read is missing to the calculation, which
// may say so, or miss what would stand in for another, or count one too few.
func (r *Refusal) AddViolations(err error) {
	var more finding.Invalid
	if !errors.As(err, &more) {
		return
	}
	more = r.withoutConsequences(more)
	if slices.ContainsFunc(r.Fields, func(e FieldError) bool { return !slices.Contains(presenceCodes, e.Code) }) {
		more = slices.DeleteFunc(more, func(v finding.Violation) bool { return !slices.Contains(presenceCodes, v.Code) })
	}
	more = more[:min(len(more), MostErrors-len(r.Fields))]
	r.Fields = append(r.Fields, RefusalOfViolations(more).Fields...)
}

// Combined adds the violations in the error of a calculation to those that its operation
// found before, without what is a consequence of them; any other error comes back alone.
func Combined(found finding.Invalid, err error) error {
	var more finding.Invalid
	if len(found) == 0 || err != nil && !errors.As(err, &more) {
		return err
	}
	return append(found, RefusalOfViolations(found).withoutConsequences(more)...)
}

// withoutConsequences leaves out what is a consequence of what is refused already.
func (r *Refusal) withoutConsequences(more finding.Invalid) finding.Invalid {
	return slices.DeleteFunc(more, func(v finding.Violation) bool {
		// Of three of four, a part of a nozzle may be what is missing.
		return v.Code == calc.CodeNeedThreeOfFour || r.leadsTo(v)
	})
}

// leadsTo tells whether a violation is about a member that is refused already, or about
// what another one asks for or would stand in for.
func (r *Refusal) leadsTo(v finding.Violation) bool {
	for _, p := range append([]finding.Place{v.Place, v.Because}, v.Instead...) {
		if p.IsZero() {
			continue
		}
		pointer := Pointer(p)
		if r.concerns(pointer) || slices.ContainsFunc(r.Fields, func(e FieldError) bool { return strings.HasPrefix(pointer, e.Pointer+"/") }) {
			return true
		}
	}
	return false
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
