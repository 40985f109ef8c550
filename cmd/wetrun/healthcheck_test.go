package main

import (
	"bytes"
	"net"
	"strings"
	"testing"
	"time"
)

// TestHealthcheck asks servers of several kinds, one that is stopping and none.
func TestHealthcheck(t *testing.T) {
	check := func(env map[string]string) (int, string) {
		var errs bytes.Buffer
		code := run(t.Context(), []string{"healthcheck"}, func(name string) string { return env[name] }, nil, nil, &errs)
		return code, errs.String()
	}
	addr, stop, code := serving(t, nil, "-drain-delay", "700ms")
	_, port, _ := net.SplitHostPort(addr)
	for _, a := range []string{addr, ":" + port, "0.0.0.0:" + port} {
		if code, says := check(map[string]string{"WETRUN_ADDR": a}); code != 0 || says != "" {
			t.Errorf("%s: %d %s", a, code, says)
		}
	}
	stop()
	time.Sleep(100 * time.Millisecond)
	if code, says := check(map[string]string{"WETRUN_ADDR": addr}); code != 1 || !strings.Contains(says, "503") {
		t.Errorf("a server that stops: %d %s", code, says)
	}
	exits(t, code, 0)
	for says, a := range map[string]string{"refused": addr, "write HOST:PORT": "127.0.0.1"} {
		if code, said := check(map[string]string{"WETRUN_ADDR": a}); code != 1 || !strings.Contains(said, says) {
			t.Errorf("%s: %d %s", a, code, said)
		}
	}
	certFile, keyFile := certificate(t, t.TempDir(), 1)
	env := map[string]string{"WETRUN_TLS_CERT": certFile, "WETRUN_TLS_KEY": keyFile}
	env["WETRUN_ADDR"], _, _ = serving(t, env)
	if code, says := check(env); code != 0 {
		t.Errorf("by TLS: %d %s", code, says)
	}
	if code, says := check(map[string]string{"WETRUN_MAX_WAIT": "soon"}); code != 1 || !strings.Contains(says, "WETRUN_MAX_WAIT") {
		t.Errorf("bad settings: %d %s", code, says)
	}
}

func TestReadyURL(t *testing.T) {
	for addr, want := range map[string]string{
		"127.0.0.1:8080": "http://127.0.0.1:8080/readyz", ":80": "http://127.0.0.1:80/readyz", "[::]:80": "http://[::1]:80/readyz",
		"0.0.0.0:80": "http://127.0.0.1:80/readyz", "localhost:80": "http://localhost:80/readyz", "[2001:db8::1]:80": "http://[2001:db8::1]:80/readyz",
	} {
		if got, err := (&config{addr: addr}).readyURL(); err != nil || got != want {
			t.Errorf("%s: %s %v, want %s", addr, got, err, want)
		}
	}
	c := &config{addr: ":443", tlsCert: "cert.pem", adminAddr: ":9090"}
	if got, err := c.readyURL(); err != nil || got != "http://127.0.0.1:9090/readyz" {
		t.Errorf("with an admin address: %s %v", got, err)
	}
}
