package api

import (
	"io"
	"net/http"
	"time"

	"wetrun/internal/telemetry"
	"wetrun/internal/text"
)

// lineTime is how long a batch waits for the next bytes, and for the client to take
// an answer. It stands in for the limits on a whole request, which a fleet outlasts.
const lineTime = 30 * time.Second

// ndjson is the media type of a batch, both ways.
const ndjson = "application/x-ndjson"

// serveBatch answers a stream of lines while it comes in. So many streams may be
// open at once; their lines take turns with other requests.
func serveBatch(turns *slots, t *telemetry.Telemetry, w http.ResponseWriter, req *http.Request) error {
	if !declared(req.Header, ndjson) {
		return &refusal{kind: unsupportedMediaType, wording: "unsupported_media_type_batch"}
	}
	if !turns.open() {
		return refuseOverloaded(w)
	}
	defer turns.close()
	s := &batchStream{w: w, body: req.Body, control: http.NewResponseController(w)}
	_ = s.control.EnableFullDuplex() // what cannot, such as HTTP/2, is so anyway
	lang := languageOf(req)
	h := w.Header()
	h.Set("Cache-Control", "no-store")
	h.Set("Content-Type", ndjson)
	worded(h, lang)
	addLinks(h)
	w.WriteHeader(http.StatusOK)
	s.flush()
	// What went wrong is in the last line, or the client has gone.
	_, _ = RunBatch(telemetry.In(text.In(req.Context(), lang), t), s, s, BatchOptions{RequestID: requestID(w), turns: turns})
	return nil
}

// A batchStream is the connection of a batch, with a limit on each step.
type batchStream struct {
	w       http.ResponseWriter
	body    io.Reader
	control *http.ResponseController
}

func (s *batchStream) Read(b []byte) (int, error) {
	_ = s.control.SetReadDeadline(time.Now().Add(lineTime)) // a test's recorder has none
	return s.body.Read(b)
}

func (s *batchStream) Write(b []byte) (int, error) {
	_ = s.control.SetWriteDeadline(time.Now().Add(lineTime))
	n, err := s.w.Write(b)
	if err != nil {
		_ = s.control.SetReadDeadline(time.Now()) // nobody reads the answers: stop reading
		return n, err
	}
	s.flush()
	return n, nil
}

func (s *batchStream) flush() { _ = s.control.Flush() }
