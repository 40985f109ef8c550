package telemetry

import (
	"context"
	"slices"

	"go.opentelemetry.io/otel/attribute"
	sdktrace "go.opentelemetry.io/otel/sdk/trace"
	"go.opentelemetry.io/otel/trace"
)

// exported are the attributes of a span that leave the process. The others that
// otelhttp notes (path, query, host, addresses, user agent) are the client's words.
var exported = []attribute.Key{
	"http.request.method", "http.route", "http.response.status_code", "http.request.body.size", "http.response.body.size",
	"network.protocol.version", "url.scheme",
}

// privateSpans exports spans without what clients may have written into them. It
// works on the few spans that are sampled, off the path of requests.
type privateSpans struct{ sdktrace.SpanExporter }

func (p privateSpans) ExportSpans(ctx context.Context, spans []sdktrace.ReadOnlySpan) error {
	private := make([]sdktrace.ReadOnlySpan, len(spans))
	for i, s := range spans {
		private[i] = privateSpan{s}
	}
	return p.SpanExporter.ExportSpans(ctx, private)
}

type privateSpan struct{ sdktrace.ReadOnlySpan }

func (s privateSpan) Attributes() []attribute.KeyValue {
	return slices.DeleteFunc(slices.Clone(s.ReadOnlySpan.Attributes()), func(a attribute.KeyValue) bool {
		return !slices.Contains(exported, a.Key)
	})
}

func (s privateSpan) Events() []sdktrace.Event { return nil }

func (s privateSpan) Status() sdktrace.Status {
	return sdktrace.Status{Code: s.ReadOnlySpan.Status().Code}
}

func (s privateSpan) SpanContext() trace.SpanContext {
	return s.ReadOnlySpan.SpanContext().WithTraceState(trace.TraceState{})
}

func (s privateSpan) Parent() trace.SpanContext {
	return s.ReadOnlySpan.Parent().WithTraceState(trace.TraceState{})
}
