package api

import (
	queue "container/list"
	"context"
	"sync"
	"time"
)

const (
	// mostWaiting is how many bytes of answers may wait for their clients to take them.
	mostWaiting = 64 << 20
	// smallAnswer is the longest one that is not counted: a connection that has one is
	// bound by the bound on connections, as one with a body is.
	smallAnswer = 64 << 10
	// patience is how long an answer may wait whatever happens.
	patience = time.Second
)

// A room bounds the memory of answers whose clients are slow to take them. When it is full,
// who has waited the longest goes, unless that is not long: then nobody is slow, and who
// comes has to wait or be refused.
type room struct {
	mutex   sync.Mutex
	taken   int
	waiting queue.List // of *stay, who came first in front
}

// A stay is an answer in the room. end breaks it off; it is called once at most, and not
// after the answer has left.
type stay struct {
	size  int
	since time.Time
	end   func()
	place *queue.Element // nil when it has left
}

// enter takes in an answer; nil when there is no room for it.
func (r *room) enter(size int, end func()) *stay {
	r.mutex.Lock()
	defer r.mutex.Unlock()
	now := time.Now()
	for r.taken > 0 && r.taken+size > mostWaiting {
		s := r.waiting.Front().Value.(*stay)
		if now.Sub(s.since) < patience {
			return nil
		}
		r.remove(s)
		s.end()
	}
	s := &stay{size: size, since: now, end: end}
	s.place = r.waiting.PushBack(s)
	r.taken += size
	return s
}

// await enters as soon as there is room; nil when ctx ends before.
func (r *room) await(ctx context.Context, size int, end func()) *stay {
	const pause = patience / 20
	for {
		if s := r.enter(size, end); s != nil {
			return s
		}
		select {
		case <-ctx.Done():
			return nil
		case <-time.After(pause):
		}
	}
}

// leave makes room again. Who has been sent away has left already.
func (r *room) leave(s *stay) {
	if s == nil {
		return
	}
	r.mutex.Lock()
	defer r.mutex.Unlock()
	if s.place != nil {
		r.remove(s)
	}
}

func (r *room) remove(s *stay) {
	r.waiting.Remove(s.place)
	s.place = nil
	r.taken -= s.size
}
