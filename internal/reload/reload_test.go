package reload

import (
	"errors"
	"log/slog"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// TestReload changes a file: the new text comes within two seconds, a text that
// cannot be used changes nothing and is logged once, and then a good one comes.
func TestReload(t *testing.T) {
	file := filepath.Join(t.TempDir(), "file")
	write := func(text string) {
		t.Helper()
		if err := os.WriteFile(file+".new", []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		if err := os.Rename(file+".new", file); err != nil {
			t.Fatal(err)
		}
	}
	load := func() (string, error) {
		b, err := os.ReadFile(file)
		if string(b) == "bad" {
			return "", errors.New("the file is bad")
		}
		return string(b), err
	}
	var log strings.Builder
	logger := slog.New(slog.NewTextHandler(&log, nil))
	if _, err := New(logger, load, file); err == nil {
		t.Error("a file that is not there was loaded")
	}
	write("one")
	v, err := New(logger, load, file)
	if err != nil {
		t.Fatal(err)
	}
	becomes := func(want string) {
		t.Helper()
		for until := time.Now().Add(5 * time.Second); v.Get() != want; time.Sleep(20 * time.Millisecond) {
			if time.Now().After(until) {
				t.Fatalf("%q, want %q", v.Get(), want)
			}
		}
	}
	becomes("one")
	write("two") // as long as before: the size tells nothing
	becomes("two")
	write("bad")
	for until := time.Now().Add(2500 * time.Millisecond); time.Now().Before(until); time.Sleep(100 * time.Millisecond) {
		becomes("two")
	}
	if n := strings.Count(log.String(), "the file is bad"); n != 1 {
		t.Errorf("logged %d times: %s", n, log.String())
	}
	write("six")
	becomes("six")
}
