package api

import (
	"bytes"
	"io"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"

	"wetrun/api/operation"
	"wetrun/api/wire"
	"wetrun/internal/telemetry"
)

// TestBatchTakesTurns: with a single turn, several batches and single requests
// beside them all come through, and no turn is lost.
func TestBatchTakesTurns(t *testing.T) {
	s := serverWith(t, Options{Limits: Limits{Concurrent: 1}})
	line := `{"id":"a","operation":"ground-speed","request":` + oneRun + "}\n"
	for range 3 {
		resp, err := http.Post(s.URL+"/v1/batch", ndjson, strings.NewReader(strings.Repeat(line, 500)))
		if err != nil {
			t.Fatal(err)
		}
		answer, err := io.ReadAll(resp.Body)
		resp.Body.Close()
		if n := bytes.Count(answer, []byte(`"status":200`)); err != nil || n != 500 {
			t.Errorf("%d of 500 lines answered, %v", n, err)
		}
		single, err := http.Post(s.URL+"/v1/ground-speed", "application/json", strings.NewReader(oneRun))
		if err != nil {
			t.Fatal(err)
		}
		single.Body.Close()
		if single.StatusCode != http.StatusOK {
			t.Errorf("a request after the batch: %s", single.Status)
		}
	}
}

// TestTooManyBatches: a batch beyond the bound is refused before it begins, and one
// that has ended makes room.
func TestTooManyBatches(t *testing.T) {
	turns := newTurns(Limits{Concurrent: 1})
	serve := func() (*httptest.ResponseRecorder, error) {
		w, req := httptest.NewRecorder(), httptest.NewRequest(http.MethodPost, "/v1/batch", strings.NewReader(""))
		req.Header.Set("Content-Type", ndjson)
		return w, serveBatch(turns, Limits{}, telemetry.LogOnly(testLog(t.Output())), w, req)
	}
	if !turns.openBatch() {
		t.Fatal("no room for the first")
	}
	w, err := serve()
	if r, ok := err.(*wire.Refusal); !ok || r.Kind != wire.Overloaded || w.Header().Get("Retry-After") == "" || w.Body.Len() > 0 {
		t.Errorf("%v %v", err, w.Header())
	}
	turns.closeBatch()
	for range 2 {
		if w, err := serve(); err != nil || w.Code != http.StatusOK {
			t.Errorf("with room: %d %v", w.Code, err)
		}
	}
}

// TestFaultOfALine: a fault of ours on one line is the problem of that line, its
// cause is in the log only, and what was written before stays.
func TestFaultOfALine(t *testing.T) {
	var log strings.Builder
	out := bytes.NewBufferString("before\n")
	c := chunk{out: out}
	line := operation.Line{Number: 3, RequestID: "batch-7"}
	c.answerLine(t.Context(), telemetry.LogOnly(testLog(&log)), &line, func() operation.Outcome {
		line.Answer(t.Context(), []byte(`{"id":"b","operation":"ground-speed","request":`+oneRun+`}`), out)
		out.WriteString(`{"line":3,"half":`)
		panic("secret cause")
	})
	answer, _ := strings.CutPrefix(out.String(), "before\n")
	if !strings.Contains(answer, `{"line":3,"id":"b","status":500,"problem":{"type":"/problems/internal_error"`) || strings.Count(out.String(), "\n") != 2 {
		t.Errorf("%q", out.String())
	}
	if strings.Contains(answer, "secret") || !strings.Contains(log.String(), "secret cause") || !strings.Contains(log.String(), "batch-7") || c.tally.Problems != 1 {
		t.Errorf("answer %s\nlog %s", answer, log.String())
	}
}
