package api

import (
	"net/http"
	"net/http/httptest"
	"net/netip"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"
)

// TestRateLimit spends a quota of three: the fields count down, the fourth request
// is a 429 that says when to come back, and only /v1 counts.
func TestRateLimit(t *testing.T) {
	h := New(Options{Log: testLog(t.Output()), Limits: Limits{Rate: 3}})
	send := func(method, path, from string) *httptest.ResponseRecorder {
		req := httptest.NewRequest(method, path, strings.NewReader(oneRun))
		req.Header.Set("Content-Type", "application/json")
		req.RemoteAddr = from
		w := httptest.NewRecorder()
		h.ServeHTTP(w, req)
		return w
	}
	for i, left := range []string{"2", "1", "0"} {
		w := send("POST", "/v1/ground-speed", "192.0.2.1:100"+strconv.Itoa(i))
		if w.Code != http.StatusOK || w.Header().Get("RateLimit-Policy") != `"requests";q=3;w=60` || !strings.HasPrefix(w.Header().Get("RateLimit"), `"requests";r=`+left+`;t=`) {
			t.Errorf("request %d: %d %v", i, w.Code, w.Header())
		}
	}
	w := send("GET", "/v1/units", "192.0.2.1:2000")
	if p := problemOf(t, http.StatusTooManyRequests, w.Header(), w.Body.Bytes()); p.Type != "/problems/too_many_requests" {
		t.Errorf("%+v", p)
	}
	if after, err := strconv.Atoi(w.Header().Get("Retry-After")); err != nil || after < 58 || after > 60 { // the three were sent just now
		t.Errorf("Retry-After %q", w.Header().Get("Retry-After"))
	}
	for path, from := range map[string]string{"/livez": "192.0.2.1:1", "/openapi.yaml": "192.0.2.1:1", "/v1/units": "192.0.2.2:1"} {
		if w := send("GET", path, from); w.Code != http.StatusOK {
			t.Errorf("%s from %s: %d", path, from, w.Code)
		}
	}
	if w := send("OPTIONS", "/v1/units", "192.0.2.1:1"); w.Code != http.StatusNoContent {
		t.Errorf("OPTIONS: %d", w.Code)
	}
}

// TestPropertyRateLimit: over any pattern of requests, a client gets no more than its
// quota within any minute, and what it is told of
// its quota comes true.
func TestPropertyRateLimit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		quota := rapid.IntRange(1, 100).Draw(t, "quota")
		r, now := newRates(), time.Unix(1_700_000_000, 0)
		var passed []time.Time
		promised := now
		for _, pause := range rapid.SliceOfN(rapid.IntRange(0, 5000), 1, 300).Draw(t, "pauses") {
			now = now.Add(time.Duration(pause) * time.Millisecond)
			s := r.spend(client{key: "a"}, quota, now)
			within := 0
			for _, p := range passed {
				if now.Sub(p) < time.Minute {
					within++
				}
			}
			if s.allowed {
				passed = append(passed, now)
				within++
			}
			if within > quota {
				t.Fatalf("%d of %d in a minute", within, quota)
			}
			if s.remaining < 0 || s.remaining > quota-within || s.full > time.Minute || s.full <= 0 {
				t.Fatalf("%d of %d have passed, %+v", within, quota, s)
			}
			if s.allowed && s.remaining > 0 && s.next != 0 || (!s.allowed || s.remaining == 0) && s.next <= 0 {
				t.Fatalf("the next one: %+v", s)
			}
			if !s.allowed && !now.Before(promised) {
				t.Fatalf("refused, though one was promised by then: %+v", s)
			}
			promised = now.Add(s.next)
		}
		if len(r.counts.Keys()) != 1 {
			t.Fatalf("%d clients", r.counts.Len())
		}
		x, _ := r.counts.Peek(client{key: "a"})
		if len(x.groups) > int(window/together)+1 {
			t.Fatalf("%d groups", len(x.groups))
		}
		later := now.Add(window)
		if s := r.spend(client{key: "b"}, quota, later); !s.allowed || r.counts.Len() != 1 {
			t.Fatalf("after the window: %+v, %d clients remembered", s, r.counts.Len())
		}
		if s := r.spend(client{key: "a"}, quota, later); s.remaining != quota-1 {
			t.Fatalf("after the window: %+v", s)
		}
	})
}

// TestRateOfASteadyClient: one that asks more often than it may, all the time, gets its
// quota in each minute but for what comes back up to two seconds late: six a minute, for
// one that asks every five seconds, pass in the first half minute, and again from the
// second minute on.
func TestRateOfASteadyClient(t *testing.T) {
	r, now := newRates(), time.Unix(1_700_000_000, 0)
	var passed []int
	for second := 0; second < 180; second += 5 {
		if r.spend(client{key: "a"}, 6, now.Add(time.Duration(second)*time.Second)).allowed {
			passed = append(passed, second)
		}
	}
	if want := []int{0, 5, 10, 15, 20, 25, 60, 65, 70, 75, 80, 85, 120, 125, 130, 135, 140, 145}; !slices.Equal(passed, want) {
		t.Errorf("passed at %v, want %v", passed, want)
	}
}

// TestRateTableIsBounded: more clients than the table holds do not make it grow.
func TestRateTableIsBounded(t *testing.T) {
	r, now := newRates(), time.Unix(1_700_000_000, 0)
	for i := range mostClients + 500 {
		r.spend(client{key: strconv.Itoa(i)}, 5, now)
	}
	if n := r.counts.Len(); n != mostClients {
		t.Errorf("%d clients remembered", n)
	}
}

// TestClientAddress: X-Forwarded-For counts only from trusted peers, and only as
// far as they wrote it.
func TestClientAddress(t *testing.T) {
	trusted := []netip.Prefix{netip.MustParsePrefix("10.0.0.0/8"), netip.MustParsePrefix("2001:db8:1::/48")}
	for _, c := range []struct {
		peer      string
		forwarded []string
		want      string
	}{
		{"192.0.2.1:80", []string{"198.51.100.1"}, "192.0.2.1"},
		{"10.1.1.1:80", nil, "10.1.1.1"},
		{"10.1.1.1:80", []string{"198.51.100.1"}, "198.51.100.1"},
		{"10.1.1.1:80", []string{"203.0.113.9, 198.51.100.1"}, "198.51.100.1"},
		{"10.1.1.1:80", []string{"203.0.113.9, 198.51.100.1, 10.9.9.9"}, "198.51.100.1"},
		{"10.1.1.1:80", []string{"203.0.113.9", "198.51.100.1,10.9.9.9"}, "198.51.100.1"},
		{"10.1.1.1:80", []string{"198.51.100.1:4711"}, "198.51.100.1"},
		{"10.1.1.1:80", []string{"198.51.100.1, nonsense, 10.9.9.9"}, "10.9.9.9"},
		{"[2001:db8:1::5]:80", []string{"2001:db8:2::7"}, "2001:db8:2::7"},
		{"[::ffff:10.1.1.1]:80", []string{"::ffff:198.51.100.1"}, "198.51.100.1"},
		{"@", []string{"198.51.100.1"}, "invalid IP"},
	} {
		req := httptest.NewRequest(http.MethodGet, "/v1/units", nil)
		req.RemoteAddr = c.peer
		for _, line := range c.forwarded {
			req.Header.Add("X-Forwarded-For", line)
		}
		if got := clientAddress(req, trusted).String(); got != c.want {
			t.Errorf("%s with %q: %s, want %s", c.peer, c.forwarded, got, c.want)
		}
	}
	if a, b := network(netip.MustParseAddr("2001:db8:2:3::1")), network(netip.MustParseAddr("2001:db8:2:3:4::9")); a != b {
		t.Errorf("two addresses of one subscriber: %v, %v", a, b)
	}
}
