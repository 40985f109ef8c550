package api

import (
	"encoding/json"
	"net/http"
	"strings"
	"testing"

	"wetrun/api/operation"
)

// FuzzBatch sends any bytes as a batch: each line that is not empty has an answer,
// in order, and the one that its operation alone would give.
func FuzzBatch(f *testing.F) {
	for _, seed := range []string{
		"", "\n\n", speedLine, speedLine + "\r\n" + speedLine, speedLine + "\n{\n" + speedLine, "[]", `{"id":"a"}` + "\n" + `{"id":"é","operation":"convert","request":{}}`,
		`{"id":"a","operation":"batch","request":{}}`, strings.Repeat("{", 10_001), " \t \n\x00\n", `{"id":"\ud800","operation":"convert","request":{"a":1}}`,
	} {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, body []byte) {
		w := call(t, http.MethodPost, "/v1/batch", string(body), "Content-Type", ndjson, "X-Request-Id", "same")
		sound(t, w, "", string(body), 200)
		var wanted []int
		lines := strings.Split(string(body), "\n")
		for i, line := range lines {
			if strings.TrimSpace(line) != "" {
				wanted = append(wanted, i+1)
			}
		}
		answers := strings.SplitAfter(w.Body.String(), "\n")
		if answers = answers[:len(answers)-1]; len(answers) != len(wanted) {
			t.Fatalf("%d answers to %d lines: %s", len(answers), len(wanted), w.Body)
		}
		for i, answer := range answers {
			if err := validates("BatchAnswer", []byte(answer)); err != nil {
				t.Errorf("%s: %v", answer, err)
			}
			var r batchReply
			if err := json.Unmarshal([]byte(answer), &r); err != nil || r.Line != wanted[i] {
				t.Fatalf("line %d: %v %s", wanted[i], err, answer)
			}
			if r.Status != http.StatusOK {
				continue
			}
			var line operation.BatchLine
			if err := json.Unmarshal([]byte(lines[r.Line-1]), &line); err != nil {
				t.Fatal(err)
			}
			alone := call(t, http.MethodPost, "/v1/"+string(line.Operation), string(line.Request), "X-Request-Id", "same")
			if alone.Code != http.StatusOK || alone.Body.String() != string(r.Response) {
				t.Errorf("line %d: %s\nalone %d %s", r.Line, r.Response, alone.Code, alone.Body)
			}
		}
	})
}
