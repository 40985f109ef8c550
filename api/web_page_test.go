package api

import (
	"bytes"
	"net/http"
	"testing"

	"wetrun/internal/web"
)

// TestFieldSheet reads every file of the page as a browser does: with its type and
// policy, anew when it has changed, never otherwise.
func TestFieldSheet(t *testing.T) {
	types := map[string]string{"/": "text/html; charset=utf-8", "/web/main.js": "text/javascript; charset=utf-8", "/web/sheet.css": "text/css; charset=utf-8", "/web/examples/ready.json": "application/json", "/web/drop.svg": "image/svg+xml"}
	for path, mediaType := range types {
		if w := call(t, http.MethodGet, path, ""); w.Code != http.StatusOK || w.Header().Get("Content-Type") != mediaType {
			t.Errorf("%s: %d, %q", path, w.Code, w.Header().Get("Content-Type"))
		}
	}
	for path, file := range web.Files() {
		w := call(t, http.MethodGet, path, "")
		h := w.Header()
		if w.Code != http.StatusOK || !bytes.Equal(w.Body.Bytes(), file.Body) {
			t.Errorf("%s: %d, %d bytes", path, w.Code, w.Body.Len())
		}
		if h.Get("Content-Security-Policy") != web.Policy || h.Get("X-Content-Type-Options") != "nosniff" || h.Get("Cache-Control") != "no-cache" || h.Get("Referrer-Policy") != "no-referrer" {
			t.Errorf("%s: %v", path, h)
		}
		if again := call(t, http.MethodGet, path, "", "If-None-Match", h.Get("ETag")); again.Code != http.StatusNotModified || again.Body.Len() != 0 || again.Header().Get("Content-Security-Policy") != web.Policy {
			t.Errorf("%s, unchanged: %d %v", path, again.Code, again.Header())
		}
		if other := call(t, http.MethodGet, path, "", "If-None-Match", `"other"`); other.Code != http.StatusOK {
			t.Errorf("%s, changed: %d", path, other.Code)
		}
		if head := call(t, http.MethodHead, path, ""); head.Code != http.StatusOK || head.Body.Len() != 0 || head.Header().Get("Content-Length") != h.Get("Content-Length") {
			t.Errorf("HEAD %s: %d %v", path, head.Code, head.Header())
		}
	}
}
