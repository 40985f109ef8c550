package api

import (
	"bufio"
	"bytes"
	"context"
	"io"
)

// A lineSpan is where a line stands in its chunk.
type lineSpan struct {
	number, start, end int
	long               bool // longer than a line may be: it was passed over
}

// A lineReader cuts a stream into chunks of lines.
type lineReader struct {
	*bufio.Reader
	BatchOptions
	ahead  allowance
	number int // of the last line read
}

// feed hands chunks on until the stream ends; nil when it ended well.
func (r *lineReader) feed(ctx context.Context, idle <-chan *chunk, order, work chan<- *chunk) error {
	for {
		var c *chunk
		select {
		case c = <-idle:
		case <-ctx.Done():
			return nil
		}
		err := r.fill(c)
		if r.ahead.Acquire(ctx, r.ahead.cost(c)) != nil {
			return nil
		}
		if len(c.lines) > 0 {
			c.held = heldAnswer{to: r.recipient}
			order <- c // never blocks: there are no more chunks than places
			work <- c
		}
		switch {
		case err == io.EOF:
			return nil
		case err != nil:
			return err
		}
	}
}

// fill reads lines into c until it is full or no whole line is waiting.
func (r *lineReader) fill(c *chunk) error {
	c.in, c.lines = c.in[:0], c.lines[:0]
	last := false // an answer with working is as long as those of many lines
	for {
		line, err := r.ReadSlice('\n')
		long := false
		for err == bufio.ErrBufferFull {
			long = true
			_, err = r.ReadSlice('\n')
		}
		if err != nil && (err != io.EOF || len(line) == 0) {
			return err
		}
		r.number++
		long = long || len(bytes.TrimRight(line, "\r\n")) > mostLine
		if r.wanted() && (long || len(bytes.TrimSpace(line)) > 0) {
			s := lineSpan{number: r.number, start: len(c.in), long: long}
			if !long {
				c.in = append(c.in, line...)
				last = mayAskForWorking(line)
			}
			s.end = len(c.in)
			c.lines = append(c.lines, s)
		}
		full := last || len(c.lines) >= chunkLines || len(c.in) >= chunkBytes
		if err != nil || full || len(c.lines) > 0 && !r.lineWaiting() {
			return err
		}
	}
}

// wanted tells whether the last line read is one to answer.
func (r *lineReader) wanted() bool {
	return r.number >= r.From && (r.Parts < 2 || (r.number-1)%r.Parts == r.Part)
}

// lineWaiting tells whether a whole line has arrived already.
func (r *lineReader) lineWaiting() bool {
	b, _ := r.Peek(r.Buffered())
	return bytes.IndexByte(b, '\n') >= 0
}
