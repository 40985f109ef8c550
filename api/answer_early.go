package api

import (
	"io"
	"net/http"
	"time"

	"wetrun/api/operation"
	"wetrun/api/wire"
)

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

// unwrapped is the writer under that of echo, whose Flush tells of no error.
func unwrapped(w http.ResponseWriter) http.ResponseWriter {
	if u, ok := w.(interface{ Unwrap() http.ResponseWriter }); ok {
		return u.Unwrap()
	}
	return w
}
