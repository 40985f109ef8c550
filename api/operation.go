package api

import (
	"bytes"
	"context"
	"errors"
	"reflect"
	"unsafe"

	"wetrun/calc/finding"
	"wetrun/internal/text"
)

// mostBody is how many bytes a request may have. It is no setting: it stands in the
// document, and so in every client made from it.
const mostBody = 256 << 10

// An operation is one POST of the service: a request in, an answer or a refusal
// out. It knows nothing of HTTP, so that anything can run it.
type operation struct {
	name string
	// run decodes and checks body, calculates, and writes the answer to out.
	run runner
	// record, when there is one, writes the answer as a page to print, for clients
	// that ask for HTML.
	record runner
	// deprecation is nil for an operation that stays.
	deprecation *deprecation

	// What the tests hold against the document.
	table    *table
	response reflect.Type
}

// A runner answers a request in out, and says what it decides, or refuses it. Who runs it
// counts that.
type runner = func(ctx context.Context, body []byte, out *bytes.Buffer) (verdict string, r *refusal)

// A warning is something unusual in a request that could be answered all the same.
type warning struct {
	Code    string `json:"code"`
	Pointer string `json:"pointer"`
	Detail  string `json:"detail"`
}

// A notice is a code with its text: a caution, or a next step.
type notice struct {
	Code string `json:"code"`
	Text string `json:"text"`
}

// calculation makes an operation of a handler.
func calculation[Req, Res any](name string, handle func(context.Context, *Req) (Res, error)) operation {
	table := requestTable[Req]()
	verdict, encode := verdictOf(reflect.TypeFor[Res]()), encoderOf(reflect.TypeFor[Res]())
	run := func(ctx context.Context, body []byte, out *bytes.Buffer) (string, *refusal) {
		var request Req
		response, r := answerBody(ctx, body, table, &request, handle)
		if r != nil {
			return "", r
		}
		answer, err := encode(out.AvailableBuffer(), unsafe.Pointer(&response))
		switch {
		case errors.Is(err, errNotComputable):
			return "", &refusal{kind: invalidRequest, fields: []FieldError{{Pointer: pointer(finding.Place{}), Code: "not_computable"}}}
		case err != nil:
			return "", &refusal{kind: internalError}
		}
		if out.Len() == 0 && cap(answer) > out.Available() {
			*out = *bytes.NewBuffer(answer) // it has outgrown the buffer: no second copy
		} else {
			out.Write(answer)
		}
		return verdict(reflect.ValueOf(&response).Elem()), nil
	}
	return operation{
		name:     name,
		run:      run,
		table:    table,
		response: reflect.TypeFor[Res](),
	}
}

// answerBody decodes and checks a body and answers it. What is refused before anything is
// calculated is handed on all the same, for what the calculation would refuse besides:
// who mends a request once has then mended all of it.
func answerBody[Req, Res any](ctx context.Context, body []byte, t *table, request *Req, handle func(context.Context, *Req) (Res, error)) (Res, *refusal) {
	r := checkTop(request, decode(body, t, request))
	if r != nil && (r.kind != invalidRequest || len(r.fields) >= mostErrors) {
		var none Res
		return none, r
	}
	response, err := handle(ctx, request)
	switch {
	case r != nil:
		r.addCalculation(err)
		return response, r
	case err != nil:
		return response, refusalOf(err)
	}
	return response, nil
}

// recorded gives an operation its record.
func (o operation) recorded(record runner) operation {
	o.record = record
	return o
}

// refusalOf turns a handler's error into the refusal that the client gets.
func refusalOf(err error) *refusal {
	var invalid finding.Invalid
	if errors.As(err, &invalid) {
		return refused(invalid)
	}
	var r *refusal // of the handler's own
	if errors.As(err, &r) {
		return r
	}
	return &refusal{kind: internalError}
}

// warnings words what calc found unusual.
func warnings(ctx context.Context, found []finding.Warning) []warning {
	if len(found) == 0 {
		return nil
	}
	lang := text.From(ctx)
	all := make([]warning, len(found))
	for i, w := range found {
		all[i] = warning{w.Code, pointer(w.Place), text.Coded(lang, "warning", w.Code)}
	}
	return all
}

// nextSteps words what to do next by its codes; nil when there is nothing.
func nextSteps(ctx context.Context, codes ...string) []notice {
	if len(codes) == 0 {
		return nil
	}
	lang := text.From(ctx)
	all := make([]notice, len(codes))
	for i, c := range codes {
		all[i] = notice{c, text.Coded(lang, "next", c)}
	}
	return all
}

// within turns a verdict into the member withinTolerance; nil when not judged.
func within(v finding.Verdict) *bool {
	if v == finding.NotJudged {
		return nil
	}
	inside := v == finding.Within
	return &inside
}

// overLabel turns the verdict on a label's maximum into overLabelMaximum.
func overLabel(v finding.Verdict) *bool {
	if v == finding.NotJudged {
		return nil
	}
	outside := v == finding.Outside
	return &outside
}
