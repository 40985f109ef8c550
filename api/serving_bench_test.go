package api

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"sync/atomic"
	"testing"

	"wetrun/calc/certainty"
	"wetrun/internal/telemetry"
)

// twelveCatches is an invented sheet: a dozen drops of three nozzles, two of them
// outside.
func twelveCatches() string {
	var b strings.Builder
	b.WriteString(`{"nozzle":{"ratedFlowRate":{"value":0.5,"unit":"gal_us/min"},"ratedPressure":{"value":40,"unit":"psi"}},"sprayPressure":{"value":60,"unit":"psi"},"catches":[`)
	for i := range 12 {
		if i > 0 {
			b.WriteByte(',')
		}
		fmt.Fprintf(&b, `{"label":"drop %d","position":%q,"nozzles":3,"volume":{"value":%d,"unit":"fl_oz_us"},"time":{"value":30,"unit":"s"}}`,
			i+1, certainty.Position("").Words()[i/4], 112+4*i)
	}
	b.WriteString(`],"tolerance":{"limit":{"value":10,"unit":"%"},"basis":"both"}}`)
	return b.String()
}

// unread is a response that nobody reads.
type unread struct {
	header http.Header
	status int
}

func (u *unread) Header() http.Header         { return u.header }
func (u *unread) WriteHeader(status int)      { u.status = status }
func (u *unread) Write(b []byte) (int, error) { return len(b), nil }

type rereadable struct{ strings.Reader }

func (*rereadable) Close() error { return nil }

// serveOver runs the handler b.N times, without a network.
func serveOver(b *testing.B, h http.Handler, operation, body string, headers ...string) {
	req := httptest.NewRequest(http.MethodPost, "/v1/"+operation, nil)
	req.Header.Set("Content-Type", "application/json")
	for i := 0; i+1 < len(headers); i += 2 {
		req.Header.Set(headers[i], headers[i+1])
	}
	req.ContentLength = int64(len(body))
	content := new(rereadable)
	w := &unread{header: http.Header{}}
	b.ReportAllocs()
	for b.Loop() {
		content.Reset(body)
		req.Body = content
		clear(w.header)
		h.ServeHTTP(w, req)
		if w.status != http.StatusOK {
			b.Fatalf("status %d", w.status)
		}
	}
}

// BenchmarkTwelveCatches is the service with nothing switched on.
func BenchmarkTwelveCatches(b *testing.B) {
	serveOver(b, New(Options{Log: slog.New(slog.NewTextHandler(io.Discard, &slog.HandlerOptions{Level: slog.LevelWarn}))}), "nozzle-acceptance", twelveCatches())
}

// BenchmarkTwelveCatchesObserved has traces, metrics, a log in JSON, and
// keys besides.
func BenchmarkTwelveCatchesObserved(b *testing.B) {
	h, secret := everythingOn(b, io.Discard)
	serveOver(b, h, "nozzle-acceptance", twelveCatches(), "Authorization", "Bearer "+secret)
}

// BenchmarkTwelveCatchesCertain is the same without uncertainties.
func BenchmarkTwelveCatchesCertain(b *testing.B) {
	h, secret := everythingOn(b, io.Discard)
	serveOver(b, h, "nozzle-acceptance", withoutUncertainty(twelveCatches()), "Authorization", "Bearer "+secret)
}

// BenchmarkSheetCertain is a whole field sheet without uncertainties, everything on.
func BenchmarkSheetCertain(b *testing.B) {
	h, secret := everythingOn(b, io.Discard)
	var sheet bytes.Buffer
	if err := json.Compact(&sheet, []byte(demo(b, "ready"))); err != nil {
		b.Fatal(err)
	}
	serveOver(b, h, "calibrations", withoutUncertainty(sheet.String()), "Authorization", "Bearer "+secret)
}

func withoutUncertainty(body string) string { return body[:len(body)-1] + `,"uncertainty":false}` }

// everythingOn is the service with all that can be switched on, and a key for it.
// Traces go nowhere, at the usual share of one in a hundred.
func everythingOn(t testing.TB, log io.Writer) (h http.Handler, secret string) {
	t.Helper()
	secret, line, err := NewKey("bench")
	if err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), "keys")
	if err := os.WriteFile(file, []byte(line+"\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	logger := slog.New(slog.NewJSONHandler(log, nil))
	keys, err := LoadKeys(file, logger)
	if err != nil {
		t.Fatal(err)
	}
	env := map[string]string{"OTEL_EXPORTER_OTLP_ENDPOINT": "http://127.0.0.1:9"}
	t.Setenv("OTEL_EXPORTER_OTLP_ENDPOINT", "http://127.0.0.1:9")
	started, err := telemetry.Start(t.Context(), logger, func(name string) string { return env[name] }, true)
	if err != nil {
		t.Fatal(err)
	}
	return New(Options{Log: logger, Telemetry: started.Telemetry, Keys: keys, Stopping: new(atomic.Bool)}), secret
}
