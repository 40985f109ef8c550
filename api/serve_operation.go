package api

import (
	"bytes"
	"context"
	"errors"
	"io"
	"maps"
	"mime"
	"net"
	"net/http"
	"strconv"
	"strings"
	"sync"
	"time"

	"wetrun/api/operation"
	"wetrun/api/wire"
	"wetrun/internal/record"
	"wetrun/internal/telemetry"
	"wetrun/internal/text"
)

// What a request may be.
const (
	usualBody = 16 << 10
	mostDrain = 16 << 20 // read and dropped before a 413, so that the client sees it
	drainTime = 5 * time.Second
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
	x := requestBuffers.Get().(*buffers)
	defer func() {
		trim(&x.in)
		trim(&x.out)
		requestBuffers.Put(x)
	}()
	if err := x.read(w, req); err != nil {
		return err
	}
	lang := languageOf(req)
	weight := turns.weight(x.in.Bytes())
	if !turns.take(weight) {
		return refuseOverloaded(w)
	}
	run, mediaType := o.Run, "application/json"
	if o.Record != nil {
		varies(w.Header(), byAccept)
		if prefersHTML(req) {
			run, mediaType = o.Record, "text/html; charset=utf-8"
			maps.Copy(w.Header(), securePage)
			w.Header().Set("Content-Security-Policy", record.Policy)
		}
	}
	ctx := text.In(req.Context(), lang)
	verdict, r := inTurn(ctx, run, turns, weight, x)
	trim(&x.in) // or a client that does not take its answer holds both
	if r == nil && x.out.Cap() > smallAnswer {
		if held := turns.answers.admit(&recipient{breakOff: func() { endAnswer(w) }}, x.out.Cap()); held != nil {
			defer turns.answers.release(held)
		} else {
			r = operation.RefusalOf(refuseOverloaded(w))
		}
	}
	if countOutcome(ctx, t, operation.Outcome{Operation: o.Name, Verdict: verdict, Refusal: r}); r != nil {
		return r
	}
	w.Header()["Cache-Control"] = noStore
	worded(w.Header(), lang)
	writeBody(w, req, mediaType, http.StatusOK, x.out.Bytes())
	return nil
}

// inTurn runs the operation and gives the turn back, whatever happens.
func inTurn(ctx context.Context, run operation.Runner, turns *turns, weight int64, x *buffers) (verdict string, _ *wire.Refusal) {
	defer turns.give(weight)
	return run(ctx, x.in.Bytes(), &x.out)
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

func (x *buffers) read(w http.ResponseWriter, req *http.Request) error {
	if !declared(req.Header, "application/json") {
		return &wire.Refusal{Kind: wire.UnsupportedMediaType}
	}
	if req.ContentLength <= operation.MostBody {
		x.limited = io.LimitedReader{R: req.Body, N: usualBody}
		_, err := x.in.ReadFrom(&x.limited)
		if err == nil && x.limited.N == 0 {
			// Room for the largest body at once: doubled again and again, that of a
			// stalled sender would be half a megabyte.
			x.in.Grow(operation.MostBody + 1 + bytes.MinRead - usualBody)
			x.limited.N = operation.MostBody + 1 - usualBody
			_, err = x.in.ReadFrom(&x.limited)
		}
		x.limited.R = nil
		if err != nil {
			refuseInTime(w)
			return &wire.Refusal{Kind: wire.BodyNotRead}
		}
		if x.in.Len() <= operation.MostBody {
			return nil
		}
	}
	w.Header().Set("Connection", "close")
	if req.ContentLength <= operation.MostBody || req.Header.Get("Expect") == "" { // else nothing has been sent, and reading would ask for it
		drain(w, req)
	}
	return &wire.Refusal{Kind: wire.BodyTooLarge, Args: []any{operation.MostBody}}
}

// drain reads on for a while. A client that is still sending when the connection
// closes would see that, and not the answer.
func drain(w http.ResponseWriter, req *http.Request) {
	// Not every writer has deadlines (a test's recorder has none).
	if err := http.NewResponseController(w).SetReadDeadline(time.Now().Add(drainTime)); err != nil && !errors.Is(err, http.ErrNotSupported) {
		return
	}
	_, _ = io.CopyN(io.Discard, req.Body, mostDrain)
	refuseInTime(w)
}

// declared tells whether the headers say one media type in UTF-8, not compressed.
func declared(h http.Header, want string) bool {
	types := h.Values("Content-Type")
	if len(types) != 1 || h.Get("Content-Encoding") != "" && h.Get("Content-Encoding") != "identity" {
		return false
	}
	if types[0] == want {
		return true
	}
	media, params, err := mime.ParseMediaType(types[0])
	if err != nil || media != want {
		return false
	}
	charset, given := params["charset"]
	return !given || strings.EqualFold(charset, "utf-8")
}
