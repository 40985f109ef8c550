package api

import (
	"context"
	"fmt"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"runtime"
	"strings"
	"testing"
	"testing/synctest"
	"time"
)

// TestAnswerMemory: a full memory breaks off who has been on the way for too long for its size, and
// nobody else.
func TestAnswerMemory(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		var m answerMemory
		var ended []string
		called := func(name string) *recipient { return &recipient{breakOff: func() { ended = append(ended, name) }} }
		first, second := m.admit(called("first"), mostWaitingBytes-1<<20), m.admit(called("second"), 1<<20)
		if first == nil || second == nil || m.admit(called("third"), 1) != nil || len(ended) > 0 {
			t.Fatal("no space, or too much", ended)
		}
		time.Sleep(sendGrace + time.Second) // for the 1 MiB of the second; the first has 63 times as much
		third := m.admit(called("third"), 1)
		if third == nil || fmt.Sprint(ended) != "[second]" {
			t.Fatal(third, ended)
		}
		for _, s := range []*heldAnswer{first, second, third} { // the second has left already
			m.release(s)
		}
		if m.waiting != 0 || m.sending.Len() != 0 {
			t.Error(m.waiting, "taken")
		}
		long := m.admit(called("longer than the memory"), mostWaitingBytes+1) // alone
		if long == nil {
			t.Fatal("an answer that is alone has no space")
		}
		next := &heldAnswer{to: called("next")}
		m.markNext(next)
		ctx, stop := context.WithCancel(t.Context())
		time.AfterFunc(sendGrace, stop)
		if m.awaitSpace(ctx, next, false) {
			t.Error("came in after all")
		}
		if !m.awaitSpace(ctx, next, true) {
			t.Error("a light one has to wait")
		}
		if !m.awaitSpace(t.Context(), next, false) || len(ended) != 2 {
			t.Error("does not come in", ended)
		}
	})
}

// TestAnswerMemoryOfABatch: what a batch has worked out ahead never stands in the way of its next
// chunk, is not slow however long it waits, and is bounded for one and for all.
func TestAnswerMemoryOfABatch(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		var m answerMemory
		ends := 0
		batch := func() *recipient { return &recipient{breakOff: func() { ends++ }} }
		var later []*heldAnswer
		for range mostAhead / mostAheadOfBatch {
			s := &heldAnswer{to: batch()}
			if _, open := m.hasSpace(s, false); !open {
				t.Fatal("nothing is worked out ahead")
			}
			m.hold(s, mostAheadOfBatch)
			if _, open := m.hasSpace(&heldAnswer{to: s.to}, true); open {
				t.Error("one batch works out more than its part ahead")
			}
			later = append(later, s)
		}
		if _, open := m.hasSpace(&heldAnswer{to: batch()}, true); open {
			t.Error("all together work out more than their part ahead")
		}
		time.Sleep(time.Hour)
		next := &heldAnswer{to: later[0].to}
		m.markNext(next)
		if _, open := m.hasSpace(next, false); !open {
			t.Fatal("what comes after the next chunk stands in its way")
		}
		m.hold(next, mostWaitingBytes)
		m.send(next)
		single := m.admit(batch(), 1)
		if single != nil || ends > 0 {
			t.Error("a chunk that has just begun to be sent is broken off")
		}
		go func() { // its client takes it in the end
			time.Sleep(sendGrace)
			m.release(next)
			m.markNext(later[0])
		}()
		if !m.awaitSpace(t.Context(), &heldAnswer{to: batch()}, false) || ends > 0 { // ahead, while one less is
			t.Error("no place ahead is free again")
		}
		for _, s := range later {
			m.release(s)
		}
		if m.waiting != 0 || m.ahead != 0 || later[0].to.heldBytes != 0 || m.sending.Len() != 0 {
			t.Error(m.waiting, m.ahead, "taken")
		}
	})
}

// TestChunkWithoutSpaceHoldsNoTurn: nor any weight, whether the memory was full before or
// fills while the chunk waits for its turn.
func TestChunkWithoutSpaceHoldsNoTurn(t *testing.T) {
	for _, fullBefore := range []bool{true, false} {
		synctest.Test(t, func(t *testing.T) {
			turns := newTurns(Limits{Concurrent: 1})
			s := &heldAnswer{to: &recipient{}}
			turns.answers.markNext(s)
			var full *heldAnswer
			fill := func() {
				full = turns.answers.admit(&recipient{breakOff: func() { t.Error("broken off") }}, mostWaitingBytes)
			}
			if fullBefore {
				fill()
			} else if !turns.take(turns.largeCapacity) {
				t.Fatal("no turn")
			}
			open := make(chan bool, 1)
			go func() { open <- turns.awaitWithSpace(t.Context(), turns.largeCapacity, s) }()
			synctest.Wait()
			if !fullBefore {
				fill()
				turns.give(turns.largeCapacity)
				synctest.Wait()
			}
			if !turns.take(turns.largeCapacity) {
				t.Fatal("no turn beside it, memory full before:", fullBefore)
			}
			turns.give(turns.largeCapacity)
			turns.answers.release(full)
			if !<-open {
				t.Error("does not come in")
			}
		})
	}
}

// longWork is a request whose answer has some megabytes.
func longWork() string {
	catch := `{"volume":{"value":%d.%d,"unit":"mL"},"time":{"value":60,"unit":"s"}}`
	all := make([]string, mostItems("nozzle-flow", "catches"))
	for i := range all {
		all[i] = fmt.Sprintf(catch, 1500+i%50, i)
	}
	return `{"showWorking":true,"catches":[` + strings.Join(all, ",") + `]}`
}

// TestAnswersThatNobodyTakes: clients that do not read hold no more memory than there is
// for all of them, and others get their answers, long ones too.
func TestAnswersThatNobodyTakes(t *testing.T) {
	work := longWork()
	single := fmt.Sprintf("POST /v1/nozzle-acceptance HTTP/1.1\r\nHost: x\r\nContent-Type: application/json\r\nContent-Length: %d\r\n\r\n%s", len(work), work)
	line := `{"id":"a","operation":"nozzle-acceptance","request":` + work + "}\n"
	batch := fmt.Sprintf("POST /v1/batch HTTP/1.1\r\nHost: x\r\nContent-Type: %s\r\nContent-Length: %d\r\n\r\n%s", ndjson, 4*len(line), strings.Repeat(line, 4))
	for name, c := range map[string]struct {
		request string
		clients int
	}{"single requests": {single, 16}, "batches": {batch, 8}} {
		t.Run(name, func(t *testing.T) {
			s := httptest.NewUnstartedServer(New(Options{Log: testLog(t.Output()), Limits: Limits{Concurrent: 100, Wait: time.Minute}}))
			s.Config.WriteTimeout = 2 * time.Minute
			s.Start()
			t.Cleanup(s.Close)
			before := heap()
			for range c.clients {
				conn, err := net.Dial("tcp", s.Listener.Addr().String())
				if err != nil {
					t.Fatal(err)
				}
				defer conn.Close()
				_ = conn.(*net.TCPConn).SetReadBuffer(4096)
				if _, err := io.WriteString(conn, c.request); err != nil {
					t.Fatal(err)
				}
			}
			// All of them have asked after two seconds, and are answered in the end: a
			// machine that is slow, or looks for races, takes its time.
			most := before + mostWaitingBytes + 16<<20
			var highest, last uint64
			for began := time.Now(); time.Since(began) < 2*time.Second || last > most && time.Since(began) < time.Minute; time.Sleep(100 * time.Millisecond) {
				last = heap()
				highest = max(highest, last)
			}
			calculating := uint64(runtime.GOMAXPROCS(0)) * 128 << 20
			if last > most || highest > most+calculating {
				t.Errorf("%d MiB in use, %d at most, %d before", last>>20, highest>>20, before>>20)
			}
			for request, least := range map[string]int{oneRun: 100, work: 1 << 20} {
				path := "/v1/ground-speed"
				if least > 100 {
					path = "/v1/nozzle-acceptance"
				}
				// A long one has to wait until the others are slow, for their 5 MB each.
				for began := time.Now(); ; time.Sleep(100 * time.Millisecond) {
					resp, err := http.Post(s.URL+path, "application/json", strings.NewReader(request))
					if err != nil {
						t.Fatal(err)
					}
					n, err := io.Copy(io.Discard, resp.Body)
					resp.Body.Close()
					if resp.StatusCode == http.StatusOK && n >= int64(least) && err == nil {
						break
					}
					if least <= 100 || resp.StatusCode != http.StatusServiceUnavailable || time.Since(began) > 20*time.Second {
						t.Errorf("%s beside them: %s, %d bytes, %v", path, resp.Status, n, err)
						break
					}
				}
			}
		})
	}
}

// heap is how much memory is used.
func heap() uint64 {
	runtime.GC()
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return m.HeapAlloc
}
