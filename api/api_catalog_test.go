package api

import (
	"encoding/json"
	"mime"
	"net/http"
	"reflect"
	"slices"
	"strings"
	"testing"
)

// TestCatalog follows every link of the catalogue, and finds every endpoint in it.
func TestCatalog(t *testing.T) {
	const path = "/.well-known/api-catalog"
	w := call(t, http.MethodGet, path, "")
	media, params, err := mime.ParseMediaType(w.Header().Get("Content-Type"))
	if err != nil || media != "application/linkset+json" || params["profile"] != "https://www.rfc-editor.org/info/rfc9727" {
		t.Errorf("it is %q (RFC 9727, section 4.2)", w.Header().Get("Content-Type"))
	}
	if err := validates("CatalogAnswer", w.Body.Bytes()); err != nil {
		t.Error(err)
	}
	compareType(t, "catalogue", reflect.TypeFor[CatalogAnswer](), schemaNamed(t, "CatalogAnswer"))
	var catalog CatalogAnswer
	if err := json.Unmarshal(w.Body.Bytes(), &catalog); err != nil {
		t.Fatal(err)
	}
	var items []string
	for _, c := range catalog.Linkset {
		for _, l := range slices.Concat(c.Item, c.ServiceDesc, c.ServiceDoc, c.ServiceMeta, c.Status) {
			w := call(t, http.MethodGet, l.Href, "")
			if w.Code == http.StatusMethodNotAllowed {
				w = call(t, http.MethodPost, l.Href, "{}")
			}
			if w.Code == http.StatusNotFound || w.Code == http.StatusMethodNotAllowed {
				t.Errorf("%s: %d", l.Href, w.Code)
			}
			if got := w.Header().Get("Content-Type"); w.Code == http.StatusOK && !strings.HasPrefix(got, l.Type) {
				t.Errorf("%s is %s, the catalogue says %s", l.Href, got, l.Type)
			}
		}
		for _, l := range c.Item {
			items = append(items, l.Href)
		}
	}
	for path := range document(t).Paths.Map() {
		if strings.HasPrefix(path, "/v1/") != slices.Contains(items, path) {
			t.Errorf("%s: in the catalogue: %v", path, slices.Contains(items, path))
		}
	}
}

// TestAnswersLink: whatever is answered says where the contract is.
func TestAnswersLink(t *testing.T) {
	for _, c := range []struct{ method, path, body string }{
		{"GET", "/docs", ""}, {"HEAD", "/.well-known/api-catalog", ""}, {"GET", "/readyz", ""}, {"GET", "/problems/not_json", ""},
		{"POST", "/v1/ground-speed", oneRun}, {"POST", "/v1/ground-speed", "{}"}, {"GET", "/v1/ground-speed", ""}, {"GET", "/nowhere", ""},
	} {
		w := call(t, c.method, c.path, c.body)
		for _, relation := range []string{`</openapi.yaml>; rel="service-desc"`, `</docs>; rel="service-doc"`, `</.well-known/api-catalog>; rel="api-catalog"`} {
			if !strings.Contains(strings.Join(w.Header().Values("Link"), ", "), relation) {
				t.Errorf("%s %s: no %s in %v", c.method, c.path, relation, w.Header().Values("Link"))
			}
		}
	}
	again := call(t, http.MethodGet, "/v1/units", "", "If-None-Match", "*")
	if again.Code != http.StatusNotModified || again.Header().Get("Link") == "" || again.Header().Get("ETag") == "" {
		t.Errorf("%d %v", again.Code, again.Header())
	}
}
