package api

import (
	"bytes"
	"compress/gzip"
	"io"
	"maps"
	"net/http"
	"regexp"
	"slices"
	"strings"
	"testing"

	"wetrun/api/operation"
	"wetrun/internal/packed"
	"wetrun/internal/text"
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
	if start := call(t, http.MethodGet, "/docs/start.js", "").Body.String(); !strings.Contains(start, "validatorUrl: null") {
		t.Error("the document would be sent elsewhere to be checked")
	}
}

// TestReferenceKnowsWhetherThereAreKeys: where none are set, what would ask for one is
// hidden.
func TestReferenceKnowsWhetherThereAreKeys(t *testing.T) {
	for _, keys := range []bool{false, true} {
		x, err := docsFiles(keys)["/docs/page.css"].get(text.English)
		if err != nil {
			t.Fatal(err)
		}
		style, err := packed.Unpack(x.body)
		if err != nil {
			t.Fatal(err)
		}
		if hides := strings.Contains(string(style), ".authorization__btn"); hides == keys {
			t.Errorf("keys %v: the locks are hidden: %v", keys, hides)
		}
	}
}

// TestPagesForPeopleHaveAPolicy: scripts and styles come from this server, and no page
// has any of its own, which would not run.
func TestPagesForPeopleHaveAPolicy(t *testing.T) {
	for path, p := range pages(operation.All) {
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
		if inline := regexp.MustCompile(`<style|<script>| style=| on[a-z]+=`).FindString(w.Body.String()); inline != "" {
			t.Errorf("%s has %s", path, inline)
		}
	}
}

// TestCompressed: what is kept compressed is sent so to who takes it, the same to who
// does not, each with a tag of its own.
func TestCompressed(t *testing.T) {
	all := pages(operation.All)
	maps.Copy(all, docsFiles(false))
	maps.Copy(all, webPages())
	for _, path := range []string{"/openapi.yaml", "/openapi.json", "/docs/swagger-ui-bundle.js", "/docs/start.js", "/web/main.js"} {
		if all[path] == nil || !all[path].packed {
			t.Errorf("%s is not kept compressed", path)
		}
	}
	for path, f := range all {
		if f.fresh {
			continue
		}
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
		if f.packed && !slices.Contains(plain.Header().Values("Vary"), "Accept-Encoding") {
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
