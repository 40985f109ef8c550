package main

import (
	"net"
	"net/http"
	"os"
	"regexp"
	"testing"
	"time"
)

// TestProbesTakeNoConnection: with every connection held by clients, probes at the
// admin address are answered as those of the service would be.
func TestProbesTakeNoConnection(t *testing.T) {
	log := new(safeBuffer)
	addr, stop, code := servingTo(t, log, os.Getenv, "-max-connections", "1", "-admin-addr", "127.0.0.1:0", "-drain-delay", "1s")
	admin := regexp.MustCompile(`http://(\S+)/metrics`).FindStringSubmatch(log.String())
	if admin == nil {
		t.Fatalf("no admin address in %s", log)
	}
	held, err := net.Dial("tcp", addr)
	if err != nil {
		t.Fatal(err)
	}
	defer held.Close()
	client := &http.Client{Timeout: 5 * time.Second, Transport: &http.Transport{DisableKeepAlives: true}}
	for _, c := range []struct {
		stopping bool
		path     string
		status   int
		kind     string
	}{
		{false, "/livez", 200, "application/json"},
		{false, "/readyz", 200, "application/json"},
		{true, "/livez", 200, "application/json"},
		{true, "/readyz", 503, "application/problem+json"},
	} {
		if c.stopping {
			stop()
			time.Sleep(100 * time.Millisecond)
		}
		resp, err := client.Get("http://" + admin[1] + c.path)
		if err != nil {
			t.Fatal(err)
		}
		resp.Body.Close()
		if resp.StatusCode != c.status || resp.Header.Get("Content-Type") != c.kind {
			t.Errorf("stopping %v, %s: %s %s", c.stopping, c.path, resp.Status, resp.Header.Get("Content-Type"))
		}
	}
	held.Close()
	exits(t, code, 0)
}
