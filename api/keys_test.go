package api

import (
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"wetrun/api/operation"
)

func keyFile(t *testing.T, lines ...string) string {
	t.Helper()
	file := filepath.Join(t.TempDir(), "keys")
	if err := os.WriteFile(file, []byte(strings.Join(lines, "\n")+"\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	return file
}

func madeKey(t *testing.T, name string) (secret, line string) {
	t.Helper()
	secret, line, err := NewKey(name)
	if err != nil {
		t.Fatal(err)
	}
	return secret, line
}

// TestKeys: with keys, /v1 answers 401 with a challenge unless one comes along, the
// rest stays open, and a key of its own rate has it.
func TestKeys(t *testing.T) {
	farm, farmLine := madeKey(t, "farm")
	coop, coopLine := madeKey(t, "co-op")
	file := keyFile(t, "# invented", "", farmLine+" 2", coopLine)
	keys, err := LoadKeys(file, testLog(t.Output()))
	if err != nil {
		t.Fatal(err)
	}
	h := New(Options{Log: testLog(t.Output()), Keys: keys})
	send := func(method, path, authorization string) *httptest.ResponseRecorder {
		req := httptest.NewRequest(method, path, strings.NewReader(oneRun))
		req.Header.Set("Content-Type", "application/json")
		if authorization != "" {
			req.Header.Set("Authorization", authorization)
		}
		w := httptest.NewRecorder()
		h.ServeHTTP(w, req)
		return w
	}
	for authorization, challenge := range map[string]string{
		"":                          `Bearer realm="wetrun"`,
		"Basic " + coop:             `Bearer realm="wetrun"`,
		"Bearer":                    `Bearer realm="wetrun"`,
		"Bearer " + coop[1:]:        `Bearer realm="wetrun", error="invalid_token"`,
		"Bearer " + coop + "A":      `Bearer realm="wetrun", error="invalid_token"`,
		"Bearer " + coopLine[6:]:    `Bearer realm="wetrun", error="invalid_token"`, // the digest is no key
		"Bearer " + coop + " " + "": "",
		"bearer  " + coop:           "",
	} {
		w := send("POST", "/v1/ground-speed", authorization)
		if challenge == "" {
			if w.Code != http.StatusOK {
				t.Errorf("%q: %d", authorization, w.Code)
			}
			continue
		}
		p := problemOf(t, http.StatusUnauthorized, w.Header(), w.Body.Bytes())
		if p.Type != "/problems/unauthorized" || w.Header().Get("WWW-Authenticate") != challenge || strings.Contains(w.Body.String(), coop[1:]) {
			t.Errorf("%q: %+v, challenge %q", authorization, p, w.Header().Get("WWW-Authenticate"))
		}
	}
	for path, status := range map[string]int{"/livez": 200, "/readyz": 200, "/openapi.yaml": 200, "/problems/unauthorized": 200, "/v1/units": 401, "/v1/nothing": 401, "/nothing": 404} {
		if w := send("GET", path, ""); w.Code != status {
			t.Errorf("%s without a key: %d, want %d", path, w.Code, status)
		}
	}
	if w := send("OPTIONS", "/v1/units", ""); w.Code != http.StatusNoContent {
		t.Errorf("OPTIONS without a key: %d", w.Code)
	}
	for i, status := range []int{200, 200, 429} {
		if w := send("GET", "/v1/units", "Bearer "+farm); w.Code != status {
			t.Errorf("request %d of a key of 2 a minute: %d, want %d", i, w.Code, status)
		}
	}
	if w := send("GET", "/v1/units", "Bearer "+coop); w.Code != http.StatusOK || w.Header().Get("RateLimit") != "" {
		t.Errorf("a key without a rate: %d %v", w.Code, w.Header())
	}

	if err := os.WriteFile(file, []byte(farmLine+" 100\n"), 0o600); err != nil { // co-op is withdrawn
		t.Fatal(err)
	}
	for until := time.Now().Add(5 * time.Second); send("GET", "/v1/units", "Bearer "+coop).Code != http.StatusUnauthorized; time.Sleep(50 * time.Millisecond) {
		if time.Now().After(until) {
			t.Fatal("a withdrawn key still opens")
		}
	}
	if w := send("GET", "/v1/units", "Bearer "+farm); w.Code != http.StatusOK || w.Header().Get("RateLimit-Policy") != `"requests";q=100;w=60` {
		t.Errorf("a key of another rate: %d %v", w.Code, w.Header())
	}
}

func TestKeyFilesThatAreRefused(t *testing.T) {
	_, line := madeKey(t, "farm")
	for says, text := range map[string]string{
		"line 2: another line has this name": line + "\n" + line,
		"line 1: write a name":               "farm",
		"64 hexadecimal digits":              "farm abc",
		"line 1: the digest must have":       line + "00",
		"whole number from 1":                line + " 0",
		"1 to 64 letters":                    "a/b " + strings.Fields(line)[1],
	} {
		if _, err := LoadKeys(keyFile(t, text), testLog(t.Output())); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%q: %v, want %q", text, err, says)
		}
	}
}

// TestSecureHeaders: every answer has them, of whatever kind, and pages some more.
func TestSecureHeaders(t *testing.T) {
	paths := []string{"/nothing", "/v1/ground-speed"}
	for path := range pages(operation.All) {
		paths = append(paths, path)
	}
	for _, path := range paths {
		h := call(t, http.MethodGet, path, "").Header()
		if h.Get("X-Content-Type-Options") != "nosniff" || h.Get("Referrer-Policy") == "" || h.Get("Cross-Origin-Opener-Policy") != "same-origin" ||
			!strings.Contains(h.Get("Content-Security-Policy"), "frame-ancestors 'none'") {
			t.Errorf("%s: %v", path, h)
		}
	}
	answer := call(t, http.MethodPost, "/v1/calibrations", "{}").Header()
	record := call(t, http.MethodPost, "/v1/calibrations", "{}", "Accept", "text/html").Header()
	for _, h := range []http.Header{answer, record} {
		if h.Get("X-Content-Type-Options") != "nosniff" || !strings.Contains(h.Get("Content-Security-Policy"), "frame-ancestors 'none'") {
			t.Errorf("%v", h)
		}
	}
	if record.Get("Referrer-Policy") != "no-referrer" || record.Get("Cross-Origin-Opener-Policy") != "same-origin" || answer.Get("Referrer-Policy") != "" {
		t.Errorf("the record has %v, the answer %v", record, answer)
	}
}
