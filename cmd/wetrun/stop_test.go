package main

import (
	"fmt"
	"net"
	"os"
	"testing"
	"time"
)

// TestOneBudgetToStop: a request that never ends takes all of the stop timeout, and a
// collector that never answers gets a second more, not the whole time again.
func TestOneBudgetToStop(t *testing.T) {
	silent, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer silent.Close()
	t.Setenv("OTEL_EXPORTER_OTLP_ENDPOINT", "http://"+silent.Addr().String())
	addr, stop, code := servingTo(t, t.Output(), os.Getenv, "-stop-timeout", "3s")
	conn, err := net.Dial("tcp", addr)
	if err != nil {
		t.Fatal(err)
	}
	defer conn.Close()
	fmt.Fprint(conn, head+"Content-Length: 50\r\n\r\n{")
	time.Sleep(100 * time.Millisecond)
	began := time.Now()
	stop()
	exits(t, code, 1)
	if took := time.Since(began); took < 3*time.Second || took > 5*time.Second {
		t.Errorf("stopping took %v, want 3 s for the request and 1 s for telemetry", took)
	}
}
