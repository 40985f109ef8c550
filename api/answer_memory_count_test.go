package api

import (
	"fmt"
	"net/http/httptest"
	"slices"
	"strings"
	"testing"

	"go.opentelemetry.io/otel/sdk/metric"
	"go.opentelemetry.io/otel/sdk/metric/metricdata"

	"wetrun/api/operation"
	"wetrun/api/wire"

	nooptrace "go.opentelemetry.io/otel/trace/noop"

	"wetrun/internal/telemetry"
)

// TestAnswerWithoutSpaceIsCounted: as a refusal, without the verdict that the client
// never saw.
func TestAnswerWithoutSpaceIsCounted(t *testing.T) {
	reader := metric.NewManualReader()
	told, err := telemetry.New(testLog(t.Output()), nooptrace.NewTracerProvider(), metric.NewMeterProvider(metric.WithReader(reader)))
	if err != nil {
		t.Fatal(err)
	}
	turns := newTurns(Limits{})
	o := operation.All[slices.IndexFunc(operation.All, func(o operation.Operation) bool { return o.Name == "nozzle-acceptance" })]
	ask := func() error {
		w, req := httptest.NewRecorder(), httptest.NewRequest("POST", "/v1/nozzle-acceptance", strings.NewReader(longWork()))
		req.Header.Set("Content-Type", "application/json")
		return serveOperation(o, turns, told, w, req)
	}
	full := turns.answers.admit(&recipient{}, mostWaitingBytes)
	if r, ok := ask().(*wire.Refusal); !ok || r.Kind != wire.Overloaded {
		t.Fatal("there is space:", r)
	}
	if got := counted(t, reader); got != "map[wetrun.operations:refused]" {
		t.Error(got)
	}
	turns.answers.release(full)
	if err := ask(); err != nil {
		t.Fatal(err)
	}
	if got := counted(t, reader); !strings.Contains(got, "answered") || !strings.Contains(got, "wetrun.verdicts") {
		t.Error(got)
	}
}

// counted are the words by which operations and verdicts have been counted.
func counted(t *testing.T, reader metric.Reader) string {
	t.Helper()
	var all metricdata.ResourceMetrics
	if err := reader.Collect(t.Context(), &all); err != nil {
		t.Fatal(err)
	}
	words := map[string]string{}
	for _, scope := range all.ScopeMetrics {
		for _, m := range scope.Metrics {
			sum, ok := m.Data.(metricdata.Sum[int64])
			if !ok {
				continue
			}
			for _, p := range sum.DataPoints {
				for _, a := range p.Attributes.ToSlice() {
					if a.Key == "outcome" || a.Key == "verdict" {
						words[m.Name] += a.Value.AsString()
					}
				}
			}
		}
	}
	return fmt.Sprint(words)
}
