package api

import (
	"fmt"
	"math"
	"net/http"
	"net/netip"
	"strconv"
	"sync"
	"time"

	"github.com/hashicorp/golang-lru/v2/simplelru"
	"golang.org/x/time/rate"
)

// mostClients bounds the table of the rate limit. When it is full, the client not
// seen for longest is forgotten.
const mostClients = 10_000

// A client is who a quota belongs to: the name of a key, or an address.
type client struct {
	key     string
	address netip.Addr
}

// rates hold a token bucket for each client seen of late. One that has been quiet
// for the window has a full bucket, and is dropped.
type rates struct {
	mutex   sync.Mutex
	buckets *simplelru.LRU[client, *bucket]
}

type bucket struct {
	limiter rate.Limiter
	seen    time.Time
}

// window is the time that quotas count.
const window = time.Minute

func newRates() *rates {
	buckets, err := simplelru.NewLRU[client, *bucket](mostClients, nil)
	if err != nil { // only a size below 1 is one
		panic(err)
	}
	return &rates{buckets: buckets}
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
func (r *rates) spend(c client, quota int, now time.Time) standing {
	r.mutex.Lock()
	defer r.mutex.Unlock()
	b, ok := r.buckets.Get(c)
	perSecond := rate.Limit(float64(quota) / window.Seconds())
	if !ok || b.limiter.Burst() != quota {
		b = &bucket{limiter: *rate.NewLimiter(perSecond, quota)}
		r.buckets.Add(c, b)
	}
	b.seen = now
	r.forget(now)
	s := standing{quota: quota, allowed: b.limiter.AllowN(now, 1)}
	tokens := b.limiter.TokensAt(now)
	s.remaining = max(0, int(tokens))
	s.full = wait(float64(quota)-tokens, perSecond)
	s.next = wait(1-tokens, perSecond)
	return s
}

// forget drops the clients whose bucket has filled up since they were last seen.
func (r *rates) forget(now time.Time) {
	for {
		_, oldest, ok := r.buckets.GetOldest()
		if !ok || now.Sub(oldest.seen) < window {
			return
		}
		r.buckets.RemoveOldest()
	}
}

// wait is how long it takes until so many tokens have come in.
func wait(tokens float64, each rate.Limit) time.Duration {
	return time.Duration(max(0, tokens) / float64(each) * float64(time.Second))
}

// tell puts the standing in the fields of draft-ietf-httpapi-ratelimit-headers-10,
// which are structured fields (RFC 9651), and in Retry-After when it is used up.
func (s standing) tell(h http.Header) {
	h.Set("RateLimit-Policy", fmt.Sprintf(`"requests";q=%d;w=%d`, s.quota, int(window.Seconds())))
	h.Set("RateLimit", fmt.Sprintf(`"requests";r=%d;t=%d`, s.remaining, seconds(s.full)))
	if !s.allowed {
		h.Set("Retry-After", strconv.Itoa(max(1, seconds(s.next))))
	}
}

func seconds(d time.Duration) int { return int(math.Ceil(d.Seconds())) }
