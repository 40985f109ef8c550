package telemetry

import (
	"context"
	"crypto/rand"
	"errors"
	"fmt"
	"log/slog"
	"net/http"
	"time"

	"github.com/prometheus/client_golang/prometheus"
	"github.com/prometheus/client_golang/prometheus/promhttp"
	"go.opentelemetry.io/contrib/instrumentation/runtime"
	"go.opentelemetry.io/otel"
	"go.opentelemetry.io/otel/attribute"
	"go.opentelemetry.io/otel/exporters/otlp/otlpmetric/otlpmetrichttp"
	"go.opentelemetry.io/otel/exporters/otlp/otlptrace/otlptracehttp"
	prometheusexporter "go.opentelemetry.io/otel/exporters/prometheus"
	sdkmetric "go.opentelemetry.io/otel/sdk/metric"
	"go.opentelemetry.io/otel/sdk/resource"
	sdktrace "go.opentelemetry.io/otel/sdk/trace"
	"go.opentelemetry.io/otel/trace"
	nooptrace "go.opentelemetry.io/otel/trace/noop"

	"wetrun/internal/buildinfo"
)

// sampledShare is the share of traces that are kept when neither the client nor
// OTEL_TRACES_SAMPLER decides.
const sampledShare = 0.01

// A Started is a Telemetry that exports, with what ends it.
type Started struct {
	*Telemetry
	// Metrics answers a scrape by Prometheus; nil unless asked for.
	Metrics http.Handler

	end []func(context.Context) error
}

// Start sets up exporters as the standard OTEL_… variables say: OTLP over HTTP
// where there is an endpoint, and nothing where there is none. env reads a
// variable; scraped asks for Prometheus too.
func Start(ctx context.Context, log *slog.Logger, env func(string) string, scraped bool) (*Started, error) {
	otel.SetErrorHandler(otel.ErrorHandlerFunc(func(err error) { log.Warn("telemetry is not delivered", "error", err) }))
	from, err := resource.New(ctx,
		resource.WithTelemetrySDK(),
		resource.WithAttributes(
			attribute.String("service.name", "wetrun"), attribute.String("service.version", buildinfo.Version),
			attribute.String("service.instance.id", rand.Text()),
		),
		resource.WithFromEnv())
	if err != nil {
		return nil, fmt.Errorf("OTEL_RESOURCE_ATTRIBUTES cannot be used: %w", err)
	}
	s := new(Started)
	traces, traced, err := s.traces(ctx, env, from)
	if err != nil {
		return nil, err
	}
	metrics, err := s.metrics(ctx, env, from, scraped)
	if err != nil {
		return nil, err
	}
	if s.Telemetry, err = New(log, traces, metrics); err != nil {
		return nil, err
	}
	s.traced = traced
	return s, nil
}

// traces sets up where spans go, and which requests get one; nil leaves that to the
// provider.
func (s *Started) traces(ctx context.Context, env func(string) string, from *resource.Resource) (trace.TracerProvider, func(*http.Request) bool, error) {
	exports, err := exportWanted(env, "TRACES")
	if err != nil || !exports {
		return nooptrace.NewTracerProvider(), func(*http.Request) bool { return false }, err
	}
	if err := checkTraces(env); err != nil {
		return nil, nil, err
	}
	exporter, err := otlptracehttp.New(ctx)
	if err != nil {
		return nil, nil, fmt.Errorf("traces cannot be exported: %w", err)
	}
	options := []sdktrace.TracerProviderOption{sdktrace.WithResource(from), sdktrace.WithBatcher(privateSpans{exporter})}
	var traced func(*http.Request) bool
	if env("OTEL_TRACES_SAMPLER") == "" { // else the library reads it
		options = append(options, sdktrace.WithSampler(sdktrace.AlwaysSample()))
		traced = shareTraced(sampledShare)
	}
	provider := sdktrace.NewTracerProvider(options...)
	s.end = append(s.end, provider.Shutdown)
	return provider, traced, nil
}

func (s *Started) metrics(ctx context.Context, env func(string) string, from *resource.Resource, scraped bool) (*sdkmetric.MeterProvider, error) {
	options := []sdkmetric.Option{sdkmetric.WithResource(from)}
	exports, err := exportWanted(env, "METRICS")
	if err != nil {
		return nil, err
	}
	if exports {
		if err := checkMetrics(env); err != nil {
			return nil, err
		}
		exporter, err := otlpmetrichttp.New(ctx)
		if err != nil {
			return nil, fmt.Errorf("metrics cannot be exported: %w", err)
		}
		options = append(options, sdkmetric.WithReader(sdkmetric.NewPeriodicReader(exporter)))
	}
	if scraped {
		registry := prometheus.NewRegistry()
		reader, err := prometheusexporter.New(prometheusexporter.WithRegisterer(registry), prometheusexporter.WithoutScopeInfo())
		if err != nil {
			return nil, err
		}
		options = append(options, sdkmetric.WithReader(reader))
		s.Metrics = promhttp.HandlerFor(registry, promhttp.HandlerOpts{})
	}
	provider := sdkmetric.NewMeterProvider(options...)
	s.end = append(s.end, provider.Shutdown)
	if exports || scraped {
		// A second, not the usual 15: a scrape tells of now, and asking the runtime is cheap.
		if err := runtime.Start(runtime.WithMeterProvider(provider), runtime.WithMinimumReadMemStatsInterval(time.Second)); err != nil {
			return nil, err
		}
	}
	return provider, nil
}

// exportWanted tells whether a signal, TRACES or METRICS, is to be exported.
func exportWanted(env func(string) string, signal string) (bool, error) {
	if env("OTEL_SDK_DISABLED") == "true" {
		return false, nil
	}
	switch name := "OTEL_" + signal + "_EXPORTER"; env(name) {
	case "", "otlp":
	case "none":
		return false, nil
	default:
		return false, fmt.Errorf("%s is %q: only otlp and none are known", name, env(name))
	}
	own, shared := "OTEL_EXPORTER_OTLP_"+signal+"_", "OTEL_EXPORTER_OTLP_"
	if env(own+"ENDPOINT") == "" && env(shared+"ENDPOINT") == "" {
		return false, nil
	}
	for _, name := range []string{own + "ENDPOINT", shared + "ENDPOINT"} {
		if err := checkEndpoint(name, env(name)); err != nil {
			return false, err
		}
	}
	for _, name := range []string{own + "PROTOCOL", shared + "PROTOCOL"} {
		if p := env(name); p != "" {
			if p != "http/protobuf" {
				return false, fmt.Errorf("%s is %q: only http/protobuf is known", name, p)
			}
			break
		}
	}
	return true, nil
}

// End exports what is left.
func (s *Started) End(ctx context.Context) error {
	var all []error
	for _, end := range s.end {
		all = append(all, end(ctx))
	}
	return errors.Join(all...)
}
