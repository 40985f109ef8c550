package main

import (
	"fmt"
	"io"
	"maps"
	"os"
	"slices"
	"strings"
	"sync/atomic"
	"time"

	"wetrun/api"
)

// A countingReader knows how far it has been read.
type countingReader struct {
	io.Reader
	n atomic.Int64
}

func (c *countingReader) Read(b []byte) (int, error) {
	n, err := c.Reader.Read(b)
	c.n.Add(int64(n))
	return n, err
}

// progress shows on a terminal how far a batch has come.
type progress struct {
	out     io.Writer
	from    *countingReader
	size    int64 // of all files; not above 0 when it is not known
	started time.Time
	last    time.Time
	shown   bool
}

// progressInterval is how often the line on the terminal changes.
const progressInterval = 300 * time.Millisecond

func (p *progress) show(t api.BatchTally) {
	now := time.Now()
	if !p.shown || now.Sub(p.last) < progressInterval {
		return
	}
	p.last = now
	fmt.Fprintf(p.out, "\r\033[K%s", progressLine(t, now.Sub(p.started), p.from.n.Load(), p.size))
}

// end clears the line, so that what follows begins at the margin.
func (p *progress) end() {
	if p.shown && !p.last.IsZero() {
		fmt.Fprint(p.out, "\r\033[K")
	}
}

func progressLine(t api.BatchTally, passed time.Duration, read, size int64) string {
	line := fmt.Sprintf("%d lines, %.0f a second, %d problems", t.Lines, float64(t.Lines)/max(passed.Seconds(), 1e-3), t.Problems)
	if size > 0 && read > 0 {
		left := time.Duration(float64(passed) * float64(size-read) / float64(read))
		line += fmt.Sprintf(", %d %%, %s left", 100*read/size, left.Round(time.Second))
	}
	return line
}

// summary is the tally of a batch for people.
func summary(t api.BatchTally, passed time.Duration) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%d lines answered in %s, %.0f a second; %d with a problem; the last is line %d\n",
		t.Lines, passed.Round(time.Millisecond), float64(t.Lines)/max(passed.Seconds(), 1e-3), t.Problems, t.Line)
	for _, m := range []struct {
		title  string
		counts map[string]int
	}{{"field sheets by verdict", t.Verdicts}, {"problems by type", t.Kinds}, {"members refused by code", t.Codes}} {
		if len(m.counts) == 0 {
			continue
		}
		fmt.Fprintf(&b, "%s:\n", m.title)
		for _, name := range slices.Sorted(maps.Keys(m.counts)) {
			fmt.Fprintf(&b, "  %8d  %s\n", m.counts[name], name)
		}
	}
	return b.String()
}

func terminal(w io.Writer) bool {
	file, ok := w.(*os.File)
	if !ok {
		return false
	}
	info, err := file.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}
