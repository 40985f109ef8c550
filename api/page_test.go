package api

import (
	"net/http"
	"net/http/httptest"
	"testing"
)

// TestSharedCachesKeepWhatIsForAll: what came for a key or against a quota is private;
// what everybody may have is public.
func TestSharedCachesKeepWhatIsForAll(t *testing.T) {
	secret, line := madeKey(t, "farm")
	keys, err := LoadKeys(keyFile(t, line), testLog(t.Output()))
	if err != nil {
		t.Fatal(err)
	}
	for name, c := range map[string]struct {
		options Options
		v1      string
	}{
		"open":         {Options{}, "public, max-age=3600"},
		"keys":         {Options{Keys: keys}, "private, max-age=3600"},
		"a rate limit": {Options{Limits: Limits{Rate: 100}}, "private, max-age=3600"},
	} {
		c.options.Log = testLog(t.Output())
		h := New(c.options)
		for path, want := range map[string]string{"/v1/units": c.v1, "/v1/meta": c.v1, "/openapi.yaml": "public, max-age=3600", "/problems/unauthorized": "public, max-age=3600"} {
			req := httptest.NewRequest(http.MethodGet, path, nil)
			req.Header.Set("Authorization", "Bearer "+secret)
			w := httptest.NewRecorder()
			h.ServeHTTP(w, req)
			again := httptest.NewRecorder()
			req.Header.Set("If-None-Match", w.Header().Get("ETag"))
			h.ServeHTTP(again, req)
			if got := w.Header().Get("Cache-Control"); w.Code != 200 || again.Code != 304 || got != want || again.Header().Get("Cache-Control") != want {
				t.Errorf("with %s, %s: %d and %d, %q and %q, want %q", name, path, w.Code, again.Code, got, again.Header().Get("Cache-Control"), want)
			}
		}
	}
}
