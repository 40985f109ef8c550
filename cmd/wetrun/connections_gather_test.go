package main

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"net"
	"net/http"
	"strconv"
	"strings"
	"testing"
	"time"
)

type connOf struct{}

func bound(t *testing.T) *boundedListener {
	t.Helper()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	b := boundListener(l.(*net.TCPListener), 10)
	t.Cleanup(func() { b.Close() })
	return b
}

// TestGatheredBytesComeTogether: what is written before all of it is there stays back,
// and nothing is lost or stays back for good.
func TestGatheredBytesComeTogether(t *testing.T) {
	l := bound(t)
	client, err := net.Dial("tcp", l.Addr().String())
	if err != nil {
		t.Fatal(err)
	}
	defer client.Close()
	server, err := l.Accept()
	if err != nil {
		t.Fatal(err)
	}
	defer server.Close()
	write := func(s string) {
		t.Helper()
		if n, err := io.WriteString(server, s); n != len(s) || err != nil {
			t.Errorf("%d of %d bytes written, %v", n, len(s), err)
		}
	}
	read := func(wait time.Duration) string {
		t.Helper()
		if err := client.SetReadDeadline(time.Now().Add(wait)); err != nil {
			t.Fatal(err)
		}
		b := make([]byte, 1000)
		n, _ := client.Read(b) // nothing in time is an answer too
		return string(b[:n])
	}
	server.(*boundedConn).Gather(10)
	write("head")
	write("12345")
	if got := read(50 * time.Millisecond); got != "" {
		t.Errorf("%q came before it was due", got)
	}
	write("67890")
	if got := read(5 * time.Second); got != "head1234567890" {
		t.Errorf("%q came", got)
	}
	write("next")
	if got := read(5 * time.Second); got != "next" {
		t.Errorf("%q came", got)
	}
}

// TestAnswersOfEverySizeArrive: whatever the buffer of net/http makes of an answer, all
// of it arrives, also on a connection that has had others.
func TestAnswersOfEverySizeArrive(t *testing.T) {
	l := bound(t)
	server := &http.Server{
		Handler: http.HandlerFunc(func(w http.ResponseWriter, req *http.Request) {
			n, _ := strconv.Atoi(strings.TrimPrefix(req.URL.Path, "/")) // of the loop below
			w.Header().Set("Content-Length", strconv.Itoa(n))
			req.Context().Value(connOf{}).(*boundedConn).Gather(n)
			if _, err := w.Write(bytes.Repeat([]byte("x"), n)); err != nil {
				t.Error(err)
			}
		}),
		ConnContext: func(ctx context.Context, c net.Conn) context.Context { return context.WithValue(ctx, connOf{}, c) },
	}
	go func() { _ = server.Serve(l) }() // it ends with the test
	defer server.Close()
	client := &http.Client{Timeout: 5 * time.Second}
	for _, around := range []int{100, 2048, 4096, 8192, 12288, 65536} {
		for n := around - 100; n <= around+10; n++ {
			resp, err := client.Get(fmt.Sprintf("http://%s/%d", l.Addr(), n))
			if err != nil {
				t.Fatalf("%d bytes: %v", n, err)
			}
			got, err := io.Copy(io.Discard, resp.Body)
			resp.Body.Close()
			if err != nil || got != int64(n) {
				t.Fatalf("%d bytes: %d came, %v", n, got, err)
			}
		}
	}
}
