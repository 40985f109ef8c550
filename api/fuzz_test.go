package api

import (
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"regexp"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// inside is what no client may see: words of Go, of its libraries and of the file
// system, and numbers that are none.
var inside = regexp.MustCompile(`%!|\bNaN\b|[+-]Inf\b|\bInf\b|\.go:\d|\bgoroutine \d|\bpanic\b|<nil>|\b0x[0-9a-f]{6}` +
	`|\b(api|calc|unit|text|json|jsontext|echo|http|validator|runtime|strconv|reflect|bufio|errors|main)\.[A-Za-z(*]` +
	`|/(usr|home|root|tmp|etc|var|proc)/|\bfloat64\b|\bstruct\b|\binterface ?\{`)

// leaks finds in an answer what is inside the service and did not come from the
// client. Names that the client gave are said again, as they may be.
func leaks(answer, sent string) string {
	for _, found := range inside.FindAllString(answer, -1) {
		if !strings.Contains(sent, found) && !strings.Contains(told(sent), found) {
			return found
		}
	}
	return ""
}

// told is every text in a JSON text, its escapes resolved.
func told(body string) string {
	var b strings.Builder
	decoder := json.NewDecoder(strings.NewReader(body))
	for {
		token, err := decoder.Token()
		if err != nil {
			return b.String()
		}
		if s, ok := token.(string); ok {
			b.WriteString(s + "\n")
		}
	}
}

// sound holds an answer to any request whatever: it has one of the statuses given,
// follows the schema of that name, or that of a problem where it is not 200, and
// tells nothing of the inside of the service.
func sound(t rapid.TB, w *httptest.ResponseRecorder, schema, sent string, statuses ...int) {
	t.Helper()
	if !slices.Contains(statuses, w.Code) {
		t.Errorf("answered %d: %s\nto %q", w.Code, w.Body, sent)
	}
	if w.Code != http.StatusOK {
		schema = "Problem"
		if got := w.Header().Get("Content-Type"); got != "application/problem+json" {
			t.Errorf("a problem of type %q", got)
		}
	}
	if schema != "" {
		if err := validates(schema, w.Body.Bytes()); err != nil {
			t.Errorf("the answer does not follow the schema %s: %v\n%.4000s\nto %q", schema, err, w.Body, sent)
		}
	}
	if found := leaks(w.Body.String(), sent); found != "" {
		t.Errorf("the answer tells of the inside, %q: %.4000s\nto %q", found, w.Body, sent)
	}
}

// TestLeaks: what is looked for is found, and not where the client said it first.
func TestLeaks(t *testing.T) {
	for _, answer := range []string{
		`{"detail":"%!d(string=x)"}`, `{"value":NaN}`, `{"value":-Inf}`, "json: cannot unmarshal into Go value of type calc.Run", "open /usr/share/x",
		"api/wire/quick_reader.go:17", "goroutine 1 [running]", `strconv.ParseFloat: parsing "x"`, "<nil>", "type *struct {}", "panic: x", "at 0xc000123456",
	} {
		if leaks(answer, "{}") == "" {
			t.Errorf("nothing is found in %s", answer)
		}
	}
	for answer, sent := range map[string]string{
		`{"label":"%!d"}`:                      `{"label":"\u0025!d"}`,
		`{"label":"NaN"}`:                      `{"label":"NaN"}`,
		`{"detail":"Information, in a panel"}`: `{}`,
	} {
		if found := leaks(answer, sent); found != "" {
			t.Errorf("%q is found in %s", found, answer)
		}
	}
}
