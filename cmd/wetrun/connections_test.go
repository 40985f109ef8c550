package main

import (
	"io"
	"net"
	"strings"
	"testing"
	"time"
)

// TestConnectionsAreBounded: one more than the bound waits, and gets its turn when
// another leaves; those that wait do not keep the server from stopping.
func TestConnectionsAreBounded(t *testing.T) {
	addr, stop, code := serving(t, nil, "-max-connections", "2")
	ask := func(c net.Conn) (answer string) {
		t.Helper()
		if _, err := io.WriteString(c, wholeRequest("bound")); err != nil {
			t.Fatal(err)
		}
		if err := c.SetReadDeadline(time.Now().Add(time.Second)); err != nil {
			t.Fatal(err)
		}
		b := make([]byte, 4096)
		n, _ := c.Read(b) // nothing read is an answer too: none
		return string(b[:n])
	}
	var open []net.Conn
	for range 4 {
		c, err := net.Dial("tcp", addr)
		if err != nil {
			t.Fatal(err)
		}
		defer c.Close()
		open = append(open, c)
	}
	for i, c := range open[:2] {
		if answer := ask(c); !strings.HasPrefix(answer, "HTTP/1.1 200") {
			t.Errorf("connection %d: %q", i, answer)
		}
	}
	if answer := ask(open[2]); answer != "" {
		t.Errorf("a third connection was answered: %q", answer)
	}
	open[0].Close()
	if err := open[2].SetReadDeadline(time.Now().Add(5 * time.Second)); err != nil {
		t.Fatal(err)
	}
	b := make([]byte, 15)
	if _, err := io.ReadFull(open[2], b); err != nil || string(b) != "HTTP/1.1 200 OK" {
		t.Errorf("the third connection, when the first has left: %q, %v", b, err)
	}
	stop()
	exits(t, code, 0)
}
