package operation

import (
	"bytes"
	"context"
	"strconv"

	"github.com/go-json-experiment/json/jsontext"

	"wetrun/api/wire"
	"wetrun/internal/text"
)

// BatchLine is one line of a batch as a client writes it: a request for one operation,
// with a name of the client's own to know its answer by.
type BatchLine struct {
	ID        string         `json:"id" validate:"required"`
	Operation operationName  `json:"operation" validate:"required"`
	Request   jsontext.Value `json:"request" validate:"required"`
}

// batchLineTable is made after All, of which it has the names.
var batchLineTable *wire.Table

func init() { batchLineTable = wire.TableOf[BatchLine]() }

// An operationName is the name of one of All.
type operationName string

// Words lists the names.
func (operationName) Words() []string {
	names := make([]string, len(All))
	for i, o := range All {
		names[i] = o.Name
	}
	return names
}

// An Outcome is how a request ended: with what was decided, or with a refusal. Who asks
// counts it.
type Outcome struct {
	Operation string // the path under /v1; batch for a line that could not be read
	Verdict   string // empty where nothing is decided
	Refusal   *wire.Refusal
}

// A Line is one line of a batch on its way to its answer.
type Line struct {
	Number    int    // in the stream, from 1
	RequestID string // of the stream; it stands in problems
	request   BatchLine
}

// Answer appends the answer to a line that reads body to out, with its line end: what POST
// would have answered to the request alone, and which line it is.
func (l *Line) Answer(ctx context.Context, body []byte, out *bytes.Buffer) Outcome {
	if r := wire.Decode(body, batchLineTable, &l.request); r != nil {
		r.InLine(l.Number)
		l.Refuse(ctx, r, out)
		return Outcome{Operation: "batch", Refusal: r}
	}
	start := out.Len()
	l.begin(200, out)
	out.WriteString(`,"response":`)
	o := Named(string(l.request.Operation))
	verdict, r := o.Run(ctx, l.request.Request, out)
	if r != nil {
		out.Truncate(start)
		l.Refuse(ctx, r, out)
	} else {
		out.WriteString("}\n")
	}
	return Outcome{o.Name, verdict, r}
}

// Refuse appends the refusal as the answer to the line.
func (l *Line) Refuse(ctx context.Context, r *wire.Refusal, out *bytes.Buffer) {
	p := r.Problem(text.From(ctx), l.RequestID)
	l.begin(p.Status, out)
	out.WriteString(`,"problem":`)
	out.Write(p.Encode())
	out.WriteString("}\n")
}

// begin writes the members that each answer has.
func (l *Line) begin(status int, out *bytes.Buffer) {
	b := out.AvailableBuffer()
	b = append(b, `{"line":`...)
	b = strconv.AppendInt(b, int64(l.Number), 10)
	if l.request.ID != "" {
		b = append(b, `,"id":`...)
		b, _ = jsontext.AppendQuote(b, l.request.ID) // fails on broken UTF-8, which was refused
	}
	b = append(b, `,"status":`...)
	b = strconv.AppendInt(b, int64(status), 10)
	out.Write(b)
}
