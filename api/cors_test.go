package api

import (
	"net/http"
	"net/http/httptest"
	"slices"
	"strings"
	"testing"

	"wetrun/api/operation"
)

// from sends a request as a browser does for a page of origin.
func from(h http.Handler, origin, method, path, body string, headers ...string) *httptest.ResponseRecorder {
	req := httptest.NewRequest(method, path, strings.NewReader(body))
	if origin != "" {
		req.Header.Set("Origin", origin)
	}
	for i := 0; i+1 < len(headers); i += 2 {
		req.Header.Set(headers[i], headers[i+1])
	}
	w := httptest.NewRecorder()
	h.ServeHTTP(w, req)
	return w
}

const (
	site  = "https://extension.example"
	other = "https://other.example"
)

// TestAnswersAreShared: whatever the answer, an allowed page may read it and the
// headers that mean something.
func TestAnswersAreShared(t *testing.T) {
	everyone := New(Options{Log: testLog(t.Output()), AllowOrigins: []string{AnyOrigin}})
	listed := New(Options{Log: testLog(t.Output()), AllowOrigins: []string{other, site}})
	for _, c := range []struct {
		method, path, contentType, body string
		status                          int
	}{
		{"POST", "/v1/ground-speed", "application/json", oneRun, 200},
		{"GET", "/v1/units", "", "", 200},
		{"HEAD", "/openapi.yaml", "", "", 200},
		{"GET", "/docs/swagger-ui.css", "", "", 200},
		{"POST", "/v1/ground-speed", "application/json", "{", 400},
		{"POST", "/v1/nothing", "application/json", "{}", 404},
		{"GET", "/v1/ground-speed", "", "", 405},
		{"POST", "/v1/ground-speed", "application/json", strings.Repeat(" ", operation.MostBody+1), 413},
		{"POST", "/v1/ground-speed", "text/plain", oneRun, 415},
		{"POST", "/v1/ground-speed", "application/json", "{}", 422},
	} {
		for name, h := range map[string]http.Handler{"*": everyone, site: listed} {
			w := from(h, site, c.method, c.path, c.body, "Content-Type", c.contentType)
			if w.Code != c.status || w.Header().Get("Access-Control-Allow-Origin") != name || w.Header().Get("Access-Control-Allow-Credentials") != "" {
				t.Errorf("%s %s: %d %v", c.method, c.path, w.Code, w.Header())
			}
			for _, header := range []string{"X-Request-Id", "ETag", "Link", "Retry-After", "RateLimit", "RateLimit-Policy", "Deprecation", "Sunset", "Content-Language", "Allow"} {
				if !strings.Contains(strings.ToLower(w.Header().Get("Access-Control-Expose-Headers")+","), strings.ToLower(header)+",") {
					t.Errorf("%s %s hides %s", c.method, c.path, header)
				}
			}
			if byOrigin := slices.Contains(w.Header().Values("Vary"), "Origin"); byOrigin != (name == site) {
				t.Errorf("%s %s: Vary %v", c.method, c.path, w.Header().Values("Vary"))
			}
		}
		for _, origin := range []string{"https://elsewhere.example", "null", site + ".elsewhere.example", "http://extension.example", ""} {
			w := from(listed, origin, c.method, c.path, c.body, "Content-Type", c.contentType)
			if w.Code != c.status || w.Header().Get("Access-Control-Allow-Origin") != "" || !slices.Contains(w.Header().Values("Vary"), "Origin") {
				t.Errorf("%s %s for %q: %d %v", c.method, c.path, origin, w.Code, w.Header())
			}
		}
	}
}

func TestPreflight(t *testing.T) {
	const headers = "accept-language,authorization,content-type,if-none-match,x-request-id"
	for _, c := range []struct {
		allowed                 []string
		origin, method, headers string
		want                    string
	}{
		{[]string{AnyOrigin}, site, "POST", headers, "*"},
		{[]string{AnyOrigin}, site, "GET", "", "*"},
		{[]string{AnyOrigin}, site, "DELETE", "", ""},
		{[]string{AnyOrigin}, site, "POST", "x-other", ""},
		{[]string{site}, site, "POST", headers, site},
		{[]string{site}, other, "POST", headers, ""},
		{nil, site, "POST", headers, ""},
	} {
		h := New(Options{Log: testLog(t.Output()), AllowOrigins: c.allowed})
		ask := []string{"Access-Control-Request-Method", c.method}
		if c.headers != "" {
			ask = append(ask, "Access-Control-Request-Headers", c.headers)
		}
		w := from(h, c.origin, http.MethodOptions, "/v1/ground-speed", "", ask...)
		got := w.Header()
		if w.Code != http.StatusNoContent || got.Get("Access-Control-Allow-Origin") != c.want || got.Get("X-Request-Id") == "" {
			t.Errorf("%+v: %d %v", c, w.Code, got)
		}
		if c.want == "" {
			continue
		}
		if got.Get("Access-Control-Max-Age") != "7200" || got.Get("Access-Control-Allow-Methods") != c.method ||
			got.Get("Access-Control-Allow-Headers") != c.headers || !strings.Contains(got.Get("Vary"), "Origin") {
			t.Errorf("%+v: %v", c, got)
		}
	}
	// OPTIONS that is no preflight lists the methods.
	h := New(Options{Log: testLog(t.Output()), AllowOrigins: []string{AnyOrigin}})
	if w := from(h, site, http.MethodOptions, "/v1/units", ""); w.Header().Get("Allow") != "OPTIONS, GET, HEAD" {
		t.Errorf("%d %v", w.Code, w.Header())
	}
}

func TestParseOrigins(t *testing.T) {
	for list, want := range map[string]string{
		"*": "*", "none": "", site: site, "HTTPS://Extension.Example, http://[::1]:8080": site + " http://[::1]:8080",
	} {
		got, err := ParseOrigins(list)
		if err != nil || strings.Join(got, " ") != want {
			t.Errorf("%q: %v, %v", list, got, err)
		}
	}
	for _, list := range []string{"", "example.org", "https://", site + "/", site + "/page", site + "?a", "https://me@example.org/", "https://*.example.org", "*," + site, site + ",,", "null"} {
		if got, err := ParseOrigins(list); err == nil {
			t.Errorf("%q is taken as %v", list, got)
		}
	}
}

// TestSharingIsCheap: the headers cost no more than the places they stand in.
func TestSharingIsCheap(t *testing.T) {
	h := withCORS([]string{AnyOrigin}, http.HandlerFunc(func(http.ResponseWriter, *http.Request) {}))
	w, req := httptest.NewRecorder(), httptest.NewRequest(http.MethodPost, "/v1/ground-speed", nil)
	req.Header.Set("Origin", site)
	if n := testing.AllocsPerRun(100, func() { h.ServeHTTP(w, req) }); n > 0 {
		t.Errorf("%v allocations", n)
	}
}

// TestLimitsAreShared: a page can read that its client has used up its quota, and when
// to come back.
func TestLimitsAreShared(t *testing.T) {
	h := New(Options{Log: testLog(t.Output()), AllowOrigins: []string{site}, Limits: Limits{Rate: 1}})
	for _, status := range []int{http.StatusOK, http.StatusTooManyRequests} {
		w := from(h, site, http.MethodPost, "/v1/ground-speed", oneRun, "Content-Type", "application/json")
		if w.Code != status || w.Header().Get("Access-Control-Allow-Origin") != site || w.Header().Get("RateLimit") == "" {
			t.Errorf("%d %v", w.Code, w.Header())
		}
	}
}
