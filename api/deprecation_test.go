package api

import (
	"fmt"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"time"

	"github.com/getkin/kin-openapi/openapi3"

	"wetrun/api/operation"
	"wetrun/internal/text"
)

// going is an operation of the test's own, deprecated on the date that is the example
// of RFC 9745, section 2.1: @1688169599 is 2023-06-30 23:59:59 UTC.
func going() operation.Operation {
	o := operation.Named("ground-speed").Deprecated(operation.Deprecation{
		Since:     time.Date(2023, time.June, 30, 23, 59, 59, 0, time.UTC),
		Sunset:    time.Date(2024, time.June, 30, 23, 59, 59, 0, time.UTC),
		Successor: "/v1/ground-speed",
	})
	o.Name = "old-speed"
	return o
}

// TestDeprecationIsAnnounced: on every answer at the path, refusals included, and
// nowhere else.
func TestDeprecationIsAnnounced(t *testing.T) {
	all := []operation.Operation{going(), *operation.Named("ground-speed")}
	h := serving(Options{Log: testLog(t.Output())}, all)
	for _, c := range []struct {
		method, path, contentType, body string
		status                          int
	}{
		{"POST", "/v1/old-speed", "application/json", oneRun, 200},
		{"POST", "/v1/old-speed", "application/json", "{", 400},
		{"GET", "/v1/old-speed", "", "", 405},
		{"POST", "/v1/old-speed", "application/json", strings.Repeat(" ", operation.MostBody+1), 413},
		{"POST", "/v1/old-speed", "text/plain", oneRun, 415},
		{"POST", "/v1/old-speed", "application/json", "{}", 422},
		{"POST", "/v1/ground-speed", "application/json", oneRun, 200},
		{"GET", "/v1/units", "", "", 200},
	} {
		req := httptest.NewRequest(c.method, c.path, strings.NewReader(c.body))
		req.Header.Set("Content-Type", c.contentType)
		w := httptest.NewRecorder()
		h.ServeHTTP(w, req)
		if w.Code != c.status {
			t.Errorf("%s %s: %d, want %d", c.method, c.path, w.Code, c.status)
		}
		since, sunset, link := "", "", false
		if c.path == "/v1/old-speed" {
			since, sunset, link = "@1688169599", "Sun, 30 Jun 2024 23:59:59 GMT", true
		}
		given := strings.Join(w.Header().Values("Link"), ", ")
		if w.Header().Get("Deprecation") != since || w.Header().Get("Sunset") != sunset ||
			strings.Contains(given, `rel="deprecation"`) != link || strings.Contains(given, `</v1/ground-speed>; rel="successor-version"`) != link ||
			!strings.Contains(given, `rel="service-desc"`) {
			t.Errorf("%s %s, %d: %v", c.method, c.path, w.Code, w.Header())
		}
	}
}

// deprecationMismatch holds operations against the document, and against the notice
// that is promised.
func deprecationMismatch(operations []operation.Operation, paths *openapi3.Paths) string {
	for _, o := range operations {
		item := paths.Value("/v1/" + o.Name)
		if item == nil || item.Post == nil {
			return o.Name + " is not in the document"
		}
		d := o.Deprecation
		if item.Post.Deprecated != (d != nil) {
			return fmt.Sprintf("%s: deprecated in the document: %v, here: %v", o.Name, item.Post.Deprecated, d != nil)
		}
		if d != nil && d.Sunset.Before(d.Since.AddDate(0, operation.NoticeMonths, 0)) {
			return fmt.Sprintf("%s: less than %d months of notice", o.Name, operation.NoticeMonths)
		}
	}
	return ""
}

func TestDeprecationsMatchDocument(t *testing.T) {
	if wrong := deprecationMismatch(operation.All, document(t).Paths); wrong != "" {
		t.Error(wrong)
	}
	// The comparison sees what it is for.
	old := openapi3.NewPaths(openapi3.WithPath("/v1/old-speed", &openapi3.PathItem{Post: &openapi3.Operation{}}))
	if deprecationMismatch([]operation.Operation{going()}, old) == "" {
		t.Error("a deprecated operation that the document does not mark passes")
	}
	old.Value("/v1/old-speed").Post.Deprecated = true
	if wrong := deprecationMismatch([]operation.Operation{going()}, old); wrong != "" {
		t.Error(wrong)
	}
	short := going()
	short.Deprecation.Sunset = short.Deprecation.Since.AddDate(0, operation.NoticeMonths-1, 0)
	if deprecationMismatch([]operation.Operation{short}, old) == "" {
		t.Error("a notice that is too short passes")
	}
	stays := going()
	stays.Deprecation = nil
	if deprecationMismatch([]operation.Operation{stays}, old) == "" {
		t.Error("an operation that only the document marks passes")
	}
}

// TestDeprecationPage names what is going, or says that nothing is.
func TestDeprecationPage(t *testing.T) {
	for _, c := range []struct {
		operations []operation.Operation
		says       []string
	}{
		{nil, []string{"12 months", "No operation is deprecated"}},
		{[]operation.Operation{going()}, []string{"/v1/old-speed", "June 30, 2023", "June 30, 2024", "Use /v1/ground-speed"}},
	} {
		page, err := deprecationPage(c.operations)(text.English)
		if err != nil {
			t.Fatal(err)
		}
		for _, s := range c.says {
			if !strings.Contains(string(page), s) {
				t.Errorf("no %q in %s", s, page)
			}
		}
	}
	if w := call(t, http.MethodGet, "/deprecation", ""); w.Code != http.StatusOK {
		t.Errorf("%d", w.Code)
	}
}
