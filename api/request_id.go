package api

import (
	"crypto/rand"
	"net/http"

	"wetrun/api/wire"
	"wetrun/internal/telemetry"
)

const requestIDHeader = "X-Request-Id"

// withRequestID gives every request an id: the client's own when it is short and
// plain, a random one otherwise. Each answer carries it, and each problem, and the
// headers that all answers have.
func withRequestID(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, req *http.Request) {
		id := req.Header.Get(requestIDHeader)
		if !plainID(id) {
			id = rand.Text()
		}
		w.Header().Set(requestIDHeader, id)
		secure(w.Header(), req.Method)
		next.ServeHTTP(w, req)
	})
}

func requestID(w http.ResponseWriter) string { return w.Header().Get(requestIDHeader) }

func plainID(id string) bool {
	if id == "" || len(id) > 64 {
		return false
	}
	for i := 0; i < len(id); i++ {
		if !wire.Unreserved(id[i]) {
			return false
		}
	}
	return true
}

// recoverPanics turns a panic into a 500 problem; the stack goes to the log only. An answer
// that has begun is broken off instead, so that nobody takes it for whole.
func recoverPanics(t *telemetry.Telemetry, next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, req *http.Request) {
		defer func() {
			switch p := recover(); p {
			case nil:
			case http.ErrAbortHandler:
				panic(p)
			default:
				t.Panicked(requestID(w), p)
				if telemetry.Begun(w) {
					panic(http.ErrAbortHandler)
				}
				answerAtOnce(w, req)
				writeProblem(w, req, &wire.Refusal{Kind: wire.InternalError})
			}
		}()
		next.ServeHTTP(w, req)
	})
}
