package wire

import (
	"errors"
	"slices"
	"strings"

	"wetrun/calc"
	"wetrun/calc/finding"
)

// ofPresence are the codes that come of members being there or not, whatever their
// values are.
var ofPresence = []string{finding.CodeRequired, finding.CodeConflict}

// AddCalculation adds the violations of a calculation that are no consequence of what is refused
// already. A member that could not be read is missing to the calculation, which may say
// so, or miss what would stand in for another, or count one too few.
func (r *Refusal) AddCalculation(err error) {
	var more finding.Invalid
	if !errors.As(err, &more) {
		return
	}
	whole := !slices.ContainsFunc(r.Fields, func(e FieldError) bool { return !slices.Contains(ofPresence, e.Code) })
	more = r.withoutConsequences(more)
	if !whole {
		more = slices.DeleteFunc(more, func(v finding.Violation) bool { return !slices.Contains(ofPresence, v.Code) })
	}
	more = more[:min(len(more), MostErrors-len(r.Fields))]
	r.Fields = append(r.Fields, RefusalOfViolations(more).Fields...)
}

// Combined adds what a calculation refuses to what the reader of its request did.
func Combined(wrong finding.Invalid, err error) error {
	var more finding.Invalid
	if len(wrong) == 0 || err != nil && !errors.As(err, &more) {
		return err
	}
	return append(wrong, RefusalOfViolations(wrong).withoutConsequences(more)...)
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
		at := Pointer(p)
		if r.about(at) || slices.ContainsFunc(r.Fields, func(e FieldError) bool { return strings.HasPrefix(at, e.Pointer+"/") }) {
			return true
		}
	}
	return false
}
