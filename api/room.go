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
	// mostAhead is how many more of batches may wait for earlier answers of theirs, and
	// aheadOfOne of how many on a batch goes on no further.
	mostAhead  = 16 << 20
	aheadOfOne = 4 << 20
	// smallAnswer is the longest one that is not counted: a connection that has one is
	// bound by the bound on connections, as one with a body is.
	smallAnswer = 64 << 10
	// patience is how long an answer may be on its way whatever happens, and slowest how
	// many bytes a second it may take beyond that.
	patience = time.Second
	slowest  = 1 << 20
)

// A room bounds the memory of answers whose clients are slow to take them. When it is full,
// one that has been on its way for too long goes; where none has, nobody is slow, and who
// comes has to wait or be refused.
type room struct {
	mutex   sync.Mutex
	taken   int           // by answers that are next to be sent, or are being sent
	ahead   int           // by those of batches that wait for earlier ones
	sending queue.List    // of *stay, who began first in front
	changed chan struct{} // closed when there may be room; nil while nobody waits
}

// A guest is who has answers in the room: a request, or a batch. end breaks it off.
type guest struct {
	end  func()
	held int
}

// A stay is an answer in the room, or a chunk of them.
type stay struct {
	of    *guest
	next  bool // to be sent
	size  int  // 0 before it has come, and when it has left
	began time.Time
	place *queue.Element // nil unless it is being sent
}

// enter takes in an answer that is sent at once; nil when there is no room for it.
func (r *room) enter(of *guest, size int) *stay {
	r.mutex.Lock()
	defer r.mutex.Unlock()
	if !r.clear(size) {
		return nil
	}
	s := &stay{of: of, next: true}
	r.add(s, size)
	r.begin(s)
	return s
}

// clear tells whether there is room, and makes some where a client is slow.
func (r *room) clear(size int) bool {
	for r.taken > 0 && r.taken+size > mostWaiting {
		s := r.slow()
		if s == nil {
			return false
		}
		r.remove(s)
		s.of.end()
	}
	return true
}

// slow finds an answer that has been on its way for too long.
func (r *room) slow() *stay {
	now := time.Now()
	for e := r.sending.Front(); e != nil; e = e.Next() {
		s := e.Value.(*stay)
		if now.Sub(s.began) >= patience+time.Duration(s.size)*time.Second/slowest {
			return s
		}
	}
	return nil
}

// await waits until a chunk may be worked out; false when ctx ends before.
func (r *room) await(ctx context.Context, s *stay, light bool) bool {
	for {
		changed, open := r.open(s, light)
		if open {
			return true
		}
		select {
		case <-changed:
		case <-time.After(patience / 20): // somebody may have become slow
		case <-ctx.Done():
			return false
		}
	}
}

// open tells whether a chunk may be worked out, or else what to wait for. Its size is not
// known yet, so the room may be overdrawn by what is calculated at once. The next chunk of
// a batch waits for answers that are being sent, never for what waits for it.
func (r *room) open(s *stay, light bool) (changed <-chan struct{}, open bool) {
	r.mutex.Lock()
	defer r.mutex.Unlock()
	if s.next {
		open = light || r.clear(1)
	} else {
		open = r.ahead < mostAhead && s.of.held < aheadOfOne
	}
	if !open && r.changed == nil {
		r.changed = make(chan struct{})
	}
	return r.changed, open
}

// hold counts a chunk that has been worked out.
func (r *room) hold(s *stay, size int) {
	r.mutex.Lock()
	defer r.mutex.Unlock()
	r.add(s, size)
}

func (r *room) add(s *stay, size int) {
	s.size = size
	s.of.held += size
	*r.share(s) += size
}

// share is where a stay counts.
func (r *room) share(s *stay) *int {
	if s.next {
		return &r.taken
	}
	return &r.ahead
}

// call says that a chunk is the next to be sent, when it has been worked out.
func (r *room) call(s *stay) {
	r.mutex.Lock()
	defer r.mutex.Unlock()
	r.ahead -= s.size
	r.taken += s.size
	s.next = true
	r.wake()
}

// send says that a chunk is being sent from now on.
func (r *room) send(s *stay) {
	r.mutex.Lock()
	defer r.mutex.Unlock()
	if s.size > 0 {
		r.begin(s)
	}
}

func (r *room) begin(s *stay) {
	s.began = time.Now()
	s.place = r.sending.PushBack(s)
}

// leave makes room again. Who has been sent away has left already.
func (r *room) leave(s *stay) {
	r.mutex.Lock()
	defer r.mutex.Unlock()
	if s.size > 0 {
		r.remove(s)
	}
}

func (r *room) remove(s *stay) {
	if s.place != nil {
		r.sending.Remove(s.place)
		s.place = nil
	}
	s.of.held -= s.size
	*r.share(s) -= s.size
	s.size = 0
	r.wake()
}

func (r *room) wake() {
	if r.changed != nil {
		close(r.changed)
		r.changed = nil
	}
}
