package main

import (
	"fmt"
	"io"
	"maps"
	"math"
	"os"
	"slices"
	"strconv"
	"strings"
	"sync/atomic"
	"time"

	"wetrun/api"
	"wetrun/internal/text"
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
	lang    text.Language
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
	fmt.Fprintf(p.out, "\r\033[K%s", progressLine(p.lang, t, now.Sub(p.started), p.from.n.Load(), p.size))
}

// end clears the line, so that what follows begins at the margin.
func (p *progress) end() {
	if p.shown && !p.last.IsZero() {
		fmt.Fprint(p.out, "\r\033[K")
	}
}

func progressLine(lang text.Language, t api.BatchTally, passed time.Duration, read, size int64) string {
	line := text.Of(lang, "command.progress", t.Lines, perSecond(t.Lines, passed), t.Problems)
	if size > 0 && read > 0 {
		left := time.Duration(float64(passed) * float64(size-read) / float64(read))
		done := text.Figure{Digits: strconv.FormatInt(100*read/size, 10), Unit: "%"}
		line += " " + text.Of(lang, "command.left", done, left.Round(time.Second).String())
	}
	return line
}

func perSecond(lines int, passed time.Duration) int {
	return int(math.Round(float64(lines) / max(passed.Seconds(), 1e-3)))
}

// summary is the tally of a batch for people. Its times have no decimals, whose sign is
// another in each language.
func summary(lang text.Language, t api.BatchTally, passed time.Duration) string {
	unit := time.Millisecond
	if passed >= time.Second {
		unit = time.Second
	}
	var b strings.Builder
	for _, line := range []string{
		text.Of(lang, "command.lines", t.Lines, passed.Round(unit).String(), perSecond(t.Lines, passed)),
		text.Of(lang, "command.problems", t.Problems),
		text.Of(lang, "command.last", t.Line),
	} {
		fmt.Fprintln(&b, line)
	}
	for _, m := range []struct {
		title  string
		counts map[string]int
	}{{"command.verdicts", t.Verdicts}, {"command.kinds", t.Kinds}, {"command.codes", t.Codes}} {
		if len(m.counts) == 0 {
			continue
		}
		fmt.Fprintln(&b, text.Of(lang, m.title))
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
