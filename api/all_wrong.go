package api

import (
	"context"
	"errors"
	"slices"
	"strings"

	"wetrun/calc"
)

// read decodes and checks a body and answers it. What is refused before anything is
// calculated is handed on all the same, for what the calculation would refuse besides:
// who mends a request once has then mended all of it.
func read[Req, Res any](ctx context.Context, body []byte, t *table, request *Req, handle func(context.Context, *Req) (Res, error)) (Res, *refusal) {
	r := checkTop(request, decode(body, t, request))
	if r != nil && (r.kind != invalidRequest || len(r.fields) >= mostErrors) {
		var none Res
		return none, r
	}
	response, err := handle(ctx, request)
	switch {
	case r != nil:
		r.also(err)
		return response, r
	case err != nil:
		return response, refusalOf(err)
	}
	return response, nil
}

// ofPresence are the codes that come of members being there or not, whatever their
// values are.
var ofPresence = []string{calc.CodeRequired, calc.CodeConflict}

// also adds the violations of a calculation that are no consequence of what is refused
// already. A member that could not be read is missing to the calculation, which may say
// so, or miss what would stand in for another, or count one too few.
func (r *refusal) also(err error) {
	var more calc.Invalid
	if !errors.As(err, &more) {
		return
	}
	whole := !slices.ContainsFunc(r.fields, func(e FieldError) bool { return !slices.Contains(ofPresence, e.Code) })
	more = r.unexplained(more)
	if !whole {
		more = slices.DeleteFunc(more, func(v calc.Violation) bool { return !slices.Contains(ofPresence, v.Code) })
	}
	more = more[:min(len(more), mostErrors-len(r.fields))]
	r.fields = append(r.fields, refused(more).fields...)
}

// alongside adds what a calculation refuses to what the reader of its request did.
func alongside(wrong calc.Invalid, err error) error {
	var more calc.Invalid
	if len(wrong) == 0 || err != nil && !errors.As(err, &more) {
		return err
	}
	return append(wrong, refused(wrong).unexplained(more)...)
}

// unexplained leaves out what is a consequence of what is refused already.
func (r *refusal) unexplained(more calc.Invalid) calc.Invalid {
	return slices.DeleteFunc(more, func(v calc.Violation) bool {
		// Of three of four, a part of a nozzle may be what is missing.
		return v.Code == calc.CodeNeedThreeOfFour || r.explains(v)
	})
}

// explains tells whether a violation is about a member that is refused already, or
// about what another one asks for or would stand in for.
func (r *refusal) explains(v calc.Violation) bool {
	for _, path := range append(strings.Split(v.Instead, ","), v.Field, v.Because) {
		if path == "" {
			continue
		}
		at := pointer(path)
		if r.about(at) || slices.ContainsFunc(r.fields, func(e FieldError) bool { return strings.HasPrefix(at, e.Pointer+"/") }) {
			return true
		}
	}
	return false
}
