package main

import (
	"bytes"
	"encoding/hex"
	"fmt"
	"io"
	"net/http"
	"net/http/httptest"
	"os"
	"regexp"
	"strings"
	"sync"
	"testing"

	metricspb "go.opentelemetry.io/proto/otlp/collector/metrics/v1"
	tracepb "go.opentelemetry.io/proto/otlp/collector/trace/v1"
	commonpb "go.opentelemetry.io/proto/otlp/common/v1"
	"google.golang.org/protobuf/proto"
)

// A collector takes what OTLP exporters send, and keeps it as it came and decoded.
type collector struct {
	*httptest.Server
	mutex   sync.Mutex
	raw     bytes.Buffer
	traces  []*tracepb.ExportTraceServiceRequest
	metrics []*metricspb.ExportMetricsServiceRequest
}

func newCollector(t *testing.T) *collector {
	c := new(collector)
	c.Server = httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, req *http.Request) {
		body, err := io.ReadAll(req.Body)
		c.mutex.Lock()
		defer c.mutex.Unlock()
		c.raw.Write(body)
		traces, metrics := new(tracepb.ExportTraceServiceRequest), new(metricspb.ExportMetricsServiceRequest)
		switch {
		case err != nil:
		case req.URL.Path == "/v1/traces":
			err = proto.Unmarshal(body, traces)
			c.traces = append(c.traces, traces)
		case req.URL.Path == "/v1/metrics":
			err = proto.Unmarshal(body, metrics)
			c.metrics = append(c.metrics, metrics)
		default:
			err = fmt.Errorf("nothing is at %s", req.URL.Path)
		}
		if err != nil {
			t.Error(err)
		}
	}))
	t.Cleanup(c.Close)
	return c
}

// spans lists method, route and status of each span, by its trace.
func (c *collector) spans() map[string]string {
	c.mutex.Lock()
	defer c.mutex.Unlock()
	all := map[string]string{}
	for _, r := range c.traces {
		for _, rs := range r.ResourceSpans {
			for _, ss := range rs.ScopeSpans {
				for _, s := range ss.Spans {
					a := attributes(s.Attributes)
					all[hex.EncodeToString(s.TraceId)] = a["http.request.method"] + " " + a["http.route"] + " " + a["http.response.status_code"]
				}
			}
		}
	}
	return all
}

// points lists the attributes of each point of a metric.
func (c *collector) points(name string) map[string]bool {
	c.mutex.Lock()
	defer c.mutex.Unlock()
	all := map[string]bool{}
	for _, r := range c.metrics {
		for _, rm := range r.ResourceMetrics {
			for _, sm := range rm.ScopeMetrics {
				for _, m := range sm.Metrics {
					if m.Name != name {
						continue
					}
					for _, p := range m.GetSum().GetDataPoints() {
						all[fmt.Sprint(attributes(p.Attributes))] = true
					}
					for _, p := range m.GetHistogram().GetDataPoints() {
						all[fmt.Sprint(attributes(p.Attributes))] = true
					}
				}
			}
		}
	}
	return all
}

func attributes(list []*commonpb.KeyValue) map[string]string {
	all := map[string]string{}
	for _, a := range list {
		all[a.Key] = a.Value.GetStringValue()
		if n, ok := a.Value.Value.(*commonpb.AnyValue_IntValue); ok {
			all[a.Key] = fmt.Sprint(n.IntValue)
		}
	}
	return all
}

// A safeBuffer can be read while it is written.
type safeBuffer struct {
	mutex sync.Mutex
	bytes.Buffer
}

func (b *safeBuffer) Write(p []byte) (int, error) {
	b.mutex.Lock()
	defer b.mutex.Unlock()
	return b.Buffer.Write(p)
}

func (b *safeBuffer) String() string {
	b.mutex.Lock()
	defer b.mutex.Unlock()
	return b.Buffer.String()
}

// observed starts the server with everything exported to a collector.
func observed(t *testing.T, variables map[string]string) (c *collector, log *safeBuffer, addr, admin string, stop func()) {
	c, log = newCollector(t), new(safeBuffer)
	t.Setenv("OTEL_EXPORTER_OTLP_ENDPOINT", c.URL)
	t.Setenv("OTEL_BSP_SCHEDULE_DELAY", "50")
	t.Setenv("OTEL_METRIC_EXPORT_INTERVAL", "200")
	for name, value := range variables {
		t.Setenv(name, value)
	}
	addr, end, code := servingTo(t, log, os.Getenv, "-admin-addr", "127.0.0.1:0", "-log-format", "json")
	m := regexp.MustCompile(`http://(\S+)/metrics`).FindStringSubmatch(log.String())
	if m == nil {
		t.Fatalf("no address of metrics in %s", log)
	}
	return c, log, addr, m[1], func() {
		end()
		exits(t, code, 0)
	}
}

func send(t *testing.T, method, url, body string, headers ...string) int {
	t.Helper()
	req, err := http.NewRequest(method, url, strings.NewReader(body))
	if err != nil {
		t.Fatal(err)
	}
	req.Header.Set("Content-Type", "application/json")
	for i := 0; i+1 < len(headers); i += 2 {
		req.Header.Set(headers[i], headers[i+1])
	}
	if host := req.Header.Get("Host"); host != "" {
		req.Host = host
	}
	resp, err := http.DefaultClient.Do(req)
	if err != nil {
		t.Fatal(err)
	}
	_, _ = io.Copy(io.Discard, resp.Body)
	resp.Body.Close()
	return resp.StatusCode
}
