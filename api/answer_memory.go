package api

import (
	queue "container/list"
	"context"
	"sync"
	"time"
)

const ( // own judgement
	// mostWaitingBytes is how many bytes of answers may wait for their clients to take them.
	mostWaitingBytes = 64 << 20
	// mostAhead is how many more of batches may wait for earlier answers of theirs, and
	// mostAheadOfBatch of how many on a batch goes on no further.
	mostAhead        = 16 << 20
	mostAheadOfBatch = 4 << 20
	// smallAnswer is the longest one that is not counted: a connection that has one is
	// bound by the bound on connections, as one with a body is.
	smallAnswer = 64 << 10
	// sendGrace is how long an answer may be on its way whatever happens, and leastSendRate how
	// many bytes a second it may take beyond that.
	sendGrace     = time.Second
	leastSendRate = 1 << 20
)

// An answerMemory bounds the memory of answers whose clients are slow to take them. When
// it is full, one that has been on its way for too long is broken off; where none has,
// nobody is slow, and who comes has to wait or be refused.
//
// Each answer for itself may be 8 MB, and a deadline alone would let a few hundred clients
// hold a gigabyte. One that waits behind others is not slow.
type answerMemory struct {
	mutex   sync.Mutex
	waiting int           // bytes of answers that are next to be sent, or are being sent
	ahead   int           // bytes of those of batches that wait for earlier ones
	sending queue.List    // of *heldAnswer, who began first in front
	freed   chan struct{} // closed when there may be space; nil while nobody waits
}

// A recipient is who takes answers: a request, or a batch. breakOff ends its connection.
type recipient struct {
	breakOff  func()
	heldBytes int // bytes of its answers
}

// A heldAnswer is an answer that waits in memory, or a chunk of them.
type heldAnswer struct {
	to        *recipient
	next      bool // to be sent
	size      int  // 0 before it is counted, and after it was released
	began     time.Time
	inSending *queue.Element // nil unless it is being sent
}

// admit counts an answer that is sent at once; nil when there is no space for it.
func (m *answerMemory) admit(to *recipient, size int) *heldAnswer {
	m.mutex.Lock()
	defer m.mutex.Unlock()
	if !m.makeSpace(size) {
		return nil
	}
	a := &heldAnswer{to: to, next: true}
	m.add(a, size)
	m.beginSending(a)
	return a
}

// makeSpace tells whether there is space, and makes some where a client is slow.
func (m *answerMemory) makeSpace(size int) bool {
	for m.waiting > 0 && m.waiting+size > mostWaitingBytes {
		a := m.overdue()
		if a == nil {
			return false
		}
		m.remove(a)
		a.to.breakOff()
	}
	return true
}

// overdue finds an answer that has been on its way for too long.
func (m *answerMemory) overdue() *heldAnswer {
	now := time.Now()
	for e := m.sending.Front(); e != nil; e = e.Next() {
		a := e.Value.(*heldAnswer)
		if now.Sub(a.began) >= sendGrace+time.Duration(a.size)*time.Second/leastSendRate {
			return a
		}
	}
	return nil
}

// awaitSpace waits until a chunk may be worked out; false when ctx ends before.
func (m *answerMemory) awaitSpace(ctx context.Context, a *heldAnswer, small bool) bool {
	for {
		freed, space := m.hasSpace(a, small)
		if space {
			return true
		}
		select {
		case <-freed:
		case <-time.After(sendGrace / 20): // somebody may have become slow
		case <-ctx.Done():
			return false
		}
	}
}

// hasSpace tells whether a chunk may be worked out, or else what to wait for. Its size is
// not known yet, so the bound may be passed by what is calculated at once. The next chunk
// of a batch waits for answers that are being sent, never for what waits for it: in one
// count batches would wait for space that their own later chunks have.
func (m *answerMemory) hasSpace(a *heldAnswer, small bool) (freed <-chan struct{}, space bool) {
	m.mutex.Lock()
	defer m.mutex.Unlock()
	if a.next {
		space = small || m.makeSpace(1)
	} else {
		space = m.ahead < mostAhead && a.to.heldBytes < mostAheadOfBatch
	}
	if !space && m.freed == nil {
		m.freed = make(chan struct{})
	}
	return m.freed, space
}

// hold counts a chunk that has been worked out.
func (m *answerMemory) hold(a *heldAnswer, size int) {
	m.mutex.Lock()
	defer m.mutex.Unlock()
	m.add(a, size)
}

func (m *answerMemory) add(a *heldAnswer, size int) {
	a.size = size
	a.to.heldBytes += size
	*m.counter(a) += size
}

// counter is the count that an answer belongs to.
func (m *answerMemory) counter(a *heldAnswer) *int {
	if a.next {
		return &m.waiting
	}
	return &m.ahead
}

// markNext says that a chunk is the next to be sent, when it has been worked out.
func (m *answerMemory) markNext(a *heldAnswer) {
	m.mutex.Lock()
	defer m.mutex.Unlock()
	m.ahead -= a.size
	m.waiting += a.size
	a.next = true
	m.wake()
}

// send says that a chunk is being sent from now on.
func (m *answerMemory) send(a *heldAnswer) {
	m.mutex.Lock()
	defer m.mutex.Unlock()
	if a.size > 0 {
		m.beginSending(a)
	}
}

func (m *answerMemory) beginSending(a *heldAnswer) {
	a.began = time.Now()
	a.inSending = m.sending.PushBack(a)
}

// release makes the space free again. What was broken off has been released already.
func (m *answerMemory) release(a *heldAnswer) {
	m.mutex.Lock()
	defer m.mutex.Unlock()
	if a.size > 0 {
		m.remove(a)
	}
}

func (m *answerMemory) remove(a *heldAnswer) {
	if a.inSending != nil {
		m.sending.Remove(a.inSending)
		a.inSending = nil
	}
	a.to.heldBytes -= a.size
	*m.counter(a) -= a.size
	a.size = 0
	m.wake()
}

func (m *answerMemory) wake() {
	if m.freed != nil {
		close(m.freed)
		m.freed = nil
	}
}
