package api

import (
	"net/http"
	"slices"
	"strings"
	"testing"

	"wetrun/api/operation"
	"wetrun/internal/text"
)

// TestLanguageOfAnswers: what has texts says in which language and that it hangs on
// what was asked for, 304 included; what has none says nothing.
func TestLanguageOfAnswers(t *testing.T) {
	wordless := []string{"/livez", "/readyz", "/openapi.yaml", "/openapi.json", "/v1/meta", "/docs", "/.well-known/api-catalog"}
	for path := range pages(operation.All) {
		documented := path
		if strings.HasPrefix(path, "/problems/") {
			documented = "/problems/{type}"
		}
		if h := answered(t, got(t, documented), "200").Headers; (h["Content-Language"] == nil) != slices.Contains(wordless, path) {
			t.Errorf("%s: Content-Language is not documented as it is served", path)
		}
		for asked, want := range map[string]string{"": "en", "es-419": "es-419", "fr, es;q=0.1": "es", "de": "en", ";;": "en"} {
			if slices.Contains(wordless, path) {
				want = ""
			}
			for _, method := range []string{http.MethodGet, http.MethodHead} {
				w := call(t, method, path, "", "Accept-Language", asked)
				languageIs(t, method+" "+path, w.Header(), want)
				if etag := w.Header().Get("ETag"); etag != "" {
					again := call(t, method, path, "", "Accept-Language", asked, "If-None-Match", etag)
					if again.Code != http.StatusNotModified {
						t.Errorf("%s in %q: %d, not 304", path, asked, again.Code)
					}
					languageIs(t, "304 of "+path, again.Header(), want)
				}
			}
		}
	}
	for _, o := range operation.All {
		for status, answer := range posted(t, o.Name).Responses.Map() {
			if answer.Value.Headers["Content-Language"] == nil {
				t.Errorf("%s: %s does not document Content-Language", o.Name, status)
			}
		}
	}
	for asked, want := range map[string]string{"": "en", "es-MX,es;q=0.9": "es-419", "es-CL,es;q=0.9": "es"} {
		for contentType, status := range map[string]int{ndjson: 200, "application/json": 415} {
			w := call(t, http.MethodPost, "/v1/batch", "{}", "Content-Type", contentType, "Accept-Language", asked)
			if w.Code != status {
				t.Errorf("a batch of %s: %d", contentType, w.Code)
			}
			languageIs(t, "a batch of "+contentType, w.Header(), want)
		}
	}
	for body, status := range map[string]int{oneRun: 200, `{}`: 422, `{`: 400} {
		for asked, want := range map[string]string{"": "en", "es-MX,es;q=0.9": "es-419", "es-CL,es;q=0.9": "es"} {
			w := call(t, http.MethodPost, "/v1/ground-speed", body, "Accept-Language", asked)
			if w.Code != status {
				t.Errorf("%s: %d, want %d", body, w.Code, status)
			}
			languageIs(t, body, w.Header(), want)
		}
	}
}

func languageIs(t *testing.T, what string, h http.Header, want string) {
	t.Helper()
	varies := slices.Contains(h.Values("Vary"), "Accept-Language")
	if got := h.Values("Content-Language"); strings.Join(got, "|") != want || varies != (want != "") {
		t.Errorf("%s: Content-Language %q, Vary %q; want %q", what, got, h.Values("Vary"), want)
	}
}

// TestSeveralHeaderLines are one list.
func TestSeveralHeaderLines(t *testing.T) {
	for _, c := range []struct {
		lines []string
		want  text.Language
	}{
		{nil, text.English},
		{[]string{"en;q=0.5", "es"}, text.Spanish},
		{[]string{"fr", "es;q=0.5", "en;q=0.4"}, text.Spanish},
		{[]string{"en", "es"}, text.English},
	} {
		req := &http.Request{Header: http.Header{"Accept-Language": c.lines}}
		if got := languageOf(req); got != c.want {
			t.Errorf("%q: %s", c.lines, got.Tag())
		}
	}
}

func TestMetaListsLanguages(t *testing.T) {
	if body := call(t, http.MethodGet, "/v1/meta", "").Body.String(); !strings.Contains(body, `"languages":["en","es","es-419"]`) {
		t.Error(body)
	}
}
