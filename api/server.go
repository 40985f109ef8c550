// Package api is the HTTP interface of wetrun: routes, limits, languages and problems
// around the operations, which know no HTTP.
package api

import (
	"errors"
	"log/slog"
	"net/http"
	"sync/atomic"

	"github.com/labstack/echo/v4"

	"wetrun/api/operation"
	"wetrun/api/wire"
	"wetrun/internal/telemetry"
)

// Options is how the service is set up.
type Options struct {
	// Log takes errors of the service itself; nothing that a user measured or named
	// goes there.
	Log *slog.Logger
	// Telemetry takes traces, metrics and a line of log for each request; nil writes
	// the log alone.
	Telemetry *telemetry.Telemetry
	// Limits bound concurrent work and, when asked for, each client's rate.
	Limits Limits
	// Keys open the paths under /v1; nil leaves them open to everybody.
	Keys *Keys
	// Stopping, once it is set, makes /readyz answer 503 and every answer close its
	// connection, so that clients and balancers move on. Nil: never.
	Stopping *atomic.Bool
	// AllowOrigins are the origins whose pages may call the service (CORS), as
	// ParseOrigins reads them: AnyOrigin, or those listed, or none.
	AllowOrigins []string
}

// New returns the whole service as one handler.
func New(o Options) http.Handler { return serving(o, operation.All) }

// serving is the service with the operations given.
func serving(o Options, operations []operation.Operation) http.Handler {
	log, e := o.Log, echo.New()
	t := o.Telemetry
	if t == nil {
		t = telemetry.LogOnly(log)
	}
	guard, turns := newGuard(o), newTurns(o.Limits)
	e.HTTPErrorHandler = func(err error, c echo.Context) { answerError(log, err, c) }
	e.Use(func(next echo.HandlerFunc) echo.HandlerFunc {
		return func(c echo.Context) error {
			c.Request().Pattern = c.Path() // for telemetry; empty when nothing matches
			if err := guard.admit(c.Response(), c.Request()); err != nil {
				return err
			}
			return next(c)
		}
	})
	for _, op := range operations {
		e.POST("/v1/"+op.Name, func(c echo.Context) error { return serveOperation(op, turns, t, c.Response(), c.Request()) })
	}
	e.POST("/v1/batch", func(c echo.Context) error { return serveBatch(turns, o.Limits, t, c.Response(), c.Request()) })
	for _, all := range []map[string]*page{pages(operations), webPages(), docsFiles(o.Keys != nil)} {
		for path, page := range all {
			page.private = guard.dependsOnClient(path)
			serve := func(c echo.Context) error { return page.serve(c.Response(), c.Request()) }
			e.GET(path, serve)
			e.HEAD(path, serve)
		}
	}
	return t.Handler(withRequestID(withCORS(o.AllowOrigins, withDeprecations(operations, recoverPanics(t, e)))))
}

// answerError writes every error as a problem, the router's own 404 and 405
// included.
func answerError(log *slog.Logger, err error, c echo.Context) {
	if c.Response().Committed {
		return
	}
	var r *wire.Refusal
	var h *echo.HTTPError
	switch {
	case errors.As(err, &r):
	case errors.As(err, &h) && h.Code == http.StatusNotFound:
		r = &wire.Refusal{Kind: wire.NotFound}
	case errors.As(err, &h) && h.Code == http.StatusMethodNotAllowed:
		allow, _ := c.Get(echo.ContextKeyHeaderAllow).(string)
		c.Response().Header().Set("Allow", allow)
		r = &wire.Refusal{Kind: wire.MethodNotAllowed, Args: []any{allow}}
	default:
		r = &wire.Refusal{Kind: wire.InternalError, Cause: err}
	}
	if r.Cause != nil {
		log.Error("a request failed", "requestId", requestID(c.Response()), "error", r.Cause)
	}
	if beforeBody(r) {
		answerAtOnce(c.Response(), c.Request())
	}
	writeProblem(c.Response(), c.Request(), r)
}

// writeProblem answers with the refusal in the client's language.
func writeProblem(w http.ResponseWriter, req *http.Request, r *wire.Refusal) {
	lang := languageOf(req)
	p := r.Problem(lang, requestID(w))
	body := p.Encode()
	h := w.Header()
	h.Set("Cache-Control", "no-store")
	setLanguage(h, lang)
	writeBody(w, req, "application/problem+json", p.Status, body)
}
