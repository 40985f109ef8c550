package main

import (
	"bufio"
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"runtime"
	"strings"
	"testing"
	"time"
)

const head = "POST /v1/ground-speed HTTP/1.1\r\nHost: x\r\nContent-Type: application/json\r\n"

// wholeRequest is one right request.
func wholeRequest(id string) string {
	return fmt.Sprintf("%sX-Request-Id: %s\r\nContent-Length: %d\r\n\r\n%s", head, id, len(speed), speed)
}

// manyCatches is a request whose answer is large: hundreds of kilobytes.
func manyCatches() string {
	one := `{"nozzles":1,"volume":{"value":48,"unit":"fl_oz_us"},"time":{"value":60,"unit":"s"}}`
	body := `{"catches":[` + strings.Repeat(one+",", 999) + one + `]}`
	return fmt.Sprintf("POST /v1/nozzle-acceptance HTTP/1.1\r\nHost: x\r\nContent-Type: application/json\r\nContent-Length: %d\r\n\r\n%s", len(body), body)
}

// faults are what clients and networks do to a connection. status is what the first
// answer must be; 0 when nobody is there to read it.
var faults = []struct {
	name   string
	status int
	do     func(*testing.T, *net.TCPConn)
}{
	{"gone in mid-header", 0, func(_ *testing.T, c *net.TCPConn) {
		fmt.Fprint(c, head)
		c.Close()
	}},
	{"gone in mid-body", 0, func(_ *testing.T, c *net.TCPConn) {
		fmt.Fprintf(c, "%sContent-Length: 5000\r\n\r\n%s", head, speed)
		c.Close()
	}},
	{"gone in mid-body, by a reset", 0, func(_ *testing.T, c *net.TCPConn) {
		fmt.Fprintf(c, "%sContent-Length: 5000\r\n\r\n%s", head, speed)
		_ = c.SetLinger(0)
		c.Close()
	}},
	{"gone in mid-answer", 0, func(t *testing.T, c *net.TCPConn) {
		fmt.Fprint(c, manyCatches())
		if _, err := io.ReadFull(c, make([]byte, 1000)); err != nil {
			t.Error(err)
		}
		_ = c.SetLinger(0)
		c.Close()
	}},
	{"answers never read", 0, func(_ *testing.T, c *net.TCPConn) {
		_ = c.SetReadBuffer(4096)
		_ = c.SetWriteDeadline(time.Now().Add(2 * time.Second))
		for range 30 {
			if _, err := fmt.Fprint(c, manyCatches()); err != nil {
				break
			}
		}
	}},
	{"half-closed after the request", 200, func(_ *testing.T, c *net.TCPConn) {
		fmt.Fprint(c, wholeRequest("half"))
		_ = c.CloseWrite()
	}},
	{"half-closed in mid-body", 400, func(_ *testing.T, c *net.TCPConn) {
		fmt.Fprintf(c, "%sContent-Length: 5000\r\n\r\n%s", head, speed)
		_ = c.CloseWrite()
	}},
	{"a chunk of no length", 400, func(_ *testing.T, c *net.TCPConn) {
		fmt.Fprintf(c, "%sTransfer-Encoding: chunked\r\n\r\nzz\r\n%s\r\n0\r\n\r\n", head, speed)
	}},
	{"a chunk longer than it says", 400, func(_ *testing.T, c *net.TCPConn) {
		fmt.Fprintf(c, "%sTransfer-Encoding: chunked\r\n\r\n5\r\n%s\r\n0\r\n\r\n", head, speed)
	}},
	{"a chunk of a monstrous length", 400, func(_ *testing.T, c *net.TCPConn) {
		fmt.Fprintf(c, "%sTransfer-Encoding: chunked\r\n\r\nfffffffffffffffff\r\n%s", head, speed)
	}},
	{"a last chunk that never comes", 400, func(_ *testing.T, c *net.TCPConn) {
		fmt.Fprintf(c, "%sTransfer-Encoding: chunked\r\n\r\n%x\r\n%s\r\n", head, len(speed), speed)
	}},
	{"two lengths", 400, func(_ *testing.T, c *net.TCPConn) {
		fmt.Fprintf(c, "%sContent-Length: 5\r\nContent-Length: 6\r\n\r\n%s", head, speed)
	}},
	{"a negative length", 400, func(_ *testing.T, c *net.TCPConn) {
		fmt.Fprintf(c, "%sContent-Length: -1\r\n\r\n%s", head, speed)
	}},
	{"an unknown transfer coding", 501, func(_ *testing.T, c *net.TCPConn) { // of net/http, before any handler
		fmt.Fprintf(c, "%sTransfer-Encoding: gzip\r\n\r\n%s", head, speed)
	}},
	{"headers without end", 431, func(_ *testing.T, c *net.TCPConn) {
		fmt.Fprintf(c, "%sX-Long: %s\r\n\r\n", head, strings.Repeat("a", 64<<10))
	}},
	{"thousands of headers", 431, func(_ *testing.T, c *net.TCPConn) {
		fmt.Fprintf(c, "%s%s\r\n\r\n", head, strings.Repeat("X-A: b\r\n", 8000))
	}},
	{"no host", 400, func(_ *testing.T, c *net.TCPConn) { fmt.Fprint(c, "GET /livez HTTP/1.1\r\n\r\n") }},
	{"not HTTP", 400, func(_ *testing.T, c *net.TCPConn) {
		fmt.Fprint(c, "\x16\x03\x01\x02\x00\x01\x00\x01\xfc\x03\x03\r\n\r\n")
	}},
	{"HTTP/1.0", 200, func(_ *testing.T, c *net.TCPConn) { fmt.Fprint(c, "GET /livez HTTP/1.0\r\n\r\n") }},
	{"100-continue, and then nothing", 100, func(_ *testing.T, c *net.TCPConn) {
		fmt.Fprintf(c, "%sContent-Length: 500\r\nExpect: 100-continue\r\n\r\n", head)
	}},
	{"headers a byte at a time", 0, func(_ *testing.T, c *net.TCPConn) { drip(c, head+strings.Repeat("X-A: b\r\n", 100)) }},
	{"a body a byte at a time", 400, func(_ *testing.T, c *net.TCPConn) {
		fmt.Fprintf(c, "%sContent-Length: 500\r\n\r\n", head)
		drip(c, strings.Repeat(" ", 500))
	}},
	{"a batch that is left in mid-line", 0, func(t *testing.T, c *net.TCPConn) {
		line := `{"id":"a","operation":"ground-speed","request":` + speed + "}\n"
		fmt.Fprintf(c, "POST /v1/batch HTTP/1.1\r\nHost: x\r\nContent-Type: application/x-ndjson\r\nContent-Length: 100000\r\n\r\n%s%s", line, line[:30])
		if _, err := io.ReadFull(c, make([]byte, 300)); err != nil {
			t.Error(err)
		}
		c.Close()
	}},
}

// drip sends slowly, until the server has enough of it.
func drip(c net.Conn, text string) {
	for i := range len(text) {
		if _, err := c.Write([]byte{text[i]}); err != nil {
			return
		}
		time.Sleep(10 * time.Millisecond)
	}
}

// TestFaults does to the server what clients and networks do. Each gets the answer
// that is due, the server goes on, calls none of it a fault of its own, and nothing
// is left behind.
func TestFaults(t *testing.T) {
	log := new(safeBuffer)
	addr, stop, code := servingTo(t, log, os.Getenv, "-header-timeout", "500ms", "-read-timeout", "700ms", "-write-timeout", "700ms", "-idle-timeout", "500ms", "-log-format", "json")
	if status := send(t, "POST", "http://"+addr+"/v1/ground-speed", speed); status != http.StatusOK {
		t.Fatal(status)
	}
	http.DefaultClient.CloseIdleConnections()
	time.Sleep(100 * time.Millisecond)
	before := runtime.NumGoroutine()
	t.Run("all at once", func(t *testing.T) {
		for _, f := range faults {
			t.Run(f.name, func(t *testing.T) {
				t.Parallel()
				conn, err := net.Dial("tcp", addr)
				if err != nil {
					t.Fatal(err)
				}
				defer conn.Close()
				f.do(t, conn.(*net.TCPConn))
				if f.status == 0 {
					return
				}
				_ = conn.SetReadDeadline(time.Now().Add(5 * time.Second))
				resp, err := http.ReadResponse(bufio.NewReader(conn), nil)
				if err != nil || resp.StatusCode != f.status {
					t.Errorf("%v %v, want %d", resp, err, f.status)
				}
			})
		}
	})
	began := time.Now()
	if status := send(t, "POST", "http://"+addr+"/v1/ground-speed", speed); status != http.StatusOK || time.Since(began) > time.Second {
		t.Errorf("afterwards: %d in %v", status, time.Since(began))
	}
	http.DefaultClient.CloseIdleConnections()
	for until := time.Now().Add(10 * time.Second); runtime.NumGoroutine() > before; time.Sleep(50 * time.Millisecond) {
		if time.Now().After(until) {
			stacks := make([]byte, 1<<20)
			t.Fatalf("%d goroutines before, %d after:\n%s", before, runtime.NumGoroutine(), stacks[:runtime.Stack(stacks, true)])
		}
	}
	stop()
	exits(t, code, 0)
	for _, bad := range []string{`"status":5`, "panic", `"level":"ERROR"`} {
		if strings.Contains(log.String(), bad) {
			t.Errorf("the log has %s:\n%s", bad, log)
		}
	}
}

// TestPipelinedRequests: several requests in one packet get their answers in order,
// and a bad one among them spoils no other.
func TestPipelinedRequests(t *testing.T) {
	addr, _, _ := serving(t, nil)
	conn, err := net.Dial("tcp", addr)
	if err != nil {
		t.Fatal(err)
	}
	defer conn.Close()
	_ = conn.SetDeadline(time.Now().Add(10 * time.Second))
	bad := fmt.Sprintf("%sX-Request-Id: b\r\nContent-Length: 3\r\n\r\n{x}", head)
	fmt.Fprint(conn, wholeRequest("a")+bad+wholeRequest("c")+"GET /livez HTTP/1.1\r\nHost: x\r\nX-Request-Id: d\r\nConnection: close\r\n\r\n")
	answers := bufio.NewReader(conn)
	for i, want := range []int{200, 400, 200, 200} {
		resp, err := http.ReadResponse(answers, nil)
		if err != nil {
			t.Fatal(i, err)
		}
		_, _ = io.Copy(io.Discard, resp.Body)
		if id := string(rune('a' + i)); resp.StatusCode != want || resp.Header.Get("X-Request-Id") != id {
			t.Errorf("answer %d: %s to %q, want %d to %q", i, resp.Status, resp.Header.Get("X-Request-Id"), want, id)
		}
	}
	if _, err := answers.ReadByte(); err != io.EOF {
		t.Errorf("after the last answer: %v", err)
	}
}
