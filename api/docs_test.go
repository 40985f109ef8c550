package api

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"encoding/base64"
	"io"
	"net/http"
	"regexp"
	"strings"
	"testing"
)

// TestReferenceLoadsFromHere: every file that the page names is served, and nothing
// on it points to another host.
func TestReferenceLoadsFromHere(t *testing.T) {
	page := call(t, http.MethodGet, "/docs", "").Body.String()
	files := regexp.MustCompile(`(?:src|href)="([^"]*)"`).FindAllStringSubmatch(page, -1)
	if len(files) < 4 {
		t.Fatalf("the page names %v", files)
	}
	for _, m := range files {
		if w := call(t, http.MethodGet, m[1], ""); w.Code != http.StatusOK || w.Body.Len() == 0 {
			t.Errorf("%s: %d", m[1], w.Code)
		}
	}
	if outside := regexp.MustCompile(`(?:src|href|url)\s*[=(:]\s*["'](?:https?:)?//`).FindString(page); outside != "" {
		t.Errorf("the page asks another host: %s", outside)
	}
	if !strings.Contains(page, "validatorUrl: null") {
		t.Error("the document would be sent elsewhere to be checked")
	}
}

// TestPagesForPeopleHaveAPolicy: scripts and styles are allowed by where they are from
// or by hash, never at large.
func TestPagesForPeopleHaveAPolicy(t *testing.T) {
	for path, p := range pages(operations) {
		w := call(t, http.MethodGet, path, "")
		policy := w.Header().Get("Content-Security-Policy")
		if p.mediaType != htmlPage {
			if strings.Contains(policy, "script-src") {
				t.Errorf("%s is no page, but has the policy %s", path, policy)
			}
			continue
		}
		if !strings.Contains(policy, "default-src 'none'") || strings.Contains(policy, "unsafe") || strings.Contains(policy, "*") {
			t.Errorf("%s: %s", path, policy)
		}
	}
	w := call(t, http.MethodGet, "/docs", "")
	scripts := regexp.MustCompile(`(?s)<script>(.*?)</script>`).FindAllStringSubmatch(w.Body.String(), -1)
	if len(scripts) == 0 {
		t.Fatal("no script stands in the page: the hashes can go")
	}
	for _, s := range scripts {
		sum := sha256.Sum256([]byte(s[1]))
		if hash := base64.StdEncoding.EncodeToString(sum[:]); !strings.Contains(w.Header().Get("Content-Security-Policy"), "'sha256-"+hash+"'") {
			t.Errorf("no hash for %.60s", s[1])
		}
	}
}

// TestReferenceFiles: compressed for who takes it, the same for who does not, each
// with a tag of its own.
func TestReferenceFiles(t *testing.T) {
	for path, f := range docsFiles() {
		plain := call(t, http.MethodGet, path, "")
		packed := call(t, http.MethodGet, path, "", "Accept-Encoding", "br, GZip;q=0.5")
		body := packed.Body.Bytes()
		if f.packed {
			r, err := gzip.NewReader(bytes.NewReader(body))
			if err != nil {
				t.Fatalf("%s: %v", path, err)
			}
			if body, err = io.ReadAll(r); err != nil {
				t.Fatalf("%s: %v", path, err)
			}
		}
		if !bytes.Equal(body, plain.Body.Bytes()) || plain.Header().Get("Content-Encoding") != "" {
			t.Errorf("%s: not the same compressed and not", path)
		}
		if (plain.Header().Get("ETag") == packed.Header().Get("ETag")) == f.packed {
			t.Errorf("%s: tags %s and %s", path, plain.Header().Get("ETag"), packed.Header().Get("ETag"))
		}
		if f.packed && plain.Header().Get("Vary") != "Accept-Encoding" {
			t.Errorf("%s: %v", path, plain.Header())
		}
		if w := call(t, http.MethodGet, path, "", "Accept-Encoding", "gzip;q=0"); w.Header().Get("Content-Encoding") != "" {
			t.Errorf("%s is compressed for a client that does not take it", path)
		}
		for _, w := range []*http.Response{plain.Result(), packed.Result()} {
			again := call(t, http.MethodGet, path, "", "If-None-Match", w.Header.Get("ETag"), "Accept-Encoding", w.Header.Get("Content-Encoding"))
			if again.Code != http.StatusNotModified || again.Body.Len() != 0 || again.Header().Get("ETag") != w.Header.Get("ETag") {
				t.Errorf("%s, asked again: %d %v", path, again.Code, again.Header())
			}
		}
		head := call(t, http.MethodHead, path, "")
		if head.Body.Len() != 0 || head.Header().Get("Content-Length") != plain.Header().Get("Content-Length") {
			t.Errorf("HEAD %s: %v", path, head.Header())
		}
	}
}
