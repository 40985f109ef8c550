package api

import (
	"bufio"
	"bytes"
	"io"
	"strings"
	"testing"
)

// TestLinesWithWorkingEndTheirChunk: what is sent at once has one answer with working, or
// one that might have it, and many without; escapes of other letters change nothing.
func TestLinesWithWorkingEndTheirChunk(t *testing.T) {
	const plain, spanish = `{"label":"a"}` + "\n", `{"label":"Ca\u00f1ada"}` + "\n"
	const working, escaped = `{"showWorking":true}` + "\n", `{"show\u0057orking":true}` + "\n"
	r := &lineReader{Reader: bufio.NewReaderSize(strings.NewReader(plain+spanish+working+escaped+plain+strings.Repeat(spanish, chunkLines)), mostLine+2)}
	for i, want := range []int{3, 1, chunkLines, 1} {
		var c chunk
		if err := r.fill(&c); err != nil && err != io.EOF || len(c.lines) != want {
			t.Errorf("chunk %d has %d lines, want %d: %v", i+1, len(c.lines), want, err)
		}
	}
}

// TestShortAnswersInALongBuffer: a few bytes take no room from long answers.
func TestShortAnswersInALongBuffer(t *testing.T) {
	c := chunk{out: bytes.NewBuffer(make([]byte, 0, mostPooled))}
	c.out.WriteString("short")
	if c.shrink(); c.out.String() != "short" || c.out.Cap() > smallAnswer {
		t.Errorf("%q in %d bytes", c.out, c.out.Cap())
	}
	long := bytes.Repeat([]byte("long"), mostPooled/8)
	c = chunk{out: bytes.NewBuffer(append(make([]byte, 0, mostPooled), long...))}
	before := c.out
	if c.shrink(); c.out != before || !bytes.Equal(c.out.Bytes(), long) {
		t.Error("a buffer that is half full is copied")
	}
}
