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
// What has escapes may ask for working in other letters.
func (s *slots) weight(body []byte) int64 {
	size := len(body)
	if !bytes.Contains(body, []byte("showWorking")) && bytes.IndexByte(body, '\\') < 0 {
		size /= withoutWorking
	}
	if size <= lightest {
		return 0
	}
	return min(int64(size), s.mostLarge)
}

// take waits for a turn for a request of some weight, a short time at most. Who gets one
// gives it back.
func (s *slots) take(weight int64) bool {
	if weight > 0 && !s.large.TryAcquire(weight) {
		ctx, stop := context.WithTimeout(context.Background(), s.wait)
		defer stop()
		if s.large.Acquire(ctx, weight) != nil {
			return false
		}
	}
	if s.turn() {
		return true
	}
	s.large.Release(weight)
	return false
}

func (s *slots) turn() bool {
	select {
	case s.taken <- struct{}{}:
		return true
	default:
	}
	select {
	case s.waiting <- struct{}{}:
	default:
		return false
	}
	defer func() { <-s.waiting }()
	timer := time.NewTimer(s.wait)
	defer timer.Stop()
	select {
	case s.taken <- struct{}{}:
		return true
	case <-timer.C:
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
