package main

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"

	"wetrun/api"
	"wetrun/internal/text"
)

// fleet writes a file of n invented lines: speeds, each tenth without its runs, and
// one field sheet at the end.
func fleet(t *testing.T, n int) string {
	t.Helper()
	sheet, err := os.ReadFile("../../testdata/demo/boom-to-repair.json")
	if err != nil {
		t.Fatal(err)
	}
	var compact, b bytes.Buffer
	if err := json.Compact(&compact, sheet); err != nil {
		t.Fatal(err)
	}
	for i := range n - 1 {
		request := fmt.Sprintf(`{"runs":[{"courseLength":{"value":100,"unit":"ft"},"time":{"value":%d,"unit":"s"}}]}`, 20+i%10)
		if i%10 == 9 {
			request = `{"runTolerance":{"value":5,"unit":"%"}}`
		}
		fmt.Fprintf(&b, `{"id":"s%d","operation":"ground-speed","request":%s}`+"\n", i, request)
	}
	fmt.Fprintf(&b, `{"id":"sheet","operation":"calibrations","request":%s}`, compact.String())
	name := filepath.Join(t.TempDir(), "fleet.ndjson")
	if err := os.WriteFile(name, b.Bytes(), 0o644); err != nil {
		t.Fatal(err)
	}
	return name
}

func runBatch(t *testing.T, in io.Reader, args ...string) (out, errs string) {
	t.Helper()
	var o, e bytes.Buffer
	if code := run(t.Context(), append([]string{"batch"}, args...), noEnv, in, &o, &e); code != 0 {
		t.Fatalf("%v: %d %s", args, code, e.String())
	}
	return o.String(), e.String()
}

// TestBatchInSpanish: every line of a batch is worded in the language of -lang, and
// answers the same.
func TestBatchInSpanish(t *testing.T) {
	const lines = `{"id":"a","operation":"ground-speed","request":{"runs":[{"courseLength":{"value":100,"unit":"ft"},"time":{"value":22.5,"unit":"s"}}]}}` + "\n" + `{"id":"b","operation":"ground-speed","request":{}}`
	english, _ := runBatch(t, strings.NewReader(lines))
	spanish, _ := runBatch(t, strings.NewReader(lines), "-lang", "es")
	for _, words := range []string{"Falta este dato", "Un solo recorrido", `"single_run"`, `"required"`} {
		if !strings.Contains(spanish, words) || strings.Contains(words, " ") && strings.Contains(english, words) {
			t.Errorf("%q in\n%s\n%s", words, spanish, english)
		}
	}
}

func TestBatchFile(t *testing.T) {
	file := fleet(t, 1000)
	report := filepath.Join(t.TempDir(), "summary.json")
	out, errs := runBatch(t, nil, "-summary", report, file)
	if n := strings.Count(out, "\n"); n != 1000 {
		t.Errorf("%d answers", n)
	}
	for _, want := range []string{"Lines answered: 1,000 in", "With a problem: 99\nLast line: 1,000\n", "1  not_ready", "99  invalid_request", "99  required"} {
		if !strings.Contains(errs, want) {
			t.Errorf("no %q in %s", want, errs)
		}
	}
	b, err := os.ReadFile(report)
	if err != nil {
		t.Fatal(err)
	}
	var tally api.BatchTally
	if err := json.Unmarshal(b, &tally); err != nil || tally.Lines != 1000 || tally.Problems != 99 || tally.Line != 1000 || tally.Codes["required"] != 99 {
		t.Errorf("%s %v", b, err)
	}
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	piped, _ := runBatch(t, bytes.NewReader(text), "-quiet")
	if piped != out {
		t.Error("standard input has other answers than the file")
	}
	// Two files are one stream; the first does not end its last line.
	both, _ := runBatch(t, nil, "-quiet", file, file)
	if strings.Count(both, "\n") != 2000 || !strings.HasPrefix(both, out) {
		t.Error("two files are not one after the other")
	}
}

// TestBatchOfStandardInputAmongFiles: wherever - stands, every input is answered whole
// and in its place, whether it ends its last line or not.
func TestBatchOfStandardInputAmongFiles(t *testing.T) {
	file := fleet(t, 3)
	fromFile, _ := runBatch(t, nil, "-quiet", file)
	for _, in := range []string{pipedLine, pipedLine + "\n", ""} {
		fromPipe := 0
		if in != "" {
			fromPipe = 1
		}
		for place, args := range [][]string{{"-", file, file}, {file, "-", file}, {file, file, "-"}} {
			out, _ := runBatch(t, strings.NewReader(in), append([]string{"-quiet"}, args...)...)
			if n := strings.Count(out, "\n"); n != 2*strings.Count(fromFile, "\n")+fromPipe {
				t.Errorf("%q with %q: %d answers", args, in, n)
			}
			answers := slices.Collect(strings.Lines(out))
			if in != "" && !strings.Contains(answers[3*place], `"id":"piped"`) {
				t.Errorf("%q with %q: standard input is not in its place:\n%s", args, in, out)
			}
		}
	}
}

const pipedLine = `{"id":"piped","operation":"ground-speed","request":{"runs":[{"courseLength":{"value":100,"unit":"ft"},"time":{"value":22.5,"unit":"s"}}]}}`

// TestBatchWhoseOutputFails ends at once, though its input goes on without an end.
func TestBatchWhoseOutputFails(t *testing.T) {
	in, more := io.Pipe()
	defer more.Close()
	go func() { _, _ = io.WriteString(more, pipedLine+"\n") }()
	ended := make(chan int)
	var errs bytes.Buffer
	go func() { ended <- run(t.Context(), []string{"batch", "-quiet"}, noEnv, in, fullDisk{}, &errs) }()
	select {
	case code := <-ended:
		if code != 1 || !strings.Contains(errs.String(), "no space left") || !strings.Contains(errs.String(), "-from 1") {
			t.Errorf("status %d, %s", code, errs.String())
		}
	case <-time.After(5 * time.Second):
		t.Fatal("it still waits for its input")
	}
}

type fullDisk struct{}

func (fullDisk) Write([]byte) (int, error) { return 0, syscall.ENOSPC }

// TestBatchPartsOfAFleet: the parts of a file, put together, are the whole.
func TestBatchPartsOfAFleet(t *testing.T) {
	file := fleet(t, 1000)
	whole, _ := runBatch(t, nil, "-quiet", file)
	var parts []string
	for i := 1; i <= 7; i++ {
		out, _ := runBatch(t, nil, "-quiet", "-part", strconv.Itoa(i)+"/7", file)
		parts = append(parts, slices.Collect(strings.Lines(out))...)
	}
	slices.SortFunc(parts, func(a, b string) int { return lineOf(t, a) - lineOf(t, b) })
	if strings.Join(parts, "") != whole {
		t.Error("the parts are not the whole")
	}
}

// TestBatchOfAnIndexedJob: the pods of a job, which know their number from the
// environment alone, answer the same lines as -part; -part wins.
func TestBatchOfAnIndexedJob(t *testing.T) {
	file := fleet(t, 100)
	job := func(index, parts string, args ...string) (int, string) {
		env := map[string]string{"JOB_COMPLETION_INDEX": index, "WETRUN_BATCH_PARTS": parts}
		var out, errs bytes.Buffer
		code := run(t.Context(), append(append([]string{"batch", "-quiet"}, args...), file), func(name string) string { return env[name] }, nil, &out, &errs)
		return code, out.String()
	}
	for i := range 7 {
		want, _ := runBatch(t, nil, "-quiet", "-part", strconv.Itoa(i+1)+"/7", file)
		if code, got := job(strconv.Itoa(i), "7"); code != 0 || got != want {
			t.Errorf("pod %d: status %d, other lines than part %d", i, code, i+1)
		}
		if code, got := job("3", "9", "-part", strconv.Itoa(i+1)+"/7"); code != 0 || got != want {
			t.Errorf("part %d is not that of -part: status %d", i+1, code)
		}
	}
	if code, got := job("5", ""); code != 0 || strings.Count(got, "\n") != 100 {
		t.Errorf("without a number of parts: status %d, %d lines", code, strings.Count(got, "\n"))
	}
	for _, wrong := range [][2]string{{"7", "7"}, {"-1", "7"}, {"", "7"}, {"0", "0"}, {"0", "many"}} {
		if code, _ := job(wrong[0], wrong[1]); code != 2 {
			t.Errorf("index %q of %q: status %d", wrong[0], wrong[1], code)
		}
	}
}

func lineOf(t *testing.T, answer string) int {
	var a struct{ Line int }
	if err := json.Unmarshal([]byte(answer), &a); err != nil {
		t.Fatal(err)
	}
	return a.Line
}

// TestBatchGoesOn: broken off in the middle of an answer, and gone on with.
func TestBatchGoesOn(t *testing.T) {
	file, target := fleet(t, 1000), filepath.Join(t.TempDir(), "answers.ndjson")
	whole, _ := runBatch(t, nil, "-quiet", file)
	lines := slices.Collect(strings.Lines(whole))
	broken := strings.Join(lines[:400], "") + lines[400][:20]
	if err := os.WriteFile(target, []byte(broken), 0o644); err != nil {
		t.Fatal(err)
	}
	runBatch(t, nil, "-quiet", "-from", "401", "-out", target, file)
	got, err := os.ReadFile(target)
	if err != nil || string(got) != whole {
		t.Errorf("what was gone on with is not the whole: %v", err)
	}
}

// TestBatchInterrupted: what stops a batch is told how to go on.
func TestBatchInterrupted(t *testing.T) {
	ctx, stop := context.WithCancel(t.Context())
	in, feed := io.Pipe()
	go func() {
		_, _ = io.WriteString(feed, `{"id":"a","operation":"convert","request":{"quantity":{"value":1,"unit":"ha"},"to":"acre"}}`+"\n")
		time.Sleep(50 * time.Millisecond)
		stop()
	}()
	var out, errs bytes.Buffer
	if code := run(ctx, []string{"batch"}, noEnv, in, &out, &errs); code != 1 || !strings.Contains(errs.String(), "go on with -from 2: interrupted\n") || strings.Count(out.String(), "\n") != 1 {
		t.Errorf("%d %s%s", code, out.String(), errs.String())
	}
}

func TestBatchCallsThatFail(t *testing.T) {
	for _, args := range [][]string{{"-part", "0/3"}, {"-part", "4/3"}, {"-part", "half"}, {"-from", "0"}, {"-lines"}} {
		var out, errs bytes.Buffer
		if code := run(t.Context(), append([]string{"batch"}, args...), noEnv, strings.NewReader(""), &out, &errs); code != 2 || errs.Len() == 0 {
			t.Errorf("%v: %d %s", args, code, errs.String())
		}
	}
	var out, errs bytes.Buffer
	if code := run(t.Context(), []string{"batch", "no/such/file"}, noEnv, nil, &out, &errs); code != 1 {
		t.Errorf("%d %s", code, errs.String())
	}
}

func TestProgressLine(t *testing.T) {
	line := progressLine(text.English, api.BatchTally{Lines: 500, Problems: 3}, 2*time.Second, 250, 1000)
	if line != "Lines: 500 (250 per second). With a problem: 3. Done: 25%. Left: 6s." {
		t.Error(line)
	}
	if line := progressLine(text.English, api.BatchTally{Lines: 500}, 2*time.Second, 250, -1); strings.Contains(line, "Left") {
		t.Error(line)
	}
}
