package api

import (
	"bytes"
	"errors"
	"io"
	"net/http"
	"sync"
	"sync/atomic"
	"time"
)

// A batchConnection is the connection of a batch. A fleet outlasts the limits on a whole
// request; here each step has its limit, and there is none between two steps, when it
// is not the client that is waited for.
type batchConnection struct {
	w       http.ResponseWriter
	body    io.Reader
	control *http.ResponseController

	lineTime, answerTime time.Duration // that a line and what is sent at once may take

	awaitsLine bool        // its deadline stands
	lineBegun  bool        // there is more than blanks of it
	broken     atomic.Bool // nobody takes answers
	deadlines  sync.Mutex  // those of writing
}

// Read gives what has come. The time of a line begins when it is first waited for;
// neither a part of it nor blank lines before it make it longer.
func (s *batchConnection) Read(b []byte) (int, error) {
	if !s.awaitsLine {
		s.awaitsLine = true
		_ = s.control.SetReadDeadline(time.Now().Add(s.lineTime)) // a test's recorder has none
	}
	if s.broken.Load() {
		return 0, io.ErrClosedPipe // the deadline may have come after the one of Write
	}
	n, err := s.body.Read(b)
	// After the end net/http goes on reading, to notice when the client goes.
	if s.completes(b[:n]) || err == io.EOF {
		s.awaitsLine = false
		_ = s.control.SetReadDeadline(time.Time{})
	}
	return n, err
}

// completes tells whether b is the end of a line that is not blank.
func (s *batchConnection) completes(b []byte) bool {
	end := bytes.LastIndexByte(b, '\n') + 1
	ends := end > 0 && (s.lineBegun || len(bytes.TrimSpace(b[:end])) > 0)
	s.lineBegun = s.lineBegun && end == 0 || len(bytes.TrimSpace(b[end:])) > 0
	return ends
}

// begin gives an answer its time, unless the stream has been broken off.
func (s *batchConnection) begin() error {
	s.deadlines.Lock()
	defer s.deadlines.Unlock()
	if s.broken.Load() {
		return io.ErrClosedPipe
	}
	_ = s.control.SetWriteDeadline(time.Now().Add(s.answerTime))
	return nil
}

// breakOff ends a stream whose client is too slow to take its answers.
func (s *batchConnection) breakOff() {
	s.deadlines.Lock()
	defer s.deadlines.Unlock()
	s.broken.Store(true)
	_ = s.control.SetWriteDeadline(time.Unix(1, 0))
}

// Write sends b at once, within the time of an answer.
func (s *batchConnection) Write(b []byte) (int, error) {
	n, err := 0, s.begin()
	if err == nil {
		n, err = s.w.Write(b)
	}
	if err == nil {
		err = s.control.Flush()
	}
	if err != nil && !errors.Is(err, http.ErrNotSupported) {
		s.broken.Store(true)
		_ = s.control.SetReadDeadline(time.Now()) // stop reading
		return n, err
	}
	_ = s.control.SetWriteDeadline(time.Time{})
	return n, nil
}
