package api

import (
	"bufio"
	"bytes"
	"context"
	"errors"
	"io"
	"runtime"
	"strconv"
	"sync"

	"golang.org/x/sync/semaphore"

	"wetrun/internal/text"
)

// How a batch goes through. Lines travel in chunks, so that handing them on costs
// little; a chunk ends early when no further line has arrived, so that a client
// that waits for an answer gets it.
const (
	mostLine   = mostBody
	chunkLines = 64
	chunkBytes = 64 << 10
	lookAhead  = 4 // chunks for each worker: what is read before it is written
)

// BatchOptions is how to run a batch.
type BatchOptions struct {
	// Part of Parts answers each line whose number, counted from 0, leaves Part over
	// Parts; Parts below 2 stands for all lines.
	Part, Parts int
	// From is the number of the first line to answer, from 1.
	From int
	// RequestID stands in every problem.
	RequestID string
	// Progress, when given, is told after each write how far the answers have come.
	Progress func(BatchTally)

	turns *slots // of the server; nil elsewhere
	guest *guest // of the room for its answers
}

// A chunk is some lines on their way through.
type chunk struct {
	in    []byte
	lines []lineSpan
	out   *bytes.Buffer // nil until it is answered
	tally BatchTally
	stay  stay // of out, with the answers that wait for their clients
	done  chan struct{}
}

// An allowance is how many bytes may have been read before they are answered, however
// long the lines are: those of the chunks, and of one more.
type allowance struct {
	*semaphore.Weighted
	most int64
}

// of is what a chunk takes of it.
func (a allowance) of(c *chunk) int64 { return min(int64(len(c.in)), a.most) }

// answerBuffers are for the answers of chunks, of all streams together: a chunk that waits
// for lines holds none. Those of sheets with uncertainty need half of mostPooled.
var answerBuffers = sync.Pool{New: func() any { return new(bytes.Buffer) }}

const mostPooled = 1 << 20

// shed gives the buffer of answers back, and lets go what long lines have needed.
func (c *chunk) shed() {
	if cap(c.in) > 2*chunkBytes {
		c.in = nil
	}
	pool(c.out)
	c.out = nil
}

func pool(b *bytes.Buffer) {
	if b.Reset(); b.Cap() <= mostPooled {
		answerBuffers.Put(b)
	}
}

// A lineSpan is where a line stands in its chunk.
type lineSpan struct {
	number, start, end int
	long               bool // longer than a line may be: it was passed over
}

// RunBatch answers the lines of in on out, in their order, with all cores, holding
// no more than a few chunks at once. A line that cannot be used gets a problem as
// its own answer. When in breaks off, a last problem says how far it came, and the
// error is its cause. An error of out ends the batch.
func RunBatch(ctx context.Context, in io.Reader, out io.Writer, o BatchOptions) (BatchTally, error) {
	workers := runtime.GOMAXPROCS(0)
	ahead := workers * lookAhead
	free, order, work := make(chan *chunk, ahead), make(chan *chunk, ahead), make(chan *chunk, ahead)
	chunks := make([]chunk, ahead)
	for i := range chunks {
		chunks[i].done = make(chan struct{}, 1)
		free <- &chunks[i]
	}
	most := int64(ahead * chunkBytes)
	bytesAhead := allowance{semaphore.NewWeighted(most), most}
	working, stop := context.WithCancel(ctx)
	defer stop()
	var all sync.WaitGroup
	for range workers {
		all.Go(func() {
			for c := range work {
				c.inTurn(working, o)
				c.done <- struct{}{}
			}
		})
	}
	reader := &lineReader{Reader: bufio.NewReaderSize(in, mostLine+2), BatchOptions: o, ahead: bytesAhead}
	broken := make(chan error, 1)
	all.Go(func() {
		defer close(order)
		defer close(work)
		broken <- reader.feed(working, free, order, work)
	})
	tally, err := deliver(ctx, out, o, bytesAhead, free, order)
	stop()
	if ctx.Err() != nil {
		return tally, context.Cause(ctx) // the reader may be waiting for bytes that never come
	}
	all.Wait()
	for i := range chunks {
		o.leave(&chunks[i]) // where the stream ended before
	}
	cause := <-broken
	if err == nil && cause != nil {
		var b bytes.Buffer
		l := lineRunner{ctx, text.From(ctx), o.RequestID, &tally}
		l.refuse(reader.number+1, "", &refusal{kind: brokenStream, args: []any{reader.number + 1}}, &b)
		_, err = out.Write(b.Bytes())
	}
	return tally, errors.Join(err, cause)
}

// deliver writes the answers of chunks in their order.
func deliver(ctx context.Context, out io.Writer, o BatchOptions, ahead allowance, free chan<- *chunk, order <-chan *chunk) (BatchTally, error) {
	var tally BatchTally
	for {
		c, ok := next(ctx, order, o)
		if !ok {
			return tally, context.Cause(ctx)
		}
		if c.out == nil {
			return tally, context.Cause(ctx) // it is to stop, and nobody answered this chunk
		}
		if o.turns != nil {
			o.turns.answers.send(&c.stay)
		}
		if _, err := out.Write(c.out.Bytes()); err != nil {
			return tally, err
		}
		o.leave(c)
		ahead.Release(ahead.of(c))
		tally.add(&c.tally)
		tally.Line = c.lines[len(c.lines)-1].number
		if o.Progress != nil {
			o.Progress(tally)
		}
		c.shed()
		free <- c
	}
}

// next waits for the next chunk and its answers; false when there is none, or when
// the batch is to stop.
func next(ctx context.Context, order <-chan *chunk, o BatchOptions) (*chunk, bool) {
	select {
	case c, ok := <-order:
		if !ok {
			return nil, false
		}
		if o.turns != nil {
			o.turns.answers.call(&c.stay)
		}
		select {
		case <-c.done:
			return c, true
		case <-ctx.Done():
		}
	case <-ctx.Done():
	}
	return nil, false
}

// leave makes the room of a chunk's answers free.
func (o *BatchOptions) leave(c *chunk) {
	if o.turns != nil {
		o.turns.answers.leave(&c.stay)
	}
}

// inTurn answers the lines of a chunk when it is its turn, and none when the batch
// is to stop before.
func (c *chunk) inTurn(ctx context.Context, o BatchOptions) {
	c.tally = BatchTally{}
	if o.turns == nil {
		c.run(ctx, o.RequestID)
		return
	}
	weight := o.turns.weight(c.in)
	if !o.turns.awaitWithRoom(ctx, weight, &c.stay) {
		return
	}
	func() {
		defer o.turns.give(weight)
		c.run(ctx, o.RequestID)
	}()
	if c.fit(); c.out.Cap() > smallAnswer {
		o.turns.answers.hold(&c.stay, c.out.Cap())
	}
}

// fit moves answers out of a buffer that others have made much longer.
func (c *chunk) fit() {
	if c.out.Cap() <= smallAnswer || c.out.Len() > c.out.Cap()/4 {
		return
	}
	long := c.out
	c.out = bytes.NewBuffer(bytes.Clone(long.Bytes()))
	pool(long)
}

// run answers the lines of a chunk.
func (c *chunk) run(ctx context.Context, requestID string) {
	c.out = answerBuffers.Get().(*bytes.Buffer)
	l := lineRunner{ctx, text.From(ctx), requestID, &c.tally}
	for _, s := range c.lines {
		if s.long {
			l.refuse(s.number, "", &refusal{kind: bodyTooLarge, wording: "line_too_long", args: []any{mostLine}}, c.out)
			continue
		}
		l.run(s.number, c.in[s.start:s.end], c.out)
	}
}

// A lineReader cuts a stream into chunks of lines.
type lineReader struct {
	*bufio.Reader
	BatchOptions
	ahead  allowance
	number int // of the last line read
}

// feed hands chunks on until the stream ends; nil when it ended well.
func (r *lineReader) feed(ctx context.Context, free <-chan *chunk, order, work chan<- *chunk) error {
	for {
		var c *chunk
		select {
		case c = <-free:
		case <-ctx.Done():
			return nil
		}
		err := r.fill(c)
		if r.ahead.Acquire(ctx, r.ahead.of(c)) != nil {
			return nil
		}
		if len(c.lines) > 0 {
			c.stay = stay{of: r.guest}
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
		if err != nil || full || len(c.lines) > 0 && !r.waiting() {
			return err
		}
	}
}

// wanted tells whether the last line read is one to answer.
func (r *lineReader) wanted() bool {
	return r.number >= r.From && (r.Parts < 2 || (r.number-1)%r.Parts == r.Part)
}

// waiting tells whether a whole line has arrived already.
func (r *lineReader) waiting() bool {
	b, _ := r.Peek(r.Buffered())
	return bytes.IndexByte(b, '\n') >= 0
}

func appendInt(b []byte, n int) []byte { return strconv.AppendInt(b, int64(n), 10) }
