// Package operation holds the calculations of the service, one family of files for each: the
// request with its tags, the answer, the handler between them and package calc, and the lines
// of working. It has the field sheet with its record, one line of a batch, and the reference
// data as well. It knows no HTTP, so that a server, a command and a browser run it alike.
//
// In all of it r is the request, x or result what calc returned, a the answer, w its working,
// and k what holds them while the lines are written.
package operation

import (
	"bytes"
	"context"
	"errors"
	"reflect"
	"unsafe"

	"wetrun/api/wire"
	"wetrun/calc/finding"
)

// MostBody is how many bytes a request may have. It is no setting: it stands in the
// document, and so in every client made from it.
const MostBody = 256 << 10

// An Operation is one POST of the service: a request in, an answer or a refusal
// out.
type Operation struct {
	Name string
	// Run decodes and checks body, calculates, and writes the answer to out.
	Run Runner
	// Record, when there is one, writes the answer as a page to print, for clients
	// that ask for HTML.
	Record Runner
	// Deprecation is nil for an operation that stays.
	Deprecation *Deprecation

	// What the tests hold against the document.
	Table    *wire.Table
	Response reflect.Type
}

// A Runner writes the answer to the request body to out, and returns what it decides, empty
// for nothing, or why it is refused.
type Runner = func(ctx context.Context, body []byte, out *bytes.Buffer) (verdict string, r *wire.Refusal)

// calculation makes an operation of a handler, whose error is a refusal or violations of calc.
func calculation[Req, Res any](name string, handle func(context.Context, *Req) (Res, error)) Operation {
	table := wire.RequestTable[Req]()
	verdict, encode := verdictOf(reflect.TypeFor[Res]()), wire.EncoderOf(reflect.TypeFor[Res]())
	run := func(ctx context.Context, body []byte, out *bytes.Buffer) (string, *wire.Refusal) {
		var request Req
		response, r := answerBody(ctx, body, table, &request, handle)
		if r != nil {
			return "", r
		}
		answer, r := encoded(encode, out.AvailableBuffer(), unsafe.Pointer(&response))
		if r != nil {
			return "", r
		}
		if out.Len() == 0 && cap(answer) > out.Available() {
			*out = *bytes.NewBuffer(answer) // it has outgrown the buffer: no second copy
		} else {
			out.Write(answer)
		}
		return verdict(reflect.ValueOf(&response).Elem()), nil
	}
	return Operation{Name: name, Run: run, Table: table, Response: reflect.TypeFor[Res]()}
}

// encoded appends an answer to b as JSON. One with a number that is not finite is refused.
func encoded(encode wire.Encoder, b []byte, response unsafe.Pointer) ([]byte, *wire.Refusal) {
	answer, err := encode(b, response)
	switch {
	case errors.Is(err, wire.ErrNotComputable):
		return nil, &wire.Refusal{Kind: wire.InvalidRequest, Fields: []wire.FieldError{{Pointer: wire.Pointer(finding.Place{}), Code: "not_computable"}}}
	case err != nil:
		return nil, &wire.Refusal{Kind: wire.InternalError, Cause: err}
	}
	return answer, nil
}

// answerBody decodes and checks a body and answers it. What is refused before anything is
// calculated is handed on all the same, for what the calculation would refuse besides:
// who mends a request once has then mended all of it.
func answerBody[Req, Res any](ctx context.Context, body []byte, t *wire.Table, request *Req, handle func(context.Context, *Req) (Res, error)) (Res, *wire.Refusal) {
	r := wire.CheckPresence(request, wire.Decode(body, t, request))
	if r != nil && (r.Kind != wire.InvalidRequest || len(r.Fields) >= wire.MostErrors) {
		var none Res
		return none, r
	}
	response, err := handle(ctx, request)
	switch {
	case r != nil:
		r.AddViolations(err)
		return response, r
	case err != nil:
		return response, RefusalOf(err)
	}
	return response, nil
}

// recorded is the operation with a record.
func (o Operation) recorded(record Runner) Operation {
	o.Record = record
	return o
}

// RefusalOf turns a handler's error into the refusal that the client gets.
func RefusalOf(err error) *wire.Refusal {
	var invalid finding.Invalid
	if errors.As(err, &invalid) {
		return wire.RefusalOfViolations(invalid)
	}
	var r *wire.Refusal // of the handler's own
	if errors.As(err, &r) {
		return r
	}
	return &wire.Refusal{Kind: wire.InternalError, Cause: err}
}
