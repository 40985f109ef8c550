package main

import (
	"fmt"
	"net"
	"strings"
)

// welcome says where the service is, who may use it and what to try.
func (c *config) welcome(addr net.Addr) string {
	var b strings.Builder
	scheme, key := "http", ""
	if c.tlsCert != "" {
		scheme = "https"
	}
	if c.keys != "" {
		key = " -H 'Authorization: Bearer KEY'"
	}
	fmt.Fprintf(&b, "wetrun listens on %s://%s  (stop with Ctrl-C)\n", scheme, addr)
	if tcp, ok := addr.(*net.TCPAddr); ok && !tcp.IP.IsLoopback() {
		switch {
		case c.keys == "":
			b.WriteString("Open to everybody who can reach this address: no keys are set (-keys).\n")
		case c.tlsCert == "":
			b.WriteString("Keys cross the network in clear text here: set -tls-cert and -tls-key, or put a proxy with TLS in front.\n")
		}
	}
	fmt.Fprintf(&b, `Try:
  curl -s %s://%s/v1/ground-speed -H 'Content-Type: application/json'%s \
    -d '{"runs":[{"courseLength":{"value":100,"unit":"ft"},"time":{"value":22.8,"unit":"s"}}]}'
`, scheme, addr, key)
	return b.String()
}
