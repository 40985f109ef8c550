package api

import (
	"bytes"
	"context"
	"slices"

	"github.com/go-json-experiment/json/jsontext"

	"wetrun/internal/telemetry"
	"wetrun/internal/text"
)

// A BatchLine is one line of a batch: a request for one operation, with a name of
// the client's own to know its answer by.
type BatchLine struct {
	ID        string         `json:"id" validate:"required"`
	Operation operationName  `json:"operation" validate:"required"`
	Request   jsontext.Value `json:"request" validate:"required"`
}

// A BatchAnswer is the answer to one line: what POST would have answered to the
// request alone. Line is the number of the line in the stream, from 1.
type BatchAnswer struct {
	Line     int            `json:"line"`
	ID       string         `json:"id,omitzero"`
	Status   int            `json:"status"`
	Response jsontext.Value `json:"response,omitzero"`
	Problem  *Problem       `json:"problem,omitzero"`
}

// batchTable is made when the operations are, of which it has the names.
var batchTable *table

func init() { batchTable = tableOf[BatchLine]() }

// An operationName is that of one of operations.
type operationName string

// Words lists the names.
func (operationName) Words() []string {
	names := make([]string, len(operations))
	for i, o := range operations {
		names[i] = o.name
	}
	return names
}

// A lineRunner answers lines, one after the other. Each worker of a batch has one.
type lineRunner struct {
	ctx       context.Context
	lang      text.Language
	requestID string
	tally     *BatchTally
}

// run answers one line: the answer, with its line end, is appended to out.
func (l *lineRunner) run(number int, body []byte, out *bytes.Buffer) {
	var line BatchLine
	start := out.Len()
	defer l.survive(number, &line, start, out)
	if r := decode(body, batchTable, &line); r != nil {
		if r.kind == invalidRequest {
			r.kind = invalidLine
		}
		if r.wording == secondText {
			r.wording = secondTextInLine
		}
		if r.kind == notJSON && len(r.args) > 1 {
			r.args[1] = number // its place is in this line of the stream
		}
		r.count(l.ctx, "batch", "")
		l.refuse(number, line.ID, r, out)
		return
	}
	writeStart(out, number, line.ID, 200)
	out.WriteString(`,"response":`)
	o := &operations[slices.IndexFunc(operations, func(o operation) bool { return o.name == string(line.Operation) })]
	verdict, r := o.run(l.ctx, line.Request, out)
	if r.count(l.ctx, o.name, verdict); r != nil {
		out.Truncate(start)
		l.refuse(number, line.ID, r, out)
		return
	}
	l.tally.answered(o.name, out.Bytes()[start:])
	out.WriteString("}\n")
}

// survive answers a line on which the service fails, so that the others go on. On
// the command line, where nobody else is served, the fault ends the program.
func (l *lineRunner) survive(number int, line *BatchLine, start int, out *bytes.Buffer) {
	t := telemetry.From(l.ctx)
	if t == nil {
		return
	}
	if fault := recover(); fault != nil {
		t.Panicked(l.requestID, fault)
		out.Truncate(start)
		l.refuse(number, line.ID, &refusal{kind: internalError}, out)
	}
}

func (l *lineRunner) refuse(number int, id string, r *refusal, out *bytes.Buffer) {
	p := r.problem(l.lang, l.requestID)
	l.tally.refused(r)
	writeStart(out, number, id, p.Status)
	out.WriteString(`,"problem":`)
	out.Write(p.encode())
	out.WriteString("}\n")
}

// writeStart begins an answer with the members that each has.
func writeStart(out *bytes.Buffer, number int, id string, status int) {
	b := out.AvailableBuffer()
	b = append(b, `{"line":`...)
	b = appendInt(b, number)
	if id != "" {
		b = append(b, `,"id":`...)
		b, _ = jsontext.AppendQuote(b, id) // fails on broken UTF-8, which was refused
	}
	b = append(b, `,"status":`...)
	b = appendInt(b, status)
	out.Write(b)
}
