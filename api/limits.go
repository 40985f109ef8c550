package api

import (
	"bytes"
	"context"
	"net/http"
	"net/netip"
	"runtime"
	"time"

	"golang.org/x/sync/semaphore"
)

// Limits bound what clients can take of the server. The zero value is sound: it
// bounds work at the default and no client's rate.
type Limits struct {
	// Concurrent is how many calculations run at once; 0 means 16 for each CPU.
	Concurrent int
	// Wait is how long a request that has been read waits for its turn before it is
	// refused with 503; at 0 it is refused at once.
	Wait time.Duration
	// Rate is how many requests a client may send in a minute; 0 means any number.
	Rate int
	// TrustedProxies are the peers whose X-Forwarded-For is believed.
	TrustedProxies []netip.Prefix
	// Line is how long a batch waits for its next line to be complete, and Answer how
	// long for the client to take what is answered; 0 means half a minute.
	Line, Answer time.Duration
}

// waitersPerSlot bounds the requests that wait for their turn. A calculation takes
// a tenth of a millisecond, so this many are through long before they have waited
// in vain.
const waitersPerSlot = 16

// slots hand out turns to calculate. A request takes one only when its body has
// been read, so that a slow sender holds none.
type slots struct {
	taken   chan struct{}
	waiting chan struct{}
	streams chan struct{} // batches that are open, which hold memory but no turn
	wait    time.Duration

	// large bounds the weight of requests that are calculated at once, but for small ones.
	large     *semaphore.Weighted
	mostLarge int64

	answers room
}

// A request with working weighs what it has of bytes, since a calculation holds up to 600
// times as much; one without weighs a small part of that. A light one need not wait.
const (
	withoutWorking = 16
	lightest       = 1 << 10
	largePerCPU    = 96 << 10
)

func newSlots(l Limits) *slots {
	n := l.Concurrent
	if n == 0 {
		n = 16 * runtime.GOMAXPROCS(0)
	}
	most := int64(largePerCPU * runtime.GOMAXPROCS(0))
	return &slots{
		taken: make(chan struct{}, n), waiting: make(chan struct{}, waitersPerSlot*n), streams: make(chan struct{}, n),
		wait: l.Wait, large: semaphore.NewWeighted(most), mostLarge: most,
	}
}

// weight is what requests count for among the large ones; the largest have to be alone.
func (s *slots) weight(body []byte) int64 {
	size := len(body)
	if !mayAskForWorking(body) {
		size /= withoutWorking
	}
	if size <= lightest {
		return 0
	}
	return min(int64(size), s.mostLarge)
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
func (s *slots) take(weight int64) bool {
	if s.turn(weight) {
		return true
	}
	select {
	case s.waiting <- struct{}{}:
	default:
		return false
	}
	defer func() { <-s.waiting }()
	ctx, stop := context.WithTimeout(context.Background(), s.wait)
	defer stop()
	return s.await(ctx, weight)
}

// turn takes one where nobody has to wait for it.
func (s *slots) turn(weight int64) bool {
	if weight > 0 && !s.large.TryAcquire(weight) {
		return false
	}
	select {
	case s.taken <- struct{}{}:
		return true
	default:
		s.large.Release(weight)
		return false
	}
}

// await waits for a turn as long as ctx lasts.
func (s *slots) await(ctx context.Context, weight int64) bool {
	if weight > 0 && s.large.Acquire(ctx, weight) != nil {
		return false
	}
	select {
	case s.taken <- struct{}{}:
		return true
	case <-ctx.Done():
		s.large.Release(weight)
		return false
	}
}

// awaitWithRoom waits for a turn for a chunk, and holds none while there is no room for
// its answers.
func (s *slots) awaitWithRoom(ctx context.Context, weight int64, c *stay) bool {
	for {
		if !s.answers.await(ctx, c, weight == 0) || !s.await(ctx, weight) {
			return false
		}
		if _, open := s.answers.open(c, weight == 0); open {
			return true
		}
		s.give(weight) // the room has filled meanwhile
	}
}

func (s *slots) give(weight int64) {
	<-s.taken
	s.large.Release(weight)
}

// open begins a stream, if there are not as many already as turns.
func (s *slots) open() bool {
	select {
	case s.streams <- struct{}{}:
		return true
	default:
		return false
	}
}

func (s *slots) close() { <-s.streams }

// refuseOverloaded asks the client to come back in a second.
func refuseOverloaded(w http.ResponseWriter) error {
	w.Header().Set("Retry-After", "1")
	return &refusal{kind: overloaded}
}
