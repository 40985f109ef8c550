package api

import (
	"bufio"
	"bytes"
	"context"
	"errors"
	"io"
	"runtime"
	"sync"

	"golang.org/x/sync/semaphore"

	"wetrun/api/operation"
	"wetrun/api/wire"
	"wetrun/internal/telemetry"
)

// How a batch goes through. Lines travel in chunks, so that handing them on costs
// little; a chunk ends early when no further line has arrived, so that a client
// that waits for an answer gets it.
const (
	mostLine   = operation.MostBody
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

	// Of the server; nil on the command line.
	turns     *turns
	recipient *recipient
	telemetry *telemetry.Telemetry
}

// RunBatch answers the lines of in on out, in their order, with all cores, holding
// no more than a few chunks at once. A line that cannot be used gets a problem as
// its own answer. When in breaks off, a last problem says how far it came, and the
// error is its cause. An error of out ends the batch.
func RunBatch(ctx context.Context, in io.Reader, out io.Writer, o BatchOptions) (BatchTally, error) {
	workers := runtime.GOMAXPROCS(0)
	ahead := workers * lookAhead
	idle, order, work := make(chan *chunk, ahead), make(chan *chunk, ahead), make(chan *chunk, ahead)
	chunks := make([]chunk, ahead)
	for i := range chunks {
		chunks[i].done = make(chan struct{}, 1)
		idle <- &chunks[i]
	}
	most := int64(ahead * chunkBytes)
	bytesAhead := allowance{semaphore.NewWeighted(most), most}
	workContext, stop := context.WithCancel(ctx)
	defer stop()
	var running sync.WaitGroup
	for range workers {
		running.Go(func() {
			for c := range work {
				c.answerInTurn(workContext, o)
				c.done <- struct{}{}
			}
		})
	}
	reader := &lineReader{Reader: bufio.NewReaderSize(in, mostLine+2), BatchOptions: o, ahead: bytesAhead}
	readError := make(chan error, 1)
	running.Go(func() {
		defer close(order)
		defer close(work)
		readError <- reader.feed(workContext, idle, order, work)
	})
	tally, err := deliver(ctx, out, o, bytesAhead, idle, order)
	stop()
	if ctx.Err() != nil {
		return tally, context.Cause(ctx) // the reader may be waiting for bytes that never come
	}
	running.Wait()
	for i := range chunks {
		o.release(&chunks[i]) // where the stream ended before
	}
	cause := <-readError
	if err == nil && cause != nil {
		var b bytes.Buffer
		line := operation.Line{Number: reader.number + 1, RequestID: o.RequestID}
		r := &wire.Refusal{Kind: wire.BrokenStream, Args: []any{line.Number}}
		line.Refuse(ctx, r, &b)
		tally.count(operation.Outcome{Refusal: r})
		_, err = out.Write(b.Bytes())
	}
	return tally, errors.Join(err, cause)
}

// deliver writes the answers of chunks in their order.
func deliver(ctx context.Context, out io.Writer, o BatchOptions, ahead allowance, idle chan<- *chunk, order <-chan *chunk) (BatchTally, error) {
	var tally BatchTally
	for {
		c, ok := next(ctx, order, o)
		if !ok || c.out == nil { // it is to stop, and nobody answered this chunk
			return tally, context.Cause(ctx)
		}
		if o.turns != nil {
			o.turns.answers.send(&c.held)
		}
		if _, err := out.Write(c.out.Bytes()); err != nil {
			return tally, err
		}
		o.release(c)
		ahead.Release(ahead.cost(c))
		tally.add(&c.tally)
		tally.Line = c.lines[len(c.lines)-1].number
		if o.Progress != nil {
			o.Progress(tally)
		}
		c.releaseBuffers()
		idle <- c
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
			o.turns.answers.markNext(&c.held)
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

// release frees the memory of a chunk's answers.
func (o *BatchOptions) release(c *chunk) {
	if o.turns != nil {
		o.turns.answers.release(&c.held)
	}
}
