package api

import (
	"bytes"
	"context"
	"sync"

	"golang.org/x/sync/semaphore"

	"wetrun/api/operation"
	"wetrun/api/wire"
	"wetrun/internal/telemetry"
)

// A chunk is some lines on their way through.
type chunk struct {
	in    []byte
	lines []lineSpan
	out   *bytes.Buffer // nil until it is answered
	tally BatchTally
	held  heldAnswer // of out, with the answers that wait for their clients
	done  chan struct{}
}

// An allowance is how many bytes may have been read before they are answered, however
// long the lines are: those of the chunks, and of one more.
type allowance struct {
	*semaphore.Weighted
	most int64
}

// cost is what a chunk takes of it.
func (a allowance) cost(c *chunk) int64 { return min(int64(len(c.in)), a.most) }

// answerBuffers are for the answers of chunks, of all streams together: a chunk that waits
// for lines holds none. Those of sheets with uncertainty need half of mostPooled.
var answerBuffers = sync.Pool{New: func() any { return new(bytes.Buffer) }}

const mostPooled = 1 << 20

// releaseBuffers gives the buffer of answers back, and lets go what long lines have needed.
func (c *chunk) releaseBuffers() {
	if cap(c.in) > 2*chunkBytes {
		c.in = nil
	}
	putBack(c.out)
	c.out = nil
}

func putBack(b *bytes.Buffer) {
	if b.Reset(); b.Cap() <= mostPooled {
		answerBuffers.Put(b)
	}
}

// answerInTurn answers the lines of a chunk when it is its turn, and none when the batch
// is to stop before.
func (c *chunk) answerInTurn(ctx context.Context, o BatchOptions) {
	c.tally = BatchTally{}
	if o.turns == nil {
		c.answerLines(ctx, o)
		return
	}
	weight := o.turns.weight(c.in)
	if !o.turns.awaitWithSpace(ctx, weight, &c.held) {
		return
	}
	func() {
		defer o.turns.give(weight)
		c.answerLines(ctx, o)
	}()
	if c.shrink(); c.out.Cap() > smallAnswer {
		o.turns.answers.hold(&c.held, c.out.Cap())
	}
}

// shrink moves answers out of a buffer that others have made much longer.
func (c *chunk) shrink() {
	if c.out.Cap() <= smallAnswer || c.out.Len() > c.out.Cap()/4 {
		return
	}
	long := c.out
	c.out = bytes.NewBuffer(bytes.Clone(long.Bytes()))
	putBack(long)
}

// answerLines answers the lines of a chunk.
func (c *chunk) answerLines(ctx context.Context, o BatchOptions) {
	c.out = answerBuffers.Get().(*bytes.Buffer)
	for _, s := range c.lines {
		line := operation.Line{Number: s.number, RequestID: o.RequestID}
		if s.long {
			c.refuse(ctx, &line, &wire.Refusal{Kind: wire.BodyTooLarge, Wording: "line_too_long", Args: []any{mostLine}})
			continue
		}
		body := c.in[s.start:s.end]
		c.answerLine(ctx, o.telemetry, &line, func() operation.Outcome { return line.Answer(ctx, body, c.out) })
	}
}

// answerLine answers one line and counts it. A fault of the service is that line's alone; on
// the command line, where nobody else is served, it ends the program.
func (c *chunk) answerLine(ctx context.Context, t *telemetry.Telemetry, line *operation.Line, do func() operation.Outcome) {
	if t != nil {
		start := c.out.Len()
		defer func() {
			if fault := recover(); fault != nil {
				t.Panicked(line.RequestID, fault)
				c.out.Truncate(start)
				c.refuse(ctx, line, &wire.Refusal{Kind: wire.InternalError})
			}
		}()
	}
	outcome := do()
	countOutcome(ctx, t, outcome)
	c.tally.count(outcome)
}

// refuse answers a line that was not calculated, which telemetry does not count.
func (c *chunk) refuse(ctx context.Context, line *operation.Line, r *wire.Refusal) {
	line.Refuse(ctx, r, c.out)
	c.tally.count(operation.Outcome{Refusal: r})
}
