package api

import (
	"bufio"
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

// TestRoom: a full room sends away who has been there the longest, but nobody at once.
func TestRoom(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		var r room
		var ended []string
		enter := func(name string, size int) *stay {
			return r.enter(size, func() { ended = append(ended, name) })
		}
		first, second := enter("first", mostWaiting/2), enter("second", mostWaiting/2)
		if first == nil || second == nil || enter("third", 1) != nil || len(ended) > 0 {
			t.Fatal("no room, or too much", ended)
		}
		time.Sleep(patience)
		third := enter("third", 1)
		if third == nil || fmt.Sprint(ended) != "[first]" {
			t.Fatal(third, ended)
		}
		r.leave(first) // has left
		r.leave(second)
		r.leave(third)
		r.leave(nil)
		if r.taken != 0 || r.waiting.Len() != 0 {
			t.Error(r.taken, "taken")
		}
		if enter("longer than the room", mostWaiting+1) == nil { // alone
			t.Error("an answer that is alone has no room")
		}
		ctx, stop := context.WithCancel(t.Context())
		time.AfterFunc(patience/2, stop)
		if r.await(ctx, 1, func() {}) != nil {
			t.Error("came in after all")
		}
		if r.await(t.Context(), 1, func() {}) == nil || len(ended) != 2 {
			t.Error("does not come in", ended)
		}
	})
}

// longWork is a request whose answer has some megabytes.
func longWork() string {
	catch := `{"volume":{"value":%d.%d,"unit":"mL"},"time":{"value":60,"unit":"s"}}`
	all := make([]string, mostCatches)
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
			most := before + mostWaiting + 16<<20
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
				resp, err := http.Post(s.URL+path, "application/json", strings.NewReader(request))
				if err != nil {
					t.Fatal(err)
				}
				n, err := io.Copy(io.Discard, bufio.NewReader(resp.Body))
				resp.Body.Close()
				if resp.StatusCode != http.StatusOK || n < int64(least) || err != nil {
					t.Errorf("%s beside them: %s, %d bytes, %v", path, resp.Status, n, err)
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
