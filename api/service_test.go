package api

import (
	"io"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"strings"
	"sync"

	"pgregory.net/rapid"
)

// service is the whole handler, as cmd/wetrun serves it.
var service = sync.OnceValue(func() http.Handler {
	return New(Options{Log: slog.New(slog.NewTextHandler(io.Discard, nil))})
})

// call sends one request and holds the answer against the document.
func call(t rapid.TB, method, path, body string, headers ...string) *httptest.ResponseRecorder {
	t.Helper()
	req := httptest.NewRequest(method, path, strings.NewReader(body))
	if body != "" || method == http.MethodPost {
		req.Header.Set("Content-Type", "application/json")
	}
	for i := 0; i+1 < len(headers); i += 2 {
		req.Header.Set(headers[i], headers[i+1])
	}
	w := httptest.NewRecorder()
	service().ServeHTTP(w, req)
	if w.Code >= 500 {
		t.Errorf("%s %s: %d %s\nfor %.2000s", method, path, w.Code, w.Body, body)
	}
	return w
}

// post calls an operation and checks that what comes back is what the document
// promises.
func post(t rapid.TB, operation, body string, headers ...string) *httptest.ResponseRecorder {
	t.Helper()
	w := call(t, http.MethodPost, "/v1/"+operation, body, headers...)
	name := "Problem"
	if w.Code == http.StatusOK {
		name = schemaName(operation) + "Answer"
	}
	if err := validates(name, w.Body.Bytes()); err != nil {
		t.Errorf("the answer of %s does not follow the schema %s: %v\n%.4000s", operation, name, err, w.Body)
	}
	return w
}

// schemaName is the name that an operation's schemas begin with: GroundSpeed.
func schemaName(operation string) string {
	var b strings.Builder
	for word := range strings.SplitSeq(operation, "-") {
		b.WriteString(strings.ToUpper(word[:1]) + word[1:])
	}
	return b.String()
}

func testLog(w io.Writer) *slog.Logger { return slog.New(slog.NewTextHandler(w, nil)) }
