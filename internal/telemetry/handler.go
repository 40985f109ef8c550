package telemetry

import (
	"context"
	"log/slog"
	"math/rand/v2"
	"net/http"
	"slices"
	"time"

	"go.opentelemetry.io/contrib/instrumentation/net/http/otelhttp"
	"go.opentelemetry.io/otel/attribute"
	noopmetric "go.opentelemetry.io/otel/metric/noop"
	"go.opentelemetry.io/otel/propagation"
	"go.opentelemetry.io/otel/trace"
)

// unmatched is the route of every path that leads nowhere.
const unmatched = "unmatched"

// knownMethods are those that telemetry names; others share one name.
var knownMethods = []string{http.MethodGet, http.MethodHead, http.MethodPost, http.MethodPut, http.MethodPatch, http.MethodDelete, http.MethodOptions}

// Handler traces, measures and logs each request of next. The router inside tells
// the route by setting the request's Pattern. Metrics are not left to otelhttp: it
// makes a set of attributes for each request, with the client's Host in it.
func (t *Telemetry) Handler(next http.Handler) http.Handler {
	options := []otelhttp.Option{
		otelhttp.WithTracerProvider(t.traces),
		otelhttp.WithMeterProvider(noopmetric.NewMeterProvider()),
		otelhttp.WithSpanNameFormatter(spanName),
		otelhttp.WithPropagators(propagation.TraceContext{}),
	}
	if t.traced != nil {
		options = append(options, otelhttp.WithFilter(t.traced))
	}
	return otelhttp.NewHandler(t.observe(next), scope, options...)
}

// shareTraced decides which requests get a span at all: those that the client keeps, and a
// share of the others. A span that nobody keeps would cost as much as one that is kept.
func shareTraced(share float64) func(*http.Request) bool {
	return func(req *http.Request) bool {
		if parent := parentOf(req); parent.IsValid() {
			return parent.IsSampled()
		}
		return share > 0 && rand.Float64() < share
	}
}

// parentOf is the span of the client that sent the request.
func parentOf(req *http.Request) (parent trace.SpanContext) {
	if req.Header.Get("Traceparent") == "" {
		return parent
	}
	return trace.SpanContextFromContext(propagation.TraceContext{}.Extract(context.Background(), propagation.HeaderCarrier(req.Header)))
}

// spanName is the method, with the route once that is known.
func spanName(_ string, req *http.Request) string {
	if req.Pattern == "" {
		return methodOf(req)
	}
	return methodOf(req) + " " + req.Pattern
}

// methodOf is the request's method, or _OTHER for one that HTTP does not define.
func methodOf(req *http.Request) string {
	if i := slices.Index(knownMethods, req.Method); i >= 0 {
		return knownMethods[i]
	}
	return "_OTHER"
}

func (t *Telemetry) observe(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, req *http.Request) {
		began := time.Now()
		answer := countedAnswer{ResponseWriter: w}
		defer func() { t.record(req, &answer, time.Since(began)) }() // an answer that a fault breaks off too
		next.ServeHTTP(&answer, req)
	})
}

// record measures and logs a request that is over.
func (t *Telemetry) record(req *http.Request, answer *countedAnswer, took time.Duration) {
	ctx, key := req.Context(), requestKey{methodOf(req), req.Pattern, answer.status}
	if key.route == "" {
		key.route = unmatched
	}
	if key.status == 0 {
		key.status = http.StatusOK // of net/http, when nobody says
	}
	t.meters.request(ctx, key, took)
	span := trace.SpanFromContext(ctx)
	if span.IsRecording() {
		span.SetAttributes(attribute.String("http.route", key.route))
	}
	if !t.log.Enabled(ctx, slog.LevelInfo) {
		return
	}
	attrs := append(make([]slog.Attr, 0, 8),
		slog.String("method", key.method), slog.String("route", key.route), slog.Int("status", key.status),
		slog.Int64("microseconds", took.Microseconds()), slog.Int64("bytes", answer.bytes),
		slog.String("requestId", answer.Header().Get("X-Request-Id")))
	if answer.key != "" {
		attrs = append(attrs, slog.String("key", answer.key))
	}
	sc := span.SpanContext()
	if !sc.IsValid() {
		sc = parentOf(req)
	}
	if sc.IsValid() {
		attrs = append(attrs, slog.String("traceId", sc.TraceID().String()))
	}
	t.log.LogAttrs(ctx, slog.LevelInfo, "request", attrs...)
}

// A countedAnswer keeps the status and the size of an answer, and whose key it is for.
type countedAnswer struct {
	http.ResponseWriter
	status int
	bytes  int64
	key    string
}

// SetKeyName notes the name that the operator gave the key of a request, for its line of
// log.
func SetKeyName(w http.ResponseWriter, name string) {
	if c := answerUnder(w); c != nil {
		c.key = name
	}
}

// Begun tells whether the status of an answer has gone out.
func Begun(w http.ResponseWriter) bool {
	c := answerUnder(w)
	return c != nil && c.status != 0
}

// answerUnder finds what counts an answer under what else wraps it.
func answerUnder(w http.ResponseWriter) *countedAnswer {
	for {
		switch x := w.(type) {
		case *countedAnswer:
			return x
		case interface{ Unwrap() http.ResponseWriter }:
			w = x.Unwrap()
		default:
			return nil
		}
	}
}

func (c *countedAnswer) WriteHeader(status int) {
	if c.status == 0 && status >= 200 { // those below announce another one
		c.status = status
	}
	c.ResponseWriter.WriteHeader(status)
}

func (c *countedAnswer) Write(b []byte) (int, error) {
	if c.status == 0 {
		c.status = http.StatusOK // as net/http does
	}
	n, err := c.ResponseWriter.Write(b)
	c.bytes += int64(n)
	return n, err
}

// Unwrap lets http.ResponseController reach the connection.
func (c *countedAnswer) Unwrap() http.ResponseWriter { return c.ResponseWriter }
