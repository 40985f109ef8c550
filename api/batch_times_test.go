package api

import (
	"bufio"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"time"
)

// shortTimes is a server whose batches have little time for each step, and room for
// one at once.
func shortTimes(t *testing.T, line, answer time.Duration, http2 bool) *httptest.Server {
	t.Helper()
	s := httptest.NewUnstartedServer(New(Options{Log: testLog(t.Output()), Limits: Limits{Concurrent: 1, Line: line, Answer: answer}}))
	s.EnableHTTP2 = http2
	if http2 {
		s.StartTLS()
	} else {
		s.Start()
	}
	t.Cleanup(s.Close)
	return s
}

// TestLateLine: a client that never completes a line is told so when its time is up,
// whatever it sends meanwhile, and its stream makes room.
func TestLateLine(t *testing.T) {
	const limit = 400 * time.Millisecond
	for _, http2 := range []bool{false, true} {
		s := shortTimes(t, limit, time.Minute, http2)
		for name, drip := range map[string]string{"idle": "", "bytes": "{", "blanks": " ", "blank lines": "\n", "carriage returns": "\r\n"} {
			from, to := io.Pipe()
			stop := make(chan struct{})
			go func() {
				_, _ = io.WriteString(to, speedLine+"\n")
				for {
					select {
					case <-stop:
						return
					case <-time.After(limit / 8):
						if drip != "" {
							_, _ = io.WriteString(to, drip)
						}
					}
				}
			}()
			started := time.Now()
			resp, err := s.Client().Post(s.URL+"/v1/batch", ndjson, from)
			if err != nil {
				t.Fatal(err)
			}
			answer, err := io.ReadAll(resp.Body)
			took := time.Since(started)
			close(stop)
			from.Close()
			resp.Body.Close()
			lines := strings.Split(string(answer), "\n")
			if err != nil || len(lines) != 3 || !strings.Contains(lines[0], `"status":200`) || !strings.Contains(lines[1], `"/problems/broken_stream"`) {
				t.Errorf("%s, HTTP/2 %v: %v %s", name, http2, err, answer)
			}
			if took < limit || took > 5*limit {
				t.Errorf("%s, HTTP/2 %v: open for %v", name, http2, took)
			}
			again, err := s.Client().Post(s.URL+"/v1/batch", ndjson, strings.NewReader(speedLine))
			if err != nil {
				t.Fatal(err)
			}
			_, _ = io.Copy(io.Discard, again.Body) // its stream ends with its answer
			again.Body.Close()
			if again.StatusCode != http.StatusOK {
				t.Errorf("%s, HTTP/2 %v: the next batch gets %s", name, http2, again.Status)
			}
		}
	}
}

// TestManyLinesInTime: the times bound a step, not the stream: lines and answers go on
// for longer than either, and a client may think longer than an answer may take.
func TestManyLinesInTime(t *testing.T) {
	for _, http2 := range []bool{false, true} {
		s := shortTimes(t, time.Second, 150*time.Millisecond, http2)
		from, to := io.Pipe()
		go func() {
			for range 6 {
				time.Sleep(250 * time.Millisecond)
				_, _ = io.WriteString(to, speedLine+"\n")
			}
			time.Sleep(250 * time.Millisecond)
			to.Close()
		}()
		resp, err := s.Client().Post(s.URL+"/v1/batch", ndjson, from)
		if err != nil {
			t.Fatal(err)
		}
		answer, err := io.ReadAll(resp.Body)
		resp.Body.Close()
		if n := strings.Count(string(answer), `"status":200`); err != nil || n != 6 || strings.Count(string(answer), "\n") != 6 {
			t.Errorf("HTTP/2 %v: %d of 6 lines, %v: %s", http2, n, err, answer)
		}
	}
}

// TestAnswersNotTaken: a client that sends and does not read is let go.
func TestAnswersNotTaken(t *testing.T) {
	s := shortTimes(t, time.Minute, 300*time.Millisecond, false)
	c, err := net.Dial("tcp", s.Listener.Addr().String())
	if err != nil {
		t.Fatal(err)
	}
	defer c.Close()
	_, _ = io.WriteString(c, "POST /v1/batch HTTP/1.1\r\nHost: x\r\nContent-Type: "+ndjson+"\r\nContent-Length: 1000000000\r\n\r\n")
	if head, err := bufio.NewReaderSize(c, 16).ReadString('\n'); err != nil || !strings.Contains(head, "200") {
		t.Fatal(head, err)
	}
	_ = c.SetWriteDeadline(time.Now().Add(20 * time.Second))
	lines := []byte(strings.Repeat(speedLine+"\n", 500))
	for err == nil {
		_, err = c.Write(lines)
	}
	if late, ok := err.(net.Error); ok && late.Timeout() {
		t.Fatal("the stream stays open")
	}
	for range 100 { // the stream's place is free within a moment
		resp, err := http.Post(s.URL+"/v1/batch", ndjson, strings.NewReader(speedLine))
		if err != nil {
			t.Fatal(err)
		}
		resp.Body.Close()
		if resp.StatusCode == http.StatusOK {
			return
		}
		time.Sleep(20 * time.Millisecond)
	}
	t.Error("no room for the next batch")
}

// TestSlowReaderAfterTheEnd: when all lines have come no line is late, however long
// the client takes its answers.
func TestSlowReaderAfterTheEnd(t *testing.T) {
	s := shortTimes(t, 200*time.Millisecond, time.Minute, false)
	resp, err := http.Post(s.URL+"/v1/batch", ndjson, strings.NewReader(strings.Repeat(speedLine+"\n", 20_000)))
	if err != nil {
		t.Fatal(err)
	}
	defer resp.Body.Close()
	answers := bufio.NewReader(resp.Body)
	n := 0
	for {
		line, err := answers.ReadString('\n')
		if err == io.EOF {
			break
		}
		if err != nil || !strings.Contains(line, `"status":200`) {
			t.Fatalf("line %d: %v %s", n+1, err, line)
		}
		if n++; n%5000 == 1 {
			time.Sleep(500 * time.Millisecond)
		}
	}
	if n != 20_000 {
		t.Errorf("%d of 20000 answers", n)
	}
}

// TestRefusedAtOnce: where there is no room a client that goes on sending is told so
// at once.
func TestRefusedAtOnce(t *testing.T) {
	s := shortTimes(t, time.Minute, time.Minute, false)
	client := &http.Client{Timeout: 10 * time.Second}
	var open []io.Closer
	for i, want := range []int{http.StatusOK, http.StatusServiceUnavailable} {
		from, to := io.Pipe()
		open = append(open, to)
		resp, err := client.Post(s.URL+"/v1/batch", ndjson, from)
		if err != nil || resp.StatusCode != want {
			t.Errorf("stream %d: %v %v", i+1, resp, err)
			continue
		}
		open = append(open, resp.Body)
	}
	for _, each := range open {
		each.Close()
	}
}
