package api

import (
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// FuzzAuthorization: only the key opens, and no answer repeats what was tried.
func FuzzAuthorization(f *testing.F) {
	secret, line, err := NewKey("farm")
	if err != nil {
		f.Fatal(err)
	}
	file := filepath.Join(f.TempDir(), "keys")
	if err := os.WriteFile(file, []byte(line+"\n"), 0o600); err != nil {
		f.Fatal(err)
	}
	keys, err := LoadKeys(file, testLog(f.Output()))
	if err != nil {
		f.Fatal(err)
	}
	h := New(Options{Log: testLog(f.Output()), Keys: keys})
	for _, seed := range []string{"", "Bearer", "Bearer ", "bearer KEY", "Bearer  KEY", "Basic KEY", "Bearer KEYA", "KEY", "Bearer KEY,Bearer KEY", "Bearer %s", "Bearer\tKEY", "Bearer \x00"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, header string) {
		header = strings.ReplaceAll(header, "KEY", secret)
		req := httptest.NewRequest(http.MethodPost, "/v1/ground-speed", strings.NewReader(oneRun))
		req.Header.Set("Content-Type", "application/json")
		req.Header.Set("Authorization", header)
		w := httptest.NewRecorder()
		h.ServeHTTP(w, req)
		sound(t, w, "GroundSpeedAnswer", header, 200, 401)
		scheme, tried, _ := strings.Cut(header, " ")
		if opens := strings.EqualFold(scheme, "bearer") && strings.TrimSpace(tried) == secret; opens != (w.Code == http.StatusOK) {
			t.Errorf("%d to %q", w.Code, header)
		}
		if len(tried) > 20 && (strings.Contains(w.Body.String(), tried) || strings.Contains(w.Header().Get("WWW-Authenticate"), tried)) {
			t.Errorf("%q is repeated: %s", tried, w.Body)
		}
		if w.Code == http.StatusUnauthorized && !strings.HasPrefix(w.Header().Get("WWW-Authenticate"), `Bearer realm="wetrun"`) {
			t.Errorf("no challenge: %v", w.Header())
		}
	})
}

// FuzzKeysFile: any file is refused in words that do not repeat it, or read into
// keys that are told apart by their names.
func FuzzKeysFile(f *testing.F) {
	const digest = "9f86d081884c7d659a2feaa0c55ad015a3bf4f1b2b0b822cd15d6c15b0f00a08"
	for _, seed := range []string{"", "# nothing\n", "farm " + digest, "farm " + digest + " 60\r\nco-op\t" + digest, "farm " + digest + " -1", "farm " + digest[1:], "a b c d", "farm " + strings.Repeat("é", 64), strings.Repeat("x", 70_000), "\xef\xbb\xbffarm " + digest} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		file := filepath.Join(t.TempDir(), "keys")
		if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		ring, err := readKeys(file)
		if err != nil {
			told := strings.ReplaceAll(err.Error(), file, "")
			if found := leaks(told, ""); found != "" {
				t.Errorf("the words tell of the inside, %q: %s", found, told)
			}
			for _, word := range strings.Fields(text) {
				if len(word) > 20 && strings.Contains(told, word) {
					t.Errorf("%q is repeated: %s", word, told)
				}
			}
			return
		}
		names := map[string]bool{}
		for _, k := range ring {
			if !plainID(k.name) || names[k.name] || k.rate < 0 || k.rate > 1_000_000 {
				t.Errorf("%+v of %q", k, text)
			}
			names[k.name] = true
		}
	})
}
