// Package telemetry tells operators what the service does: traces and metrics by
// OpenTelemetry, and one line of log for each request. None of them holds a value
// or a name that a user sent: only routes, statuses, codes, sizes and times do.
package telemetry

import (
	"log/slog"
	"net/http"
	"runtime/debug"

	"go.opentelemetry.io/otel/metric"
	noopmetric "go.opentelemetry.io/otel/metric/noop"
	"go.opentelemetry.io/otel/trace"
	nooptrace "go.opentelemetry.io/otel/trace/noop"
)

// scope names this program's instruments.
const scope = "wetrun"

// A Telemetry takes in what happens. The nil one drops it all.
type Telemetry struct {
	log    *slog.Logger
	traces trace.TracerProvider
	meters *meters
	traced func(*http.Request) bool // which requests are traced; nil: the provider decides
}

// New sends what happens to a log and to providers of OpenTelemetry.
func New(log *slog.Logger, traces trace.TracerProvider, metrics metric.MeterProvider) (*Telemetry, error) {
	m, err := newMeters(metrics.Meter(scope))
	if err != nil {
		return nil, err
	}
	return &Telemetry{log: log, traces: traces, meters: m}, nil
}

// LogOnly writes the log, and neither traces nor metrics.
func LogOnly(log *slog.Logger) *Telemetry {
	t, err := New(log, nooptrace.NewTracerProvider(), noopmetric.NewMeterProvider())
	if err != nil { // the instruments of noop cannot fail
		panic(err)
	}
	t.traced = func(*http.Request) bool { return false }
	return t
}

// Panicked logs a fault of ours, with its stack.
func (t *Telemetry) Panicked(requestID string, fault any) {
	t.log.Error("a request panicked", "requestId", requestID, "panic", fault, "stack", string(debug.Stack()))
}
