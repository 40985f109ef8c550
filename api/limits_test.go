package api

import (
	"bytes"
	"context"
	"fmt"
	"net"
	"net/http"
	"net/http/httptest"
	"strings"
	"sync"
	"testing"
	"testing/synctest"
	"time"

	"wetrun/api/operation"
	"wetrun/api/wire"
)

// serverWith starts the whole service with its limits on a real listener.
func serverWith(t *testing.T, o Options) *httptest.Server {
	t.Helper()
	if o.Log == nil {
		o.Log = testLog(t.Output())
	}
	s := httptest.NewServer(New(o))
	t.Cleanup(s.Close)
	return s
}

// TestStalledSendersHoldNoTurn: two hundred clients that stop in mid-body leave the
// only turn free, so a normal call is as quick as before.
func TestStalledSendersHoldNoTurn(t *testing.T) {
	s := serverWith(t, Options{Limits: Limits{Concurrent: 1}})
	for range 200 {
		conn, err := net.Dial("tcp", s.Listener.Addr().String())
		if err != nil {
			t.Fatal(err)
		}
		defer conn.Close()
		fmt.Fprintf(conn, "POST /v1/ground-speed HTTP/1.1\r\nHost: x\r\nContent-Type: application/json\r\nContent-Length: %d\r\n\r\n%s", len(oneRun), oneRun[:len(oneRun)-1])
	}
	for range 20 {
		began := time.Now()
		resp, err := http.Post(s.URL+"/v1/ground-speed", "application/json", strings.NewReader(oneRun))
		if err != nil {
			t.Fatal(err)
		}
		resp.Body.Close()
		if took := time.Since(began); resp.StatusCode != http.StatusOK || took > time.Second {
			t.Errorf("status %d after %v", resp.StatusCode, took)
		}
	}
}

// TestOverload fills every turn and every place to wait: what comes then gets 503
// at once, what waited gets it after its time, and all is well afterwards.
func TestOverload(t *testing.T) {
	turns := newTurns(Limits{Concurrent: 2, Wait: 50 * time.Millisecond})
	begun, end := make(chan bool), make(chan bool)
	slow := operation.Operation{Name: "slow", Run: func(context.Context, []byte, *bytes.Buffer) (string, *wire.Refusal) {
		begun <- true
		<-end
		return "", nil
	}}
	serve := func() *httptest.ResponseRecorder {
		w, req := httptest.NewRecorder(), httptest.NewRequest(http.MethodPost, "/v1/slow", strings.NewReader("{}"))
		req.Header.Set("Content-Type", "application/json")
		withRequestID(http.HandlerFunc(func(w http.ResponseWriter, req *http.Request) {
			if err := serveOperation(slow, turns, nil, w, req); err != nil {
				writeProblem(w, req, err.(*wire.Refusal))
			}
		})).ServeHTTP(w, req)
		return w
	}
	var all sync.WaitGroup
	for range 2 {
		all.Go(func() { serve() })
		<-begun
	}
	w := serve()
	p := problemOf(t, http.StatusServiceUnavailable, w.Header(), w.Body.Bytes())
	if p.Type != "/problems/overloaded" || w.Header().Get("Retry-After") != "1" {
		t.Errorf("%+v %v", p, w.Header())
	}
	for range cap(turns.waiting) {
		turns.waiting <- struct{}{}
	}
	turns.wait = time.Hour // a place to wait would take as long
	if w := serve(); w.Code != http.StatusServiceUnavailable {
		t.Errorf("with all places taken: %d", w.Code)
	}
	for range cap(turns.waiting) {
		<-turns.waiting
	}
	all.Go(func() {
		if w := serve(); w.Code != http.StatusOK {
			t.Errorf("one that waited for its turn: %d", w.Code)
		}
	})
	close(end)
	<-begun
	all.Wait()
	if len(turns.taken) != 0 || len(turns.waiting) != 0 {
		t.Errorf("%d turns taken, %d waiting", len(turns.taken), len(turns.waiting))
	}
}

// TestTurnComesBackAfterPanic: a fault of ours costs no turn.
func TestTurnComesBackAfterPanic(t *testing.T) {
	turns := newTurns(Limits{Concurrent: 1})
	faulty := operation.Operation{Run: func(context.Context, []byte, *bytes.Buffer) (string, *wire.Refusal) { panic("fault") }}
	for range 3 {
		if !turns.take(0) {
			t.Fatal("the turn is gone")
		}
		func() {
			defer func() { _ = recover() }()
			_, _ = runInTurn(t.Context(), faulty.Run, turns, 0, new(buffers))
		}()
	}
}

// TestLargeRequestsWait: what holds much memory is calculated one after the other, while
// light requests go past it; escapes hide no wish for working.
func TestLargeRequestsWait(t *testing.T) {
	turns := newTurns(Limits{Concurrent: 10})
	working, plain := []byte(longWork()), []byte(strings.Replace(longWork(), `"showWorking":true,`, "", 1))
	heavy, light := turns.weight(working), turns.weight(plain)
	escaped := turns.weight([]byte(strings.Replace(string(working), "showWorking", `show\u0057orking`, 1)))
	if heavy != min(int64(len(working)), turns.largeCapacity) || light > heavy/10 || escaped < heavy || turns.weight([]byte(oneRun)) != 0 {
		t.Fatal(heavy, light, escaped)
	}
	for range 2 {
		if !turns.take(turns.largeCapacity) {
			t.Fatal("no turn for the largest")
		}
		if turns.take(heavy) || !turns.take(0) {
			t.Error("another large one has a turn, or a light one has none")
		}
		turns.give(0)
		turns.give(turns.largeCapacity)
	}
	if len(turns.taken) != 0 {
		t.Error("turns are lost")
	}
}

// TestOneWait: waiting for weight and for a turn is one wait, in one queue.
func TestOneWait(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		const wait = time.Second
		turns := newTurns(Limits{Concurrent: 1, Wait: wait})
		if !turns.take(turns.largeCapacity) {
			t.Fatal("no turn for the first")
		}
		go func() { // the weight comes free first, and the turn too late
			time.Sleep(wait * 3 / 4)
			turns.large.Release(turns.largeCapacity)
			time.Sleep(wait)
			<-turns.taken
		}()
		began := time.Now()
		if turns.take(turns.largeCapacity) || time.Since(began) != wait {
			t.Errorf("a turn, or none after %v", time.Since(began))
		}
		time.Sleep(wait)
		if !turns.take(turns.largeCapacity) {
			t.Fatal("no turn when all are free")
		}
		for range cap(turns.waiting) {
			turns.waiting <- struct{}{}
		}
		began = time.Now()
		if turns.take(turns.largeCapacity) || time.Since(began) > 0 {
			t.Errorf("waits for %v though nobody else may", time.Since(began))
		}
		turns.give(turns.largeCapacity)
		if len(turns.taken) != 0 || !turns.large.TryAcquire(turns.largeCapacity) {
			t.Error("turns or weight are lost")
		}
	})
}
