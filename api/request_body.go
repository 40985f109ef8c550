package api

import (
	"bytes"
	"errors"
	"io"
	"mime"
	"net/http"
	"strings"
	"time"

	"wetrun/api/operation"
	"wetrun/api/wire"
)

// How much of a body is read, and how long.
const (
	usualBody = 16 << 10 // of operation.MostBody, for which space is made only where more comes
	mostDrain = 16 << 20 // read and dropped before a 413, so that the client sees it
	drainTime = 5 * time.Second
)

// read reads the body of a request, or returns why it cannot be used.
func (b *buffers) read(w http.ResponseWriter, req *http.Request) error {
	if !isMediaType(req.Header, "application/json") {
		return &wire.Refusal{Kind: wire.UnsupportedMediaType}
	}
	if req.ContentLength <= operation.MostBody {
		b.limited = io.LimitedReader{R: req.Body, N: usualBody}
		_, err := b.in.ReadFrom(&b.limited)
		if err == nil && b.limited.N == 0 {
			// Room for the largest body at once: doubled again and again, that of a
			// stalled sender would be half a megabyte.
			b.in.Grow(operation.MostBody + 1 + bytes.MinRead - usualBody)
			b.limited.N = operation.MostBody + 1 - usualBody
			_, err = b.in.ReadFrom(&b.limited)
		}
		b.limited.R = nil
		if err != nil {
			refuseInTime(w)
			return &wire.Refusal{Kind: wire.BodyNotRead}
		}
		if b.in.Len() <= operation.MostBody {
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

// isMediaType tells whether the headers say one media type in UTF-8, not compressed.
func isMediaType(h http.Header, want string) bool {
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

// refusalTime is how long the refusal of a body that did not come in time may take. The
// time of an answer, which began with the headers, is then over too.
const refusalTime = 5 * time.Second

func refuseInTime(w http.ResponseWriter) {
	_ = http.NewResponseController(w).SetWriteDeadline(time.Now().Add(refusalTime)) // a test's recorder has none
	w.Header().Set("Connection", "close")
}

// beforeBody tells whether a refusal comes before the body has been read.
func beforeBody(r *wire.Refusal) bool {
	switch r.Kind {
	case wire.UnsupportedMediaType, wire.Unauthorized, wire.TooManyRequests, wire.NotFound, wire.MethodNotAllowed, wire.ShuttingDown:
		return true
	}
	return false
}

// answerAtOnce lets an answer go out before the end of the body has come: net/http would
// wait for it, as long as a client has to send it. HTTP/2 does so anyway. Where the end
// may be far the connection closes after the answer, since what comes is no request; a
// short body is awaited a while, so that the connection can stay.
func answerAtOnce(w http.ResponseWriter, req *http.Request) {
	if req.ContentLength == 0 || req.ProtoMajor != 1 {
		return
	}
	control := http.NewResponseController(w)
	_ = control.SetReadDeadline(time.Now().Add(refusalTime)) // net/http reads on for a while, whatever is done here
	switch {
	case req.ContentLength > 0 && req.ContentLength <= operation.MostBody && req.Header.Get("Expect") == "" && w.Header().Get("Connection") != "close":
		if _, err := io.Copy(io.Discard, req.Body); err != nil {
			refuseInTime(w)
		}
	default:
		_ = control.EnableFullDuplex()
		w.Header().Set("Connection", "close")
	}
}
