package main

import (
	"log/slog"
	"strings"
	"testing"
	"time"
)

// TestLinesOfRequestsAreGathered: they come together and in order, within a moment;
// what is worse than information, and what others log, does not wait.
func TestLinesOfRequestsAreGathered(t *testing.T) {
	written := new(safeBuffer)
	c := &config{logFormat: "json"}
	lines := &logBuffer{to: written}
	requests, others := c.requestLogger(lines), c.logger(unbuffered{lines})
	said := func() (messages string) {
		for line := range strings.Lines(written.String()) {
			_, rest, _ := strings.Cut(line, `"msg":"`)
			message, _, _ := strings.Cut(rest, `"`)
			messages += message
		}
		return messages
	}
	requests.Info("a")
	requests.Info("b")
	if got := said(); got != "" {
		t.Errorf("%q was written already", got)
	}
	requests.Warn("c")
	if got := said(); got != "abc" {
		t.Errorf("after a warning %q is written, want abc", got)
	}
	requests.Info("d")
	others.Info("e")
	if got := said(); got != "abcde" {
		t.Errorf("after what another logs %q is written, want abcde", got)
	}
	requests.With("x", 1).WithGroup("y").Info("f")
	if got := said(); got != "abcde" {
		t.Errorf("%q was written already", got)
	}
	for end := time.Now().Add(10 * time.Second); said() != "abcdef"; time.Sleep(logDelay / 10) {
		if time.Now().After(end) {
			t.Fatalf("at last %q is written, want abcdef", said())
		}
	}
	requests.Info("g", slog.String("long", strings.Repeat("x", logBufferSize)))
	if got := said(); got != "abcdefg" {
		t.Errorf("with the room full %q is written, want abcdefg", got)
	}
}
