package api

import (
	"bytes"
	"context"
	"io"
	"maps"
	"net"
	"net/http"
	"strconv"
	"sync"
	"time"

	"wetrun/api/operation"
	"wetrun/api/wire"
	"wetrun/internal/record"
	"wetrun/internal/telemetry"
	"wetrun/internal/text"
)

// mostKept is the longest buffer that is used again. What a long request needed shall not
// be held for the short ones after it.
const mostKept = 64 << 10

// buffers are those of one request, reused.
type buffers struct {
	in, out bytes.Buffer
	limited io.LimitedReader
}

var requestBuffers = sync.Pool{New: func() any { return new(buffers) }}

// serveOperation reads the body, waits for its turn, runs the operation and writes
// its answer, or returns the refusal.
func serveOperation(o operation.Operation, turns *turns, t *telemetry.Telemetry, w http.ResponseWriter, req *http.Request) error {
	b := requestBuffers.Get().(*buffers)
	defer func() {
		trim(&b.in)
		trim(&b.out)
		requestBuffers.Put(b)
	}()
	if err := b.read(w, req); err != nil {
		return err
	}
	lang := languageOf(req)
	weight := turns.weight(b.in.Bytes())
	if !turns.take(weight) {
		return refuseOverloaded(w)
	}
	run, mediaType := o.Run, "application/json"
	if o.Record != nil {
		addVary(w.Header(), byAccept)
		if prefersHTML(req) {
			run, mediaType = o.Record, htmlPage
		}
	}
	ctx := text.In(req.Context(), lang)
	verdict, r := runInTurn(ctx, run, turns, weight, b)
	trim(&b.in) // or a client that does not take its answer holds both
	if r == nil && b.out.Cap() > smallAnswer {
		if answer := turns.answers.admit(&recipient{breakOff: func() { endAnswer(w) }}, b.out.Cap()); answer != nil {
			defer turns.answers.release(answer)
		} else {
			r = operation.RefusalOf(refuseOverloaded(w))
		}
	}
	if countOutcome(ctx, t, operation.Outcome{Operation: o.Name, Verdict: verdict, Refusal: r}); r != nil {
		return r
	}
	if mediaType == htmlPage {
		maps.Copy(w.Header(), securePage)
		w.Header().Set("Content-Security-Policy", record.Policy)
	}
	w.Header()["Cache-Control"] = noStore
	setLanguage(w.Header(), lang)
	writeBody(w, req, mediaType, http.StatusOK, b.out.Bytes())
	return nil
}

// runInTurn runs the operation and gives the turn back, whatever happens.
func runInTurn(ctx context.Context, run operation.Runner, turns *turns, weight int64, b *buffers) (verdict string, _ *wire.Refusal) {
	defer turns.give(weight)
	return run(ctx, b.in.Bytes(), &b.out)
}

// trim empties a buffer, and lets one go that has grown long.
func trim(b *bytes.Buffer) {
	if b.Reset(); b.Cap() > mostKept {
		*b = bytes.Buffer{}
	}
}

// endAnswer makes the writing of an answer fail.
func endAnswer(w http.ResponseWriter) {
	_ = http.NewResponseController(w).SetWriteDeadline(time.Unix(1, 0))
}

// writeBody sends a whole answer with its length, so that none is half-written.
// A HEAD gets the same headers.
func writeBody(w http.ResponseWriter, req *http.Request, mediaType string, status int, body []byte) {
	writeHead(w, mediaType, status, len(body))
	if req.Method != http.MethodHead {
		if c, ok := req.Context().Value(connection{}).(gatherer); ok {
			c.Gather(len(body))
		}
		_, _ = w.Write(body) // the client has gone when this fails
	}
}

func writeHead(w http.ResponseWriter, mediaType string, status, length int) {
	h := w.Header()
	if mediaType == jsonType[0] {
		h["Content-Type"] = jsonType
	} else {
		h.Set("Content-Type", mediaType)
	}
	h.Set("Content-Length", strconv.Itoa(length))
	addLinks(h)
	w.WriteHeader(status)
}

// A gatherer is a connection that can send the head of an answer along with its body.
type gatherer interface{ Gather(n int) }

type connection struct{}

// ConnContext lets answers reach their connection, where that can gather what it sends;
// it is for an http.Server.
func ConnContext(ctx context.Context, c net.Conn) context.Context {
	if g, ok := c.(gatherer); ok {
		return context.WithValue(ctx, connection{}, g)
	}
	return ctx
}
