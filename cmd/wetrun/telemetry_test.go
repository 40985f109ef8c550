package main

import (
	"bytes"
	"encoding/binary"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"net/http"
	"os"
	"regexp"
	"strings"
	"testing"
	"time"
)

// TestTelemetry sends marked words and values in every place that a client can
// write to. What operators see tells routes, statuses, codes and verdicts, and none
// of the marks.
func TestTelemetry(t *testing.T) {
	c, log, addr, admin, stop := observed(t, map[string]string{"OTEL_TRACES_SAMPLER": "always_on"})
	const value = 22.813579
	marked := []string{"User-Agent", "marked-agent", "Host", "marked-host.example", "Referer", "http://marked-referer.example/", "X-Forwarded-For", "203.0.113.77",
		"Authorization", "Bearer marked-key", "Tracestate", "marked=marked", "Baggage", "marked=marked", "Cookie", "marked=1", "Accept-Language", "marked",
		"Traceparent", "00-0123456789abcdef0123456789abcdef-0123456789abcdef-01"}
	base := "http://" + addr
	for _, r := range []struct {
		method, path, body string
		status             int
	}{
		{"POST", "/v1/ground-speed?marked=query", fmt.Sprintf(`{"runs":[{"courseLength":{"value":100,"unit":"ft"},"time":{"value":%v,"unit":"s"}},{"courseLength":{"value":100,"unit":"ft"},"time":{"value":23,"unit":"s"}}]}`, value), 200},
		{"POST", "/v1/ground-speed", fmt.Sprintf(`{"markedMember":1,"runs":[{"courseLength":{"value":%v,"unit":"markedUnit"}}]}`, value), 422},
		{"POST", "/v1/nozzle-acceptance", fmt.Sprintf(`{"catches":[{"label":"marked label","nozzles":1,"volume":{"value":%v,"unit":"fl_oz_us"},"time":{"value":30,"unit":"s"}}],"nozzle":{"ratedFlowRate":{"value":0.4,"unit":"gal_us/min"},"ratedPressure":{"value":40,"unit":"psi"}},"sprayPressure":{"value":40,"unit":"psi"}}`, value), 200},
		{"POST", "/v1/ground-speed", `marked, not JSON`, 400},
		{"GET", "/v1/marked-path/22.813579", "", 404},
		{"GET", "/marked-other", "", 404},
		{"MARKED", "/v1/ground-speed", "", 405},
		{"GET", "/v1/units", "", 200},
	} {
		if status := send(t, r.method, base+r.path, r.body, marked...); status != r.status {
			t.Errorf("%s %s: %d, want %d", r.method, r.path, status, r.status)
		}
	}
	preflight := append(marked, "Origin", "https://marked.example", "Access-Control-Request-Method", "POST")
	if status := send(t, "OPTIONS", base+"/v1/ground-speed", "", preflight...); status != 204 {
		t.Errorf("a preflight: %d", status)
	}
	resp, err := http.Post(base+"/v1/batch", "application/x-ndjson", strings.NewReader(
		`{"id":"marked-id","operation":"ground-speed","request":`+speed+`}`+"\n"+`{"id":"marked-2","operation":"marked","request":{}}`+"\n"))
	if err != nil {
		t.Fatal(err)
	}
	_, _ = io.Copy(io.Discard, resp.Body)
	resp.Body.Close()
	if send(t, "GET", "http://"+admin+"/v1/units", "") != 404 || send(t, "GET", base+"/metrics", "") != 404 {
		t.Error("the service and its metrics answer at one address")
	}
	scrape, err := http.Get("http://" + admin + "/metrics")
	if err != nil {
		t.Fatal(err)
	}
	scraped, _ := io.ReadAll(scrape.Body)
	scrape.Body.Close()
	stop() // exports the rest

	c.mutex.Lock()
	raw := c.raw.String()
	c.mutex.Unlock()
	for where, text := range map[string]string{"the log": log.String(), "OTLP": raw, "the scrape": string(scraped)} {
		for _, mark := range []string{"marked", fmt.Sprint(value), "22813579", "203.0.113.77"} {
			if i := strings.Index(strings.ToLower(text), mark); i >= 0 {
				t.Errorf("%q is in %s: …%.200s", mark, where, text[max(0, i-80):])
			}
		}
	}
	if strings.Contains(raw, string(binary.LittleEndian.AppendUint64(nil, math.Float64bits(value)))) {
		t.Error("a measured value is in OTLP")
	}
	checkLog(t, log.String())
	checkScrape(t, string(scraped))
	checkOTLP(t, c)
}

// TestRecordsAreCounted: a sheet asked for as a page to print is counted as one asked
// for as JSON is.
func TestRecordsAreCounted(t *testing.T) {
	_, _, addr, admin, stop := observed(t, nil)
	defer stop()
	for body, status := range map[string]int{`{}`: 200, `{"noMember":1,"noOther":2}`: 422, `none`: 400} {
		for _, accept := range []string{"text/html", "application/json"} {
			if got := send(t, "POST", "http://"+addr+"/v1/calibrations", body, "Accept", accept); got != status {
				t.Errorf("%s as %s: %d", body, accept, got)
			}
		}
	}
	scrape, err := http.Get("http://" + admin + "/metrics")
	if err != nil {
		t.Fatal(err)
	}
	scraped, _ := io.ReadAll(scrape.Body)
	scrape.Body.Close()
	for _, row := range []string{
		`wetrun_operations_total{operation="calibrations",outcome="answered"} 2`,
		`wetrun_operations_total{operation="calibrations",outcome="refused"} 4`,
		`wetrun_verdicts_total{operation="calibrations",verdict="incomplete"} 2`,
		`wetrun_rejected_members_total{code="unknown_member"} 4`,
	} {
		if !strings.Contains(string(scraped), "\n"+row) {
			t.Errorf("the scrape has no %s", row)
		}
	}
	// The page for operators names each of them.
	page := pageText(t, operatorsPage)
	for _, m := range regexp.MustCompile(`(?m)^# TYPE (\S+)`).FindAllStringSubmatch(string(scraped), -1) {
		if m[1] != "target_info" && !strings.Contains(page, "`"+m[1]+"`") {
			t.Errorf("%s does not name %s", operatorsPage, m[1])
		}
	}
}

// checkLog: one line for each request, with route and status.
func checkLog(t *testing.T, log string) {
	t.Helper()
	var found []string
	for line := range strings.Lines(log) {
		var r struct {
			Msg, Method, Route, RequestID, TraceID string
			Status                                 int
			Microseconds                           *float64
			Bytes                                  int
		}
		if err := json.Unmarshal([]byte(line), &r); err != nil {
			t.Errorf("no JSON: %s", line)
		}
		if r.Msg != "request" {
			continue
		}
		if r.RequestID == "" || len(r.TraceID) != 32 || r.Microseconds == nil || r.Bytes == 0 && r.Status != 204 {
			t.Errorf("something is missing in %s", line)
		}
		found = append(found, fmt.Sprintf("%s %s %d", r.Method, r.Route, r.Status))
	}
	want := []string{"POST /v1/ground-speed 200", "POST /v1/ground-speed 422", "POST /v1/nozzle-acceptance 200", "POST /v1/ground-speed 400",
		"GET unmatched 404", "GET unmatched 404", "_OTHER /v1/ground-speed 405", "GET /v1/units 200", "OPTIONS preflight 204", "POST /v1/batch 200", "GET unmatched 404"}
	if strings.Join(found, "\n") != strings.Join(want, "\n") {
		t.Errorf("logged\n%s\nwant\n%s", strings.Join(found, "\n"), strings.Join(want, "\n"))
	}
}

func checkScrape(t *testing.T, text string) {
	t.Helper()
	for _, row := range []string{
		`http_server_request_duration_seconds_count{http_request_method="POST",http_response_status_code="422",http_route="/v1/ground-speed"} 1`,
		`http_server_request_duration_seconds_bucket{http_request_method="GET",http_response_status_code="404",http_route="unmatched",`,
		`wetrun_operations_total{operation="ground-speed",outcome="answered"} 2`,
		`wetrun_operations_total{operation="batch",outcome="refused"} 1`,
		`wetrun_verdicts_total{operation="ground-speed",verdict="within_tolerance"} 1`,
		`wetrun_rejected_members_total{code="unknown_member"} 1`,
		`go_goroutine_count `,
	} {
		if !strings.Contains(text, "\n"+row) {
			t.Errorf("the scrape has no %s", row)
		}
	}
}

func checkOTLP(t *testing.T, c *collector) {
	t.Helper()
	seen := map[string]bool{}
	for _, span := range c.spans() {
		seen[span] = true
	}
	if !seen["POST /v1/batch 200"] { // it came without a parent; the others share a trace
		t.Errorf("spans %v", seen)
	}
	points := c.points("http.server.request.duration")
	if want := "map[http.request.method:POST http.response.status_code:200 http.route:/v1/ground-speed]"; !points[want] || len(points) != 9 {
		t.Errorf("durations %v, want 9 with %s", points, want)
	}
	if verdicts := c.points("wetrun.verdicts"); !verdicts["map[operation:ground-speed verdict:within_tolerance]"] {
		t.Errorf("verdicts %v", verdicts)
	}
}

// TestSampling: about one trace in a hundred is kept, and every one that a client
// has decided to keep, under its id.
func TestSampling(t *testing.T) {
	c, log, addr, _, stop := observed(t, nil)
	for range 400 {
		send(t, "GET", "http://"+addr+"/livez", "")
	}
	const trace = "0af7651916cd43dd8448eb211c80319c"
	send(t, "GET", "http://"+addr+"/readyz", "", "Traceparent", "00-"+trace+"-b7ad6b7169203331-01")
	stop()
	spans := c.spans()
	if spans[trace] != "GET /readyz 200" || len(spans) > 25 { // 25 of 400 by chance: less than once in 10^11
		t.Errorf("%d spans; the client's is %q", len(spans), spans[trace])
	}
	if !strings.Contains(log.String(), trace) {
		t.Error("the log does not have the client's trace")
	}
}

// TestTelemetryThatIsRefused: what the variables ask for and nothing here can do
// stops the start.
func TestTelemetryThatIsRefused(t *testing.T) {
	for _, c := range []struct{ name, value, says string }{
		{"OTEL_EXPORTER_OTLP_PROTOCOL", "grpc", "http/protobuf"},
		{"OTEL_TRACES_EXPORTER", "zipkin", "otlp and none"},
		{"OTEL_METRICS_EXPORTER", "console", "otlp and none"},
		{"OTEL_EXPORTER_OTLP_ENDPOINT", "collector.example:4318", "write a URL"},
		{"OTEL_EXPORTER_OTLP_ENDPOINT", "127.0.0.1:4318", "write a URL"},
		{"OTEL_EXPORTER_OTLP_TRACES_ENDPOINT", "grpc://collector.example:4317", "write a URL"},
		{"OTEL_EXPORTER_OTLP_METRICS_ENDPOINT", "http://:4318", "write a URL"},
		{"OTEL_TRACES_SAMPLER", "always", "parentbased_always_on"},
		{"OTEL_TRACES_SAMPLER_ARG", "5", "from 0 to 1"},
		{"OTEL_METRIC_EXPORT_INTERVAL", "60s", "milliseconds"},
		{"OTEL_METRIC_EXPORT_TIMEOUT", "0", "milliseconds"},
	} {
		name, value := c.name, c.value
		variables := map[string]string{"OTEL_EXPORTER_OTLP_ENDPOINT": "http://127.0.0.1:9", "WETRUN_ADDR": "127.0.0.1:0", "OTEL_TRACES_SAMPLER": "traceidratio"}
		variables[name] = value
		env := func(n string) string { return variables[n] }
		var errs bytes.Buffer
		if code := run(t.Context(), []string{"serve"}, env, nil, io.Discard, &errs); code != 1 || !strings.Contains(errs.String(), name+` is "`+value) || !strings.Contains(errs.String(), c.says) {
			t.Errorf("%s=%s: %d %s", name, value, code, errs.String())
		}
	}
}

// TestNothingIsExportedUnasked: without an endpoint nothing leaves, though the
// variables name exporters.
func TestNothingIsExportedUnasked(t *testing.T) {
	c := newCollector(t)
	t.Setenv("OTEL_TRACES_EXPORTER", "otlp")
	addr, end, code := servingTo(t, new(safeBuffer), os.Getenv)
	if send(t, "GET", "http://"+addr+"/livez", "") != 200 {
		t.Error("it does not serve")
	}
	end()
	exits(t, code, 0)
	time.Sleep(50 * time.Millisecond)
	if c.raw.Len() != 0 {
		t.Error("something was exported")
	}
}
