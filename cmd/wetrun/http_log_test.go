package main

import (
	"crypto/tls"
	"io"
	"net"
	"os"
	"strings"
	"testing"
	"time"
)

// TestLogOfConnectionsIsPrivate: clients that break off or offer what nobody takes are
// logged by what went wrong, without their address and their words.
func TestLogOfConnectionsIsPrivate(t *testing.T) {
	certFile, keyFile := certificate(t, t.TempDir(), 1)
	log := new(safeBuffer)
	addr, stop, code := servingTo(t, log, os.Getenv, "-tls-cert", certFile, "-tls-key", keyFile)
	plain, err := net.Dial("tcp", addr)
	if err != nil {
		t.Fatal(err)
	}
	defer plain.Close()
	if _, err := io.WriteString(plain, wholeRequest("plain")); err != nil {
		t.Fatal(err)
	}
	if c, err := tls.Dial("tcp", addr, &tls.Config{InsecureSkipVerify: true, NextProtos: []string{"marked"}}); err == nil {
		c.Close()
		t.Error("an unknown protocol is accepted")
	}
	for until := time.Now().Add(5 * time.Second); strings.Count(log.String(), "TLS handshake error from (address)") < 2; time.Sleep(20 * time.Millisecond) {
		if time.Now().After(until) {
			t.Fatalf("no lines of two failed handshakes: %s", log)
		}
	}
	stop()
	exits(t, code, 0)
	if said := log.String(); strings.Contains(said, "127.0.0.1") || strings.Contains(said, "marked") || !strings.Contains(said, "unsupported application protocols") {
		t.Error(said)
	}
}

func TestAddressesAreTakenOut(t *testing.T) {
	for said, want := range map[string]string{
		"http: TLS handshake error from [2001:db8::7%eth0]:443: EOF":                       "http: TLS handshake error from (address): EOF",
		"read tcp 192.0.2.1:8443->[::ffff:192.0.2.7]:57504: read: connection reset":        "read tcp (address)->(address): read: connection reset",
		`protocols (["marked" "a\"b"]) of 192.0.2.7`:                                       `protocols ([(text) (text)]) of (address)`,
		"client offered only unsupported versions: [302 301] at 12:30:15, go1.26.8, 3 1.5": "client offered only unsupported versions: [302 301] at 12:30:15, go1.26.8, 3 1.5",
	} {
		log := new(safeBuffer)
		c := &config{logFormat: "json"}
		c.server(nil, c.logger(log)).ErrorLog.Print(said)
		if got := strings.ReplaceAll(log.String(), `\"`, `"`); !strings.Contains(got, `"msg":"`+want+`"`) {
			t.Errorf("%s: %s, want %s", said, got, want)
		}
	}
}
