package api

import (
	"cmp"
	"net/http"
	"strings"
	"sync/atomic"
	"time"

	"wetrun/api/wire"
	"wetrun/internal/telemetry"
)

// A guard decides who may use the operations and the reference data under /v1. The
// documents, the pages and the checks of health are everybody's.
type guard struct {
	limits   Limits
	rates    *rates
	keys     *Keys
	stopping *atomic.Bool
}

func newGuard(o Options) *guard {
	g := &guard{limits: o.Limits, rates: newRates(), keys: o.Keys, stopping: o.Stopping}
	if g.stopping == nil {
		g.stopping = new(atomic.Bool)
	}
	return g
}

// dependsOnClient tells whether answers of a path depend on who asks.
func (g *guard) dependsOnClient(path string) bool {
	return strings.HasPrefix(path, "/v1/") && (g.keys != nil || g.limits.Rate > 0)
}

// admit returns nil, or the refusal of a request that may not go on. It comes
// before the body is read.
func (g *guard) admit(w http.ResponseWriter, req *http.Request) error {
	if g.stopping.Load() {
		w.Header().Set("Connection", "close")
		if req.URL.Path == "/readyz" {
			return &wire.Refusal{Kind: wire.ShuttingDown} // not overloaded: nobody need wait, another server takes it
		}
	}
	if !strings.HasPrefix(req.URL.Path, "/v1/") || req.Method == http.MethodOptions {
		return nil
	}
	quota, who := g.limits.Rate, client{}
	if g.keys != nil {
		k, given, ok := g.keys.holder(req.Header)
		if !ok {
			return refuseUnauthorized(w, given)
		}
		who.key, quota = k.name, cmp.Or(k.rate, quota)
		telemetry.SetKeyName(w, k.name)
	}
	if quota == 0 {
		return nil
	}
	if g.keys == nil {
		who.address = network(clientAddress(req, g.limits.TrustedProxies))
	}
	s := g.rates.spend(who, quota, time.Now())
	s.setHeaders(w.Header())
	if !s.allowed {
		return &wire.Refusal{Kind: wire.TooManyRequests, Args: []any{quota}}
	}
	return nil
}
