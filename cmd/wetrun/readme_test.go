package main

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"
)

const (
	frontPage     = "../../README.md"
	clientsPage   = "../../openapi/README.md"
	operatorsPage = "deploy/README.md"
)

func pageText(t *testing.T, file string) string {
	t.Helper()
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// TestReadmeListsSettings: the table has every flag with its default, and no other.
func TestReadmeListsSettings(t *testing.T) {
	stated := map[string]string{}
	for _, row := range regexp.MustCompile("(?m)^\\| `-([a-z-]+)` \\| (.*?) \\|").FindAllStringSubmatch(pageText(t, operatorsPage), -1) {
		stated[row[1]] = strings.Trim(row[2], "`")
	}
	_, flags := newConfig()
	flags.VisitAll(func(f *flag.Flag) {
		s, ok := stated[f.Name]
		delete(stated, f.Name)
		if d, err := time.ParseDuration(s); err == nil && s != f.DefValue {
			s = d.String()
		}
		if !ok || s != f.DefValue && !(s == "none" && f.DefValue == "") {
			t.Errorf("-%s: the default is %q, the page says %q", f.Name, f.DefValue, s)
		}
	})
	for name := range stated {
		t.Errorf("-%s is no setting", name)
	}
}

// TestReadmeCommands runs what the pages show of the commands that end by themselves, in
// a folder that has the test data as a clone has them.
func TestReadmeCommands(t *testing.T) {
	shown := regexp.MustCompile(`(?m)^go run ./cmd/wetrun ((?:calibrate|batch|key|version).*)$`)
	var calls []string
	for _, file := range []string{frontPage, clientsPage, operatorsPage} {
		for _, m := range shown.FindAllStringSubmatch(pageText(t, file), -1) {
			calls = append(calls, m[1])
		}
	}
	if len(calls) < 6 {
		t.Fatalf("only %q", calls)
	}
	data, err := filepath.Abs("../../testdata")
	if err != nil {
		t.Fatal(err)
	}
	t.Chdir(t.TempDir())
	if err := os.Symlink(data, "testdata"); err != nil {
		t.Fatal(err)
	}
	for _, call := range calls {
		var out, errs bytes.Buffer
		if code := run(t.Context(), strings.Fields(call), noEnv, strings.NewReader(""), &out, &errs); code != 0 {
			t.Errorf("wetrun %s: status %d, %s", call, code, errs.String())
		}
	}
}

// TestReadmeShowsLines: each line of the summary that the front page shows is one of it,
// in this order.
func TestReadmeShowsLines(t *testing.T) {
	m := regexp.MustCompile("(?s)```text\n(NOT READY.*?)```").FindStringSubmatch(pageText(t, frontPage))
	if m == nil {
		t.Fatal("no summary is shown")
	}
	var out, errs bytes.Buffer
	if code := run(t.Context(), []string{"calibrate", "-text", "../../testdata/demo/boom-to-repair.json"}, noEnv, nil, &out, &errs); code != 0 {
		t.Fatal(code, errs.String())
	}
	lines := strings.Split(out.String(), "\n")
	for line := range strings.Lines(m[1]) {
		at := slices.Index(lines, strings.TrimSuffix(line, "\n"))
		if at < 0 {
			t.Fatalf("%q does not stand there, or not in this order", line)
		}
		lines = lines[at+1:]
	}
}
