package api

import (
	"fmt"
	"math"
	"net/http"
	"net/netip"
	"slices"
	"strconv"
	"sync"
	"time"

	"github.com/hashicorp/golang-lru/v2/simplelru"
)

// mostClients bounds the table of the rate limit. When it is full, the client not
// seen for longest is forgotten.
const mostClients = 10_000

// A client is who a quota belongs to: the name of a key, or an address.
type client struct {
	key     string
	address netip.Addr
}

// rates count the requests of each client seen of late. One that has been quiet for
// the window has its whole quota, and is dropped.
type rates struct {
	mutex  sync.Mutex
	began  time.Time // times are counted from here
	counts *simplelru.LRU[client, *spending]
}

// window is the time that quotas count: within any so long a time no more requests of
// a client pass.
const window = time.Minute

// together is how near to each other requests are counted as one group, so that what a
// client takes in memory is bounded. They come back together, with the last of them.
const together = window / 30

func newRates() *rates {
	counts, err := simplelru.NewLRU[client, *spending](mostClients, nil)
	if err != nil { // only a size below 1 is one
		panic(err)
	}
	return &rates{counts: counts}
}

// A spending is what a client has spent within the window.
type spending struct {
	seen   time.Duration
	groups []group // the oldest first
}

type group struct {
	first, last time.Duration
	requests    int
}

// A standing is what is left of a client's quota.
type standing struct {
	quota     int
	remaining int
	full      time.Duration // until the whole quota is there again
	next      time.Duration // until one more request is
	allowed   bool
}

// spend counts one request of a client against its quota.
func (r *rates) spend(c client, quota int, at time.Time) standing {
	r.mutex.Lock()
	defer r.mutex.Unlock()
	if r.began.IsZero() {
		r.began = at
	}
	now := at.Sub(r.began)
	x, ok := r.counts.Get(c)
	if !ok {
		x = new(spending)
		r.counts.Add(c, x)
	}
	x.seen = now
	r.forget(now)
	return x.spend(quota, now)
}

func (x *spending) spend(quota int, now time.Duration) standing {
	x.groups = slices.DeleteFunc(x.groups, func(g group) bool { return now-g.last >= window })
	s := standing{quota: quota}
	spent := 0
	for _, g := range x.groups {
		spent += g.requests
	}
	if s.allowed = spent < quota; s.allowed {
		spent++
		if n := len(x.groups) - 1; n >= 0 && now-x.groups[n].first < together {
			x.groups[n].last = now
			x.groups[n].requests++
		} else {
			x.groups = append(x.groups, group{now, now, 1})
		}
	}
	s.remaining = max(0, quota-spent)
	s.full = x.groups[len(x.groups)-1].last + window - now
	for _, g := range x.groups {
		if spent < quota {
			break
		}
		spent -= g.requests
		s.next = g.last + window - now
	}
	return s
}

// forget drops the clients that have spent nothing within the window.
func (r *rates) forget(now time.Duration) {
	for {
		_, oldest, ok := r.counts.GetOldest()
		if !ok || now-oldest.seen < window {
			return
		}
		r.counts.RemoveOldest()
	}
}

// setHeaders puts the standing in the fields of draft-ietf-httpapi-ratelimit-headers-10,
// which are structured fields (RFC 9651), and in Retry-After when it is used up.
func (s standing) setHeaders(h http.Header) {
	h.Set("RateLimit-Policy", fmt.Sprintf(`"requests";q=%d;w=%d`, s.quota, int(window.Seconds())))
	h.Set("RateLimit", fmt.Sprintf(`"requests";r=%d;t=%d`, s.remaining, seconds(s.full)))
	if !s.allowed {
		h.Set("Retry-After", strconv.Itoa(max(1, seconds(s.next))))
	}
}

func seconds(d time.Duration) int { return int(math.Ceil(d.Seconds())) }
