package api

import (
	"bytes"
	"context"
	"net/http"
	"runtime"
	"time"

	"golang.org/x/sync/semaphore"

	"wetrun/api/wire"
)

// waitersPerTurn bounds the requests that wait for their turn. A calculation takes
// a tenth of a millisecond, so this many are through long before they have waited
// in vain.
const waitersPerTurn = 16

// turns bound what is calculated at once. A request takes one only when its body has
// been read, so that a slow sender holds none. A batch waits where a single request would
// get 503.
type turns struct {
	taken   chan struct{} // by what is being calculated
	waiting chan struct{} // requests, before they are refused
	batches chan struct{} // batches that are open, which hold memory but no turn
	wait    time.Duration

	// large bounds the weight of requests that are calculated at once, but for small ones.
	large         *semaphore.Weighted
	largeCapacity int64

	answers answerMemory
}

// A request with working weighs what it has of bytes, since a calculation holds up to 600
// times as much; one without weighs a small part of that (own judgement). A light one need not wait.
const (
	withoutWorking = 16
	lightest       = 1 << 10
	largePerCPU    = 96 << 10
)

func newTurns(l Limits) *turns {
	n := l.Concurrent
	if n == 0 {
		n = 16 * runtime.GOMAXPROCS(0)
	}
	most := int64(largePerCPU * runtime.GOMAXPROCS(0))
	return &turns{
		taken: make(chan struct{}, n), waiting: make(chan struct{}, waitersPerTurn*n), batches: make(chan struct{}, n),
		wait: l.Wait, large: semaphore.NewWeighted(most), largeCapacity: most,
	}
}

// weight is what requests count for among the large ones; the largest have to be alone.
func (t *turns) weight(body []byte) int64 {
	size := len(body)
	if !mayAskForWorking(body) {
		size /= withoutWorking
	}
	if size <= lightest {
		return 0
	}
	return min(int64(size), t.largeCapacity)
}

// mayAskForWorking tells whether working is asked for, or may be by letters in escapes:
// those of ASCII have numbers from 0040 to 007F, and nobody needs to escape them.
func mayAskForWorking(body []byte) bool {
	if bytes.Contains(body, []byte("showWorking")) {
		return true
	}
	for {
		_, rest, found := bytes.Cut(body, []byte(`\u00`))
		if !found {
			return false
		}
		if len(rest) > 0 && '4' <= rest[0] && rest[0] <= '7' {
			return true
		}
		body = rest
	}
}

// take waits for a turn for a request of some weight, a short time at most. Who gets one
// gives it back.
func (t *turns) take(weight int64) bool {
	if t.tryTake(weight) {
		return true
	}
	select {
	case t.waiting <- struct{}{}:
	default:
		return false
	}
	defer func() { <-t.waiting }()
	ctx, stop := context.WithTimeout(context.Background(), t.wait)
	defer stop()
	return t.await(ctx, weight)
}

// tryTake takes one where nobody has to wait for it.
func (t *turns) tryTake(weight int64) bool {
	if weight > 0 && !t.large.TryAcquire(weight) {
		return false
	}
	select {
	case t.taken <- struct{}{}:
		return true
	default:
		t.large.Release(weight)
		return false
	}
}

// await waits for a turn as long as ctx lasts.
func (t *turns) await(ctx context.Context, weight int64) bool {
	if weight > 0 && t.large.Acquire(ctx, weight) != nil {
		return false
	}
	select {
	case t.taken <- struct{}{}:
		return true
	case <-ctx.Done():
		t.large.Release(weight)
		return false
	}
}

// awaitWithSpace waits for a turn for a chunk, and holds none while there is no memory for
// its answers: else one slow client would have everybody refused.
func (t *turns) awaitWithSpace(ctx context.Context, weight int64, a *heldAnswer) bool {
	for {
		if !t.answers.awaitSpace(ctx, a, weight == 0) || !t.await(ctx, weight) {
			return false
		}
		if _, space := t.answers.hasSpace(a, weight == 0); space {
			return true
		}
		t.give(weight) // the memory has filled meanwhile
	}
}

func (t *turns) give(weight int64) {
	<-t.taken
	t.large.Release(weight)
}

// openBatch begins one, if there are not as many already as turns.
func (t *turns) openBatch() bool {
	select {
	case t.batches <- struct{}{}:
		return true
	default:
		return false
	}
}

func (t *turns) closeBatch() { <-t.batches }

// refuseOverloaded asks the client to come back in a second.
func refuseOverloaded(w http.ResponseWriter) error {
	w.Header().Set("Retry-After", "1")
	return &wire.Refusal{Kind: wire.Overloaded}
}
