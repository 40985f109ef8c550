package main

import (
	"bytes"
	"encoding/json"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"
)

func refusedBatch(t *testing.T, says string, args ...string) {
	t.Helper()
	var out, errs bytes.Buffer
	if code := run(t.Context(), append([]string{"batch", "-quiet"}, args...), noEnv, strings.NewReader(""), &out, &errs); code != 1 || !strings.Contains(errs.String(), says) {
		t.Errorf("%v: status %d, %s", args, code, errs.String())
	}
}

func content(t *testing.T, name string) string {
	t.Helper()
	b, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

// TestBatchKeepsItsInput: no file is read and written at once, by whatever name.
func TestBatchKeepsItsInput(t *testing.T) {
	file := fleet(t, 10)
	before, folder := content(t, file), t.TempDir()
	link, other := filepath.Join(folder, "link"), filepath.Join(folder, "new")
	if err := os.Symlink(file, link); err != nil {
		t.Fatal(err)
	}
	refusedBatch(t, "same file", "-out", file, file)
	refusedBatch(t, "same file", "-out", link, file)
	refusedBatch(t, "same file", "-from", "3", "-out", link, file)
	refusedBatch(t, "same file", "-summary", link, file)
	refusedBatch(t, "same file", "-summary", other, "-out", other, file)
	stdin, err := os.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	defer stdin.Close()
	var out, errs bytes.Buffer
	if code := run(t.Context(), []string{"batch", "-out", file}, noEnv, stdin, &out, &errs); code != 1 {
		t.Errorf("standard input: status %d", code)
	}
	if content(t, file) != before {
		t.Error("the input was changed")
	}
}

// TestBatchSummaryFirst: a summary that cannot be written is told before the work,
// and before old answers are emptied.
func TestBatchSummaryFirst(t *testing.T) {
	file, target := fleet(t, 10), filepath.Join(t.TempDir(), "answers.ndjson")
	if err := os.WriteFile(target, []byte("old\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	refusedBatch(t, "no/such", "-out", target, "-summary", "no/such/summary", file)
	if content(t, target) != "old\n" {
		t.Error("the answers were touched")
	}
	runBatch(t, nil, "-quiet", "-out", target, file)
	if n := strings.Count(content(t, target), "\n"); n != 10 {
		t.Errorf("%d answers", n)
	}
}

// TestBatchGoesOnWhereItStopped: -from that would leave a gap, or answer twice, is
// refused with the right number, and nothing is lost by it.
func TestBatchGoesOnWhereItStopped(t *testing.T) {
	file, target := fleet(t, 100), filepath.Join(t.TempDir(), "answers.ndjson")
	for _, c := range []struct {
		part              string
		kept              int // answers
		twice, gap, right []string
	}{
		{"1/1", 40, []string{"1", "40"}, []string{"42", "90"}, []string{"41"}},
		// Part 2 of 5 has lines 2, 7, 12, 17: after three answers the next is 17.
		{"2/5", 3, []string{"1", "12"}, []string{"18"}, []string{"13", "17"}},
	} {
		whole, _ := runBatch(t, nil, "-quiet", "-part", c.part, file)
		lines := slices.Collect(strings.Lines(whole))
		kept := strings.Join(lines[:c.kept], "")
		broken := kept + `{"line":99,"status":400,"problem":{"type":"/problems/broken_stream"}}` + "\n" + lines[c.kept][:20]
		write := func() {
			if err := os.WriteFile(target, []byte(broken), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		write()
		for _, from := range slices.Concat(c.twice, c.gap) {
			refusedBatch(t, "go on with -from "+c.right[0], "-part", c.part, "-from", from, "-out", target, file)
		}
		if content(t, target) != broken {
			t.Error("the answers were touched")
		}
		for _, from := range c.right {
			write()
			runBatch(t, nil, "-quiet", "-part", c.part, "-from", from, "-out", target, file)
			if content(t, target) != whole {
				t.Errorf("part %s from %s: not the whole", c.part, from)
			}
		}
	}
	refusedBatch(t, "not of part 3/5", "-part", "3/5", "-from", "98", "-out", target, file)
	refusedBatch(t, "does not end with an answer", "-from", "2", "-out", file, os.DevNull)
}

// TestBatchStrict: problems are answers, unless -strict asks for a status.
func TestBatchStrict(t *testing.T) {
	file := fleet(t, 100)
	runBatch(t, nil, "-quiet", file)
	refusedBatch(t, "problems in 9 of 100 lines", "-strict", file)
	good := strings.SplitAfter(content(t, file), "\n")[0]
	runBatch(t, strings.NewReader(good), "-quiet", "-strict")
}

// TestBatchHasTheServersTimes: the settings bound a line of a stream.
func TestBatchHasTheServersTimes(t *testing.T) {
	addr, _, _ := serving(t, nil, "-read-timeout", "300ms")
	from, to := io.Pipe()
	defer to.Close()
	started := time.Now()
	resp, err := http.Post("http://"+addr+"/v1/batch", "application/x-ndjson", from)
	if err != nil {
		t.Fatal(err)
	}
	defer resp.Body.Close()
	answer, err := io.ReadAll(resp.Body)
	if took := time.Since(started); err != nil || !strings.Contains(string(answer), "broken_stream") || took > 5*time.Second {
		t.Errorf("%v after %v: %s", err, took, answer)
	}
}

// TestBatchSummaryHasNoNulls: what was not counted is empty, for a batch of nothing too.
func TestBatchSummaryHasNoNulls(t *testing.T) {
	report := filepath.Join(t.TempDir(), "summary.json")
	for lines, want := range map[string]string{
		"":                        `{"line":0,"lines":0,"problems":0,"verdicts":{},"kinds":{},"codes":{}}`,
		`{"operation":"no-such"}`: `{"line":1,"lines":1,"problems":1,"verdicts":{},"kinds":{"invalid_line":1},"codes":{"not_allowed":1,"required":2}}`, // of operation, id and request
		pipedLine:                 `{"line":1,"lines":1,"problems":0,"verdicts":{},"kinds":{},"codes":{}}`,
	} {
		runBatch(t, strings.NewReader(lines), "-quiet", "-summary", report)
		var compact bytes.Buffer
		if err := json.Compact(&compact, []byte(content(t, report))); err != nil || compact.String() != want {
			t.Errorf("%q: %s, want %s, %v", lines, compact.String(), want, err)
		}
	}
}
