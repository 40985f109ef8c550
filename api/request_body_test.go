package api

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/labstack/echo/v4"

	"wetrun/api/operation"
	"wetrun/internal/telemetry"
)

// TestRefusedBeforeTheEnd: what is wrong with the head of a request is told at once,
// though its body is open and nothing of it comes. Where a short body does come the
// connection stays.
func TestRefusedBeforeTheEnd(t *testing.T) {
	_, line := madeKey(t, "farm")
	keys, err := LoadKeys(keyFile(t, line), testLog(t.Output()))
	if err != nil {
		t.Fatal(err)
	}
	open, locked, rated := serverWith(t, Options{}), serverWith(t, Options{Keys: keys}), serverWith(t, Options{Limits: Limits{Rate: 1}})
	if resp, err := http.Get(rated.URL + "/v1/units"); err != nil || resp.StatusCode != http.StatusOK {
		t.Fatal(resp, err)
	}
	for _, c := range []struct {
		server       *httptest.Server
		path, kind   string
		framing      string
		status       int
		staysForMore bool
	}{
		{open, "/v1/batch", "application/json", "Transfer-Encoding: chunked", 415, false},
		{open, "/v1/batch", "application/json", "Content-Length: 9000000", 415, false},
		{open, "/v1/batch", "application/json", "Content-Length: 1000", 415, false},
		{open, "/v1/ground-speed", "text/plain", "Transfer-Encoding: chunked", 415, false},
		{open, "/v1/ground-speed", "text/plain", "Content-Length: 1000", 415, true},
		{open, "/v1/groundspeed", "application/json", "Transfer-Encoding: chunked", 404, false},
		{open, "/v1/units", "application/json", "Transfer-Encoding: chunked", 405, false},
		{locked, "/v1/batch", ndjson, "Transfer-Encoding: chunked", 401, false},
		{locked, "/v1/ground-speed", "application/json", "Content-Length: 1000", 401, true},
		{rated, "/v1/batch", ndjson, "Transfer-Encoding: chunked", 429, false},
	} {
		conn, err := net.Dial("tcp", c.server.Listener.Addr().String())
		if err != nil {
			t.Fatal(err)
		}
		fmt.Fprintf(conn, "POST %s HTTP/1.1\r\nHost: x\r\nContent-Type: %s\r\n%s\r\n\r\n", c.path, c.kind, c.framing)
		if c.staysForMore {
			_, _ = io.WriteString(conn, strings.Repeat(" ", 1000))
		}
		_ = conn.SetReadDeadline(time.Now().Add(3 * time.Second))
		resp, err := http.ReadResponse(bufio.NewReader(conn), nil)
		if err != nil || resp.StatusCode != c.status || resp.Close == c.staysForMore {
			t.Errorf("%s, %s: %v %v, want %d", c.path, c.framing, resp, err, c.status)
		} else if body, err := io.ReadAll(resp.Body); err != nil || !strings.Contains(string(body), `"/problems/`) {
			t.Errorf("%s, %s: %v %s", c.path, c.framing, err, body)
		}
		if c.staysForMore {
			fmt.Fprint(conn, "GET /livez HTTP/1.1\r\nHost: x\r\n\r\n")
			if resp, err := http.ReadResponse(bufio.NewReader(conn), nil); err != nil || resp.StatusCode != http.StatusOK {
				t.Errorf("%s: the next request: %v %v", c.path, resp, err)
			}
		}
		conn.Close()
	}
}

// TestTooLargeIsNotAskedFor: a client that asks before it sends too much is told so, and
// not to go on.
func TestTooLargeIsNotAskedFor(t *testing.T) {
	s := serverWith(t, Options{})
	conn, err := net.Dial("tcp", s.Listener.Addr().String())
	if err != nil {
		t.Fatal(err)
	}
	defer conn.Close()
	fmt.Fprintf(conn, "POST /v1/ground-speed HTTP/1.1\r\nHost: x\r\nContent-Type: application/json\r\nExpect: 100-continue\r\nContent-Length: %d\r\n\r\n", operation.MostBody+1)
	_ = conn.SetReadDeadline(time.Now().Add(3 * time.Second))
	resp, err := http.ReadResponse(bufio.NewReader(conn), nil)
	if err != nil || resp.StatusCode != http.StatusRequestEntityTooLarge || !resp.Close {
		t.Errorf("%v %v", resp, err)
	}
}

// unflushed is a connection whose client has gone.
type unflushed struct{ *httptest.ResponseRecorder }

func (unflushed) FlushError() error { return errors.New("broken pipe") }

type countedReader struct{ reads int }

func (c *countedReader) Read([]byte) (int, error) {
	c.reads++
	return 0, io.EOF
}

// TestBatchOfAGoneClient: when the head of the answer does not reach the client no line
// is read.
func TestBatchOfAGoneClient(t *testing.T) {
	body := new(countedReader)
	req := httptest.NewRequest(http.MethodPost, "/v1/batch", body)
	req.Header.Set("Content-Type", ndjson)
	w := echo.NewResponse(unflushed{httptest.NewRecorder()}, echo.New())
	if err := serveBatch(newTurns(Limits{}), Limits{}, telemetry.LogOnly(testLog(t.Output())), w, req); err != nil || body.reads > 0 {
		t.Errorf("%v, %d times read", err, body.reads)
	}
}

// A lockedBuffer is a log that a server writes while a test reads it.
type lockedBuffer struct {
	sync.Mutex
	strings.Builder
}

func (b *lockedBuffer) Write(p []byte) (int, error) {
	b.Lock()
	defer b.Unlock()
	return b.Builder.Write(p)
}

func (b *lockedBuffer) String() string {
	b.Lock()
	defer b.Unlock()
	return b.Builder.String()
}

// TestFaultInAnAnswer: a fault after an answer has begun breaks it off, and says so in
// the log alone, where the request has its line too.
func TestFaultInAnAnswer(t *testing.T) {
	log := new(lockedBuffer)
	s := httptest.NewServer(telemetry.LogOnly(testLog(log)).Handler(withRequestID(recoverPanics(telemetry.LogOnly(testLog(log)), http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) {
		_, _ = io.WriteString(w, `{"half":`)
		panic("secret cause")
	})))))
	defer s.Close()
	resp, err := http.Get(s.URL)
	if err == nil {
		var body []byte
		body, err = io.ReadAll(resp.Body)
		if strings.Contains(string(body), "problem") {
			t.Errorf("a problem in the answer: %s", body)
		}
	}
	if err == nil || !strings.Contains(log.String(), "secret cause") || !strings.Contains(log.String(), "bytes=8") {
		t.Errorf("%v; the log: %s", err, log)
	}
}

// TestSeveralLinesAreOneList: of what a client holds, and of what it can unpack.
func TestSeveralLinesAreOneList(t *testing.T) {
	s := serverWith(t, Options{})
	for _, path := range []string{"/v1/units", "/openapi.yaml"} {
		req, _ := http.NewRequest(http.MethodGet, s.URL+path, nil)
		req.Header["Accept-Encoding"] = []string{"br", "gzip"}
		first, err := http.DefaultClient.Do(req)
		if err != nil {
			t.Fatal(err)
		}
		first.Body.Close()
		if path == "/openapi.yaml" && first.Header.Get("Content-Encoding") != "gzip" {
			t.Errorf("%s is not packed", path)
		}
		req.Header["If-None-Match"] = []string{`"other"`, first.Header.Get("ETag")}
		again, err := http.DefaultClient.Do(req)
		if err != nil {
			t.Fatal(err)
		}
		again.Body.Close()
		if again.StatusCode != http.StatusNotModified {
			t.Errorf("%s: %s", path, again.Status)
		}
	}
}
