package api

import (
	"bufio"
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"maps"
	"net/http"
	"net/http/httptest"
	"os"
	"runtime"
	"runtime/metrics"
	"slices"
	"strings"
	"testing"
	"time"

	"wetrun/api/operation"
	"wetrun/api/wire"
)

const speedLine = `{"id":"a","operation":"ground-speed","request":{"runs":[{"courseLength":{"value":100,"unit":"ft"},"time":{"value":22.8,"unit":"s"}}]}}`

type batchReply struct {
	Line     int             `json:"line"`
	ID       string          `json:"id"`
	Status   int             `json:"status"`
	Response json.RawMessage `json:"response"`
	Problem  *wire.Problem   `json:"problem"`
}

func batch(t *testing.T, body string, headers ...string) (*httptest.ResponseRecorder, []batchReply) {
	t.Helper()
	w := call(t, http.MethodPost, "/v1/batch", body, append([]string{"Content-Type", ndjson}, headers...)...)
	var all []batchReply
	for line := range strings.Lines(w.Body.String()) {
		if err := validates("BatchAnswer", []byte(line)); err != nil {
			t.Errorf("%s: %v", line, err)
		}
		var r batchReply
		if err := json.Unmarshal([]byte(line), &r); err != nil {
			t.Fatalf("%s: %v", line, err)
		}
		all = append(all, r)
	}
	return w, all
}

// TestBatchAnswersAsAlone sends every example of the document as a line and asks
// for the same bytes as from its own path.
func TestBatchAnswersAsAlone(t *testing.T) {
	var body strings.Builder
	var alone []*httptest.ResponseRecorder
	var ids []string
	for _, o := range operation.All {
		for name, request := range exampleRequests(t, o.Name) {
			id := o.Name + " " + name
			line, err := json.Marshal(map[string]any{"id": id, "operation": o.Name, "request": json.RawMessage(request)})
			if err != nil {
				t.Fatal(err)
			}
			body.Write(line)
			body.WriteByte('\n')
			ids = append(ids, id)
			alone = append(alone, call(t, http.MethodPost, "/v1/"+o.Name, string(request), "X-Request-Id", "same"))
		}
	}
	w, replies := batch(t, body.String(), "X-Request-Id", "same")
	if w.Code != http.StatusOK || len(replies) != len(ids) || len(ids) < len(operation.All) {
		t.Fatalf("%d: %d answers to %d lines", w.Code, len(replies), len(ids))
	}
	for i, r := range replies {
		want := alone[i]
		got := r.Response
		if r.Problem != nil {
			got = r.Problem.Encode()
		}
		if r.Line != i+1 || r.ID != ids[i] || r.Status != want.Code || string(got) != want.Body.String() {
			t.Errorf("line %d, %s: %d %s\nalone %d %s", r.Line, r.ID, r.Status, got, want.Code, want.Body)
		}
	}
}

// TestBatchLines: one bad line spoils only its own answer.
func TestBatchLines(t *testing.T) {
	cases := []struct {
		line            string
		status          int
		kind            wire.ProblemType
		pointer, code   string
		answersNotAtAll bool
	}{
		{line: speedLine, status: 200},
		{line: `{"id":"a"`, status: 400, kind: wire.NotJSON},
		{line: ``, answersNotAtAll: true},
		{line: `[]`, status: 422, kind: wire.InvalidLine, pointer: "#", code: "wrong_type"},
		{line: `{"id":"a","operation":"ground-speeds","request":{}}`, status: 422, kind: wire.InvalidLine, pointer: "#/operation", code: "not_allowed"},
		{line: `{"id":"a","operation":"ground-speed","request":{}}`, status: 422, kind: wire.InvalidRequest, pointer: "#/runs", code: "required"},
		{line: `{"id":"a","operation":"ground-speed","request":[]}`, status: 422, kind: wire.InvalidLine, pointer: "#/request", code: "wrong_type"},
		{line: `{"id":"a","operation":"ground-speed"}`, status: 422, kind: wire.InvalidLine, pointer: "#/request", code: "required"},
		{line: `{"operation":"ground-speed","request":{}}`, status: 422, kind: wire.InvalidLine, pointer: "#/id", code: "required"},
		{line: `{"id":7,"operation":"ground-speed","request":{}}`, status: 422, kind: wire.InvalidLine, pointer: "#/id", code: "wrong_type"},
		{line: `{"id":"a","id":"b","operation":"ground-speed","request":{}}`, status: 422, kind: wire.InvalidLine, pointer: "#/id", code: "duplicate_member"},
		{line: `{"id":"a","operation":"ground-speed","request":{},"more":1}`, status: 422, kind: wire.InvalidLine, pointer: "#/more", code: "unknown_member"},
		{line: `{"id":"` + strings.Repeat("x", 81) + `","operation":"ground-speed","request":{}}`, status: 422, kind: wire.InvalidLine, pointer: "#/id", code: "too_long"},
		{line: `{"id":"` + strings.Repeat("x", mostLine) + `"}`, status: 413, kind: wire.BodyTooLarge},
		{line: speedLine + "\r", status: 200},
		{line: " " + speedLine, status: 200},
	}
	var body strings.Builder
	for _, c := range cases {
		body.WriteString(c.line + "\n")
	}
	_, replies := batch(t, strings.TrimSuffix(body.String(), "\n"))
	next := 0
	for i, c := range cases {
		if c.answersNotAtAll {
			continue
		}
		if next == len(replies) {
			t.Fatalf("line %d has no answer", i+1)
		}
		r := replies[next]
		next++
		if r.Line != i+1 || r.Status != c.status {
			t.Errorf("%.80s: line %d, status %d", c.line, r.Line, r.Status)
			continue
		}
		if c.status == 200 {
			continue
		}
		if r.Problem.Type != "/problems/"+string(c.kind) {
			t.Errorf("%.80s: %s", c.line, r.Problem.Type)
		}
		if c.code != "" && (len(r.Problem.Errors) != 1 || r.Problem.Errors[0].Code != c.code || r.Problem.Errors[0].Pointer != c.pointer) {
			t.Errorf("%.80s: %+v", c.line, r.Problem.Errors)
		}
	}
	if next != len(replies) {
		t.Errorf("%d answers too many", len(replies)-next)
	}
}

// TestBatchStreams sends one line at a time over a real connection and waits for
// each answer before the next.
func TestBatchStreams(t *testing.T) {
	server := httptest.NewServer(service())
	defer server.Close()
	from, to := io.Pipe()
	req, _ := http.NewRequest(http.MethodPost, server.URL+"/v1/batch", from)
	req.Header.Set("Content-Type", ndjson)
	go func() { _, _ = io.WriteString(to, speedLine+"\n") }()
	resp, err := http.DefaultClient.Do(req)
	if err != nil {
		t.Fatal(err)
	}
	defer resp.Body.Close()
	answers := bufio.NewReader(resp.Body)
	for i := 1; i <= 100; i++ {
		line, err := answers.ReadString('\n')
		if err != nil || !strings.HasPrefix(line, fmt.Sprintf(`{"line":%d,"id":"a","status":200,`, i)) {
			t.Fatalf("%d: %s %v", i, line, err)
		}
		if i < 100 {
			_, _ = io.WriteString(to, speedLine+"\n")
		}
	}
	_ = to.Close()
	if rest, err := io.ReadAll(answers); err != nil || len(rest) > 0 {
		t.Fatalf("%s %v", rest, err)
	}
}

// TestBatchBroken: a stream that breaks off says how far it came.
func TestBatchBroken(t *testing.T) {
	var out bytes.Buffer
	cause := errors.New("the wire was cut")
	in := io.MultiReader(strings.NewReader(strings.Repeat(speedLine+"\n", 200)+speedLine[:40]), brokenReader{cause})
	tally, err := RunBatch(t.Context(), in, &out, BatchOptions{})
	if !errors.Is(err, cause) || tally.Lines != 201 || tally.Line != 200 {
		t.Fatalf("%+v %v", tally, err)
	}
	lines := strings.Split(strings.TrimSpace(out.String()), "\n")
	last := lines[len(lines)-1]
	if len(lines) != 201 || !strings.HasPrefix(last, `{"line":201,"status":400,"problem":{"type":"/problems/broken_stream"`) {
		t.Errorf("%d lines, the last %s", len(lines), last)
	}
}

// exampleRequests are the request bodies that the document shows for an operation,
// the refused ones among them.
func exampleRequests(t testing.TB, operation string) map[string][]byte {
	t.Helper()
	all := map[string][]byte{}
	for name, x := range requestExamples(t, operation) {
		all[name] = []byte(encodeJSON(t, x.Value.Value))
	}
	for name, x := range refusalExamples(t, operation) {
		all["refused "+name] = []byte(encodeJSON(t, x.Value.Extensions["x-request"]))
	}
	return all
}

type brokenReader struct{ err error }

func (b brokenReader) Read([]byte) (int, error) { return 0, b.err }

// TestBatchStopsWithItsReader: when nobody takes the answers, the batch ends.
func TestBatchStopsWithItsReader(t *testing.T) {
	before := runtime.NumGoroutine()
	full := errors.New("no space")
	endless := io.MultiReader(strings.NewReader(strings.Repeat(speedLine+"\n", 100_000)))
	if _, err := RunBatch(t.Context(), endless, brokenWriter{full}, BatchOptions{}); !errors.Is(err, full) {
		t.Error(err)
	}
	for range 100 {
		if runtime.NumGoroutine() <= before {
			return
		}
		time.Sleep(10 * time.Millisecond)
	}
	t.Errorf("%d goroutines before, %d after", before, runtime.NumGoroutine())
}

type brokenWriter struct{ err error }

func (b brokenWriter) Write([]byte) (int, error) { return 0, b.err }

// TestBatchParts: the parts, put together, are the whole; From leaves out what was
// answered before.
func TestBatchParts(t *testing.T) {
	var body strings.Builder
	for i := range 1000 {
		fmt.Fprintf(&body, "%s\n", strings.Replace(speedLine, `"a"`, fmt.Sprintf(`"s%d"`, i), 1))
		if i%7 == 0 {
			body.WriteString("\n{}\n")
		}
	}
	run := func(o BatchOptions) []string {
		var out bytes.Buffer
		if _, err := RunBatch(t.Context(), strings.NewReader(body.String()), &out, o); err != nil {
			t.Fatal(err)
		}
		return strings.SplitAfter(out.String(), "\n")
	}
	whole := run(BatchOptions{})
	if len(whole) != 1000+143+1 {
		t.Fatalf("%d answers", len(whole))
	}
	byLine := map[string]bool{}
	for part := range 3 {
		for _, line := range run(BatchOptions{Part: part, Parts: 3}) {
			if byLine[line] && line != "" {
				t.Errorf("twice: %s", line)
			}
			byLine[line] = true
		}
	}
	for _, line := range whole {
		if !byLine[line] {
			t.Errorf("in no part: %s", line)
		}
	}
	head, tail := run(BatchOptions{})[:500], run(BatchOptions{From: lineNumber(t, whole[500])})
	if got := strings.Join(head, "") + strings.Join(tail, ""); got != strings.Join(whole, "") {
		t.Error("the first answers and those from there on are not the whole")
	}
}

func lineNumber(t *testing.T, answer string) int {
	var r batchReply
	if err := json.Unmarshal([]byte(answer), &r); err != nil {
		t.Fatal(err)
	}
	return r.Line
}

// TestBatchMemoryIsFlat: what a long batch holds does not grow with its length.
func TestBatchMemoryIsFlat(t *testing.T) {
	sheet, err := os.ReadFile("../testdata/demo/ready.json")
	if err != nil {
		t.Fatal(err)
	}
	var compact bytes.Buffer
	if err := json.Compact(&compact, sheet); err != nil {
		t.Fatal(err)
	}
	line := `{"id":"a","operation":"calibrations","request":` + compact.String() + "}\n"
	runtime.GC()
	before := liveHeap() // of the tests before this one
	var highest uint64
	lines := 0
	watch := BatchOptions{Progress: func(tally BatchTally) {
		if tally.Lines > lines+1000 {
			lines = tally.Lines
			highest = max(highest, liveHeap())
		}
	}}
	tally, err := RunBatch(t.Context(), repeated(line, 10_000), io.Discard, watch)
	if err != nil || tally.Lines != 10_000 || tally.Verdicts["ready"] != 10_000 || tally.Problems != 0 {
		t.Fatalf("%+v %v", tally, err)
	}
	if limit := uint64(32 << 20); highest > before+limit {
		t.Errorf("%d bytes live, %d before", highest, before)
	}
}

// liveHeap is what the last collection of garbage found in use.
func liveHeap() uint64 {
	sample := []metrics.Sample{{Name: "/gc/heap/live:bytes"}}
	metrics.Read(sample)
	return sample[0].Value.Uint64()
}

// repeated is a line n times over.
func repeated(line string, n int) io.Reader {
	all := make([]io.Reader, 0, n/100)
	block := strings.Repeat(line, 100)
	for range n / 100 {
		all = append(all, strings.NewReader(block))
	}
	return io.MultiReader(all...)
}

func TestBatchMediaType(t *testing.T) {
	w := call(t, http.MethodPost, "/v1/batch", speedLine)
	if w.Code != http.StatusUnsupportedMediaType || !strings.Contains(w.Body.String(), ndjson) {
		t.Errorf("%d %s", w.Code, w.Body)
	}
}

func BenchmarkBatchGroundSpeed(b *testing.B) { benchmarkBatch(b, speedLine+"\n") }

func BenchmarkBatchSheet(b *testing.B) {
	sheet, err := os.ReadFile("../testdata/demo/ready.json")
	if err != nil {
		b.Fatal(err)
	}
	var compact bytes.Buffer
	if err := json.Compact(&compact, sheet); err != nil {
		b.Fatal(err)
	}
	benchmarkBatch(b, `{"id":"a","operation":"calibrations","request":`+compact.String()+"}\n")
}

func benchmarkBatch(b *testing.B, line string) {
	lines := 0
	for b.Loop() {
		tally, err := RunBatch(b.Context(), repeated(line, 5000), io.Discard, BatchOptions{})
		if err != nil {
			b.Fatal(err)
		}
		lines += tally.Lines
	}
	b.ReportMetric(float64(lines)/b.Elapsed().Seconds(), "lines/s")
}

// TestBatchLineMatchesDocument binds the table of a line to its schema; what the
// request holds is bound by the operation's own.
func TestBatchLineMatchesDocument(t *testing.T) {
	top, schema := wire.TableOf[operation.BatchLine]().Shape(), *schemaNamed(t, "BatchLine")
	last := len(top.Members) - 1
	if ref := schema.Properties["request"]; top.Members[last].Name != "request" || !top.Members[last].Required || !ref.Value.Type.Is("object") {
		t.Fatal("the request of a line")
	}
	top.Members = slices.Clone(top.Members[:last])
	schema.Properties = maps.Clone(schema.Properties)
	delete(schema.Properties, "request")
	// The document lists the operations by name, the decoder as they are routed.
	for i := range top.Members {
		top.Members[i].Shape.Allowed = slices.Sorted(slices.Values(top.Members[i].Shape.Allowed))
	}
	schema.Required = slices.DeleteFunc(slices.Clone(schema.Required), func(name string) bool { return name == "request" })
	compareObject(t, "batch", top, &schema)
}
