package api

import (
	"net/http"
	"net/netip"
	"slices"
	"strings"
)

// clientAddress is where a request comes from: the peer, or behind trusted proxies
// the last address of X-Forwarded-For that is not one of them. What stands further
// left there, anybody can have written.
func clientAddress(req *http.Request, trusted []netip.Prefix) netip.Addr {
	address := parseAddress(req.RemoteAddr)
	if !isTrusted(address, trusted) {
		return address
	}
	for _, line := range slices.Backward(req.Header.Values("X-Forwarded-For")) {
		hops := strings.Split(line, ",")
		for _, hop := range slices.Backward(hops) {
			next := parseAddress(strings.TrimSpace(hop))
			if !next.IsValid() {
				return address
			}
			address = next
			if !isTrusted(address, trusted) {
				return address
			}
		}
	}
	return address
}

// parseAddress reads an address with or without a port; the zero Addr is none.
func parseAddress(s string) netip.Addr {
	if withPort, err := netip.ParseAddrPort(s); err == nil {
		return withPort.Addr().Unmap().WithZone("")
	}
	plain, _ := netip.ParseAddr(s)
	return plain.Unmap().WithZone("")
}

func isTrusted(a netip.Addr, trusted []netip.Prefix) bool {
	return slices.ContainsFunc(trusted, func(p netip.Prefix) bool { return p.Contains(a) })
}

// network is what one client may own: an address, or the /64 that IPv6 gives to
// each subscriber.
func network(a netip.Addr) netip.Addr {
	if a.Is6() {
		if p, err := a.Prefix(64); err == nil {
			return p.Addr()
		}
	}
	return a
}
