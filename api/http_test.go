package api

import (
	"bufio"
	"encoding/json"
	"fmt"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"time"

	"wetrun/api/operation"
	"wetrun/api/wire"
	"wetrun/internal/telemetry"
)

const oneRun = `{"runs":[{"courseLength":{"value":100,"unit":"ft"},"time":{"value":22.8,"unit":"s"}}]}`

// problemOf reads a problem and checks what all of them share.
func problemOf(t *testing.T, status int, h http.Header, body []byte) wire.Problem {
	t.Helper()
	if got := h.Get("Content-Type"); got != "application/problem+json" {
		t.Errorf("a problem of type %q: %s", got, body)
	}
	if err := validates("Problem", body); err != nil {
		t.Error(err)
	}
	var p wire.Problem
	if err := json.Unmarshal(body, &p); err != nil {
		t.Fatal(err)
	}
	if p.Status != status || p.RequestID == "" || p.RequestID != h.Get("X-Request-Id") {
		t.Errorf("status %d, header id %q, problem %+v", status, h.Get("X-Request-Id"), p)
	}
	if h.Get("Cache-Control") != "no-store" || h.Get("Content-Language") != "en" || h.Get("Vary") != "Accept-Language" {
		t.Errorf("headers %v", h)
	}
	page := call(t, http.MethodGet, p.Type, "")
	if page.Code != http.StatusOK || !strings.Contains(page.Body.String(), p.Title) {
		t.Errorf("%s answers %d %.200s", p.Type, page.Code, page.Body)
	}
	return p
}

func TestMethodsAndPaths(t *testing.T) {
	for _, c := range []struct {
		method, path string
		status       int
		allow        string
	}{
		{"GET", "/v1/ground-speed", 405, "OPTIONS, POST"},
		{"PUT", "/v1/ground-speed", 405, "OPTIONS, POST"},
		{"DELETE", "/v1/units", 405, "OPTIONS, GET, HEAD"},
		{"POST", "/v1/units", 405, "OPTIONS, GET, HEAD"},
		{"POST", "/v1/groundspeed", 404, ""},
		{"GET", "/web/", 404, ""},
		{"POST", "/", 405, "OPTIONS, GET, HEAD"},
		{"GET", "/v1/units/", 404, ""},
		{"POST", "/v1/ground-speed/", 404, ""},
		{"GET", "/problems/nothing", 404, ""},
		{"OPTIONS", "/v1/ground-speed", 204, "OPTIONS, POST"},
		{"OPTIONS", "/v1/units", 204, "OPTIONS, GET, HEAD"},
	} {
		w := call(t, c.method, c.path, "")
		if w.Code != c.status || w.Header().Get("Allow") != c.allow {
			t.Errorf("%s %s: %d, Allow %q; want %d, %q", c.method, c.path, w.Code, w.Header().Get("Allow"), c.status, c.allow)
		}
		if w.Code >= 400 {
			problemOf(t, c.status, w.Header(), w.Body.Bytes())
		}
	}
}

func TestContentTypes(t *testing.T) {
	for contentType, status := range map[string]int{
		"application/json": 200, "application/json; charset=utf-8": 200, "Application/JSON;charset=UTF-8": 200,
		"": 415, "text/plain": 415, "application/x-www-form-urlencoded": 415, "application/json; charset=latin1": 415,
		"application/problem+json": 415, "json": 415,
	} {
		w := call(t, http.MethodPost, "/v1/ground-speed", oneRun, "Content-Type", contentType)
		if w.Code != status {
			t.Errorf("%q: %d, want %d", contentType, w.Code, status)
		}
		if w.Code == 415 {
			problemOf(t, 415, w.Header(), w.Body.Bytes())
		}
	}
	if w := call(t, http.MethodPost, "/v1/ground-speed", oneRun, "Content-Encoding", "gzip"); w.Code != 415 {
		t.Errorf("a compressed body: %d", w.Code)
	}
}

func TestRequestIDs(t *testing.T) {
	for id, kept := range map[string]bool{"sheet-12.a_B": true, strings.Repeat("x", 64): true, strings.Repeat("x", 65): false, "a b": false, "<b>": false} {
		w := call(t, http.MethodPost, "/v1/ground-speed", oneRun, "X-Request-Id", id)
		if got := w.Header().Get("X-Request-Id"); (got == id) != kept || got == "" {
			t.Errorf("id %q comes back as %q", id, got)
		}
	}
}

// TestReferencePages reads every GET: its ETag, 304, HEAD with the same headers.
func TestReferencePages(t *testing.T) {
	for path, p := range pages(operation.All) {
		w := call(t, http.MethodGet, path, "")
		if w.Code != http.StatusOK || w.Body.Len() == 0 || w.Header().Get("Content-Length") != fmt.Sprint(w.Body.Len()) {
			t.Errorf("%s: %d, %d bytes, length %q", path, w.Code, w.Body.Len(), w.Header().Get("Content-Length"))
		}
		head := call(t, http.MethodHead, path, "")
		if head.Code != http.StatusOK || head.Body.Len() != 0 || head.Header().Get("Content-Length") != w.Header().Get("Content-Length") {
			t.Errorf("HEAD %s: %d %v", path, head.Code, head.Header())
		}
		etag := w.Header().Get("ETag")
		if p.fresh {
			if etag != "" || w.Header().Get("Cache-Control") != "no-store" {
				t.Errorf("%s is about now, but: %v", path, w.Header())
			}
			continue
		}
		for tag, status := range map[string]int{etag: 304, "W/" + etag: 304, `"other", ` + etag: 304, "*": 304, `"other"`: 200} {
			if again := call(t, http.MethodGet, path, "", "If-None-Match", tag); again.Code != status || (status == 304) != (again.Body.Len() == 0) {
				t.Errorf("%s with %s: %d, want %d", path, tag, again.Code, status)
			}
		}
		if !strings.Contains(w.Header().Get("Cache-Control"), "max-age=") || !strings.Contains(w.Header().Get("Link"), "service-desc") {
			t.Errorf("%s: %v", path, w.Header())
		}
	}
	for path, schema := range map[string]string{"/v1/units": "UnitsAnswer", "/v1/meta": "MetaAnswer", "/v1/tolerances": "TolerancesAnswer", "/v1/methods": "MethodsAnswer", "/v1/procedure": "ProcedureAnswer", "/v1/nozzle-sizes": "NozzleSizesAnswer", "/livez": "StatusAnswer"} {
		if err := validates(schema, call(t, http.MethodGet, path, "").Body.Bytes()); err != nil {
			t.Errorf("%s: %v", path, err)
		}
	}
}

// TestDocumentAsJSON: both forms of the document say the same.
func TestDocumentAsJSON(t *testing.T) {
	var doc struct {
		OpenAPI    string
		Paths      map[string]any
		Components struct{ Schemas map[string]any }
	}
	if err := json.Unmarshal(call(t, http.MethodGet, "/openapi.json", "").Body.Bytes(), &doc); err != nil {
		t.Fatal(err)
	}
	d := document(t)
	if doc.OpenAPI != d.OpenAPI || len(doc.Paths) != d.Paths.Len() || len(doc.Components.Schemas) != len(d.Components.Schemas) {
		t.Errorf("%s, %d paths, %d schemas", doc.OpenAPI, len(doc.Paths), len(doc.Components.Schemas))
	}
}

// TestLargeBodies sends too much over a real connection: the client sees 413, not
// a broken connection, and a body just small enough is read.
func TestLargeBodies(t *testing.T) {
	server := httptest.NewServer(service())
	defer server.Close()
	for size, status := range map[int]int{operation.MostBody: 200, operation.MostBody + 1: 413, 8 << 20: 413} {
		body := oneRun + strings.Repeat(" ", size-len(oneRun))
		for _, reader := range []io.Reader{strings.NewReader(body), io.MultiReader(strings.NewReader(body))} { // with a length, and chunked
			resp, err := http.Post(server.URL+"/v1/ground-speed", "application/json", reader)
			if err != nil {
				t.Fatalf("%d bytes: %v", size, err)
			}
			answer, _ := io.ReadAll(resp.Body)
			resp.Body.Close()
			if resp.StatusCode != status {
				t.Errorf("%d bytes: %d, want %d", size, resp.StatusCode, status)
			}
			if status == 413 {
				problemOf(t, 413, resp.Header, answer)
			}
		}
	}
}

// TestBodyCutShort: a client that promises more than it sends gets a problem, and
// the next one is served.
func TestBodyCutShort(t *testing.T) {
	server := httptest.NewServer(service())
	defer server.Close()
	conn, err := net.Dial("tcp", server.Listener.Addr().String())
	if err != nil {
		t.Fatal(err)
	}
	defer conn.Close()
	_ = conn.SetDeadline(time.Now().Add(10 * time.Second))
	fmt.Fprintf(conn, "POST /v1/ground-speed HTTP/1.1\r\nHost: x\r\nContent-Type: application/json\r\nContent-Length: 500\r\n\r\n{\"runs\":")
	_ = conn.(*net.TCPConn).CloseWrite()
	resp, err := http.ReadResponse(bufio.NewReader(conn), nil)
	if err != nil {
		t.Fatal(err)
	}
	body, _ := io.ReadAll(resp.Body)
	if resp.StatusCode != http.StatusBadRequest {
		t.Errorf("%d %s", resp.StatusCode, body)
	}
	if w := call(t, http.MethodPost, "/v1/ground-speed", oneRun); w.Code != http.StatusOK {
		t.Errorf("the next request: %d", w.Code)
	}
}

// TestPanicIsAProblem: a fault of ours answers 500 with an id, without its cause.
func TestPanicIsAProblem(t *testing.T) {
	var log strings.Builder
	h := withRequestID(recoverPanics(telemetry.LogOnly(testLog(&log)), http.HandlerFunc(func(http.ResponseWriter, *http.Request) { panic("secret cause") })))
	w := httptest.NewRecorder()
	h.ServeHTTP(w, httptest.NewRequest(http.MethodGet, "/v1/units", nil))
	problemOf(t, http.StatusInternalServerError, w.Header(), w.Body.Bytes())
	if strings.Contains(w.Body.String(), "secret") || !strings.Contains(log.String(), "secret cause") || !strings.Contains(log.String(), w.Header().Get("X-Request-Id")) {
		t.Errorf("answer %s\nlog %s", w.Body, log.String())
	}
}

// TestWarningsAndCautionsHaveWords: no answer to an example shows a bare key.
func TestWarningsAndCautionsHaveWords(t *testing.T) {
	for _, o := range operation.All {
		for name, example := range requestExamples(t, o.Name) {
			body := post(t, o.Name, encodeJSON(t, example.Value.Value)).Body.String()
			for _, kind := range []string{"warning.", "caution.", "step.", "next.", "action.", "decision.", "verdict.", "correction.", "rejected.", "selection.", "note.", "%!"} {
				if strings.Contains(body, `"`+kind) || kind == "%!" && strings.Contains(body, kind) {
					t.Errorf("%s/%s shows a key: %s", o.Name, name, body)
				}
			}
		}
	}
}
