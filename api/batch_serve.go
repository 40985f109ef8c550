package api

import (
	"cmp"
	"context"
	"net/http"
	"time"

	"wetrun/api/wire"
	"wetrun/internal/telemetry"
	"wetrun/internal/text"
)

// stepTime is how long a step of a batch may take where Limits do not say.
const stepTime = 30 * time.Second

// ndjson is the media type of a batch, both ways.
const ndjson = "application/x-ndjson"

// serveBatch answers a stream of lines while it comes in. So many streams may be
// open at once; their lines take turns with other requests.
func serveBatch(turns *turns, limits Limits, t *telemetry.Telemetry, w http.ResponseWriter, req *http.Request) error {
	_ = http.NewResponseController(w).EnableFullDuplex() // HTTP/2 is so by itself
	if req.ProtoMajor == 1 {
		w.Header().Set("Connection", "close") // what is left of a broken stream is no request
	}
	if !isMediaType(req.Header, ndjson) {
		return &wire.Refusal{Kind: wire.UnsupportedMediaType, Wording: "unsupported_media_type_batch"}
	}
	if !turns.openBatch() {
		return refuseOverloaded(w)
	}
	defer turns.closeBatch()
	s := &batchConnection{
		w: w, body: req.Body, control: http.NewResponseController(unwrapped(w)),
		lineTime: cmp.Or(limits.Line, stepTime), answerTime: cmp.Or(limits.Answer, stepTime),
	}
	lang, h := languageOf(req), w.Header()
	h.Set("Cache-Control", "no-store")
	h.Set("Content-Type", ndjson)
	setLanguage(h, lang)
	addLinks(h)
	w.WriteHeader(http.StatusOK)
	if _, err := s.Write(nil); err != nil {
		return nil // the client has gone
	}
	// net/http ends the context when a line is late, but then a last answer is due;
	// when the client has gone, reading and writing fail.
	ctx := context.WithoutCancel(req.Context())
	_, err := RunBatch(text.In(ctx, lang), s, s, BatchOptions{
		RequestID: requestID(w), turns: turns, recipient: &recipient{breakOff: s.breakOff}, telemetry: t,
	})
	if err != nil { // it is in the last line, or the client has gone
		_ = s.control.SetReadDeadline(time.Now()) // net/http would wait for what is left
	}
	_ = s.control.SetWriteDeadline(time.Now().Add(s.answerTime)) // for the end of the answer
	return nil
}

// unwrapped is the writer under that of echo, whose Flush tells of no error.
func unwrapped(w http.ResponseWriter) http.ResponseWriter {
	if u, ok := w.(interface{ Unwrap() http.ResponseWriter }); ok {
		return u.Unwrap()
	}
	return w
}
