package api

import (
	"encoding/json"
	"fmt"
	"net/http"
	"os"
	"reflect"
	"regexp"
	"strings"
	"testing"
)

// frontPage and clientsPage are the README of the repository and that for integrators.
const (
	frontPage   = "../README.md"
	clientsPage = "../openapi/README.md"
)

func pageText(t *testing.T, file string) string {
	t.Helper()
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// TestReadmeExamples posts the data of each curl that is followed by its answer, and
// compares: where the answer shown has no mark, it is the whole one.
func TestReadmeExamples(t *testing.T) {
	example := regexp.MustCompile("(?s)```sh\ncurl [^`]*?/v1/([a-z-]+) [^`]*?-d '([^']*)'\n```\n\n```json\n(.*?)\n```")
	for file, least := range map[string]int{frontPage: 1, clientsPage: 3} {
		examples := example.FindAllStringSubmatch(pageText(t, file), -1)
		if len(examples) < least {
			t.Errorf("%s has %d curls with their answers", file, len(examples))
		}
		for _, e := range examples {
			w := post(t, e[1], e[2])
			var shown, answer any
			if err := json.Unmarshal([]byte(marked(e[3])), &shown); err != nil {
				t.Errorf("%s shows an answer of %s that is no JSON: %v", file, e[1], err)
			}
			if err := json.Unmarshal(w.Body.Bytes(), &answer); err != nil {
				t.Fatal(err)
			}
			if !shows(shown, answer) {
				t.Errorf("%s shows\n%s\nthe service says\n%s", file, e[3], w.Body)
			}
		}
	}
}

// cut marks what a shortened answer leaves out, at the end of an object or a list.
const cut = "…"

var cuts = regexp.MustCompile(`,\s*` + cut + `\s*([}\]])`)

// marked makes JSON of an answer that may be shortened.
func marked(shown string) string {
	return cuts.ReplaceAllStringFunc(shown, func(m string) string {
		if strings.HasSuffix(m, "}") {
			return `,"` + cut + `":0}`
		}
		return `,"` + cut + `"]`
	})
}

// shows tells whether an answer is what is shown of it, with more where that is marked.
func shows(shown, answer any) bool {
	switch s := shown.(type) {
	case map[string]any:
		a, ok := answer.(map[string]any)
		_, shortened := s[cut]
		if shortened {
			delete(s, cut)
		}
		if !ok || shortened != (len(a) > len(s)) {
			return false
		}
		for name, value := range s {
			if in, ok := a[name]; !ok || !shows(value, in) {
				return false
			}
		}
		return true
	case []any:
		a, ok := answer.([]any)
		shortened := len(s) > 0 && s[len(s)-1] == any(cut)
		if shortened {
			s = s[:len(s)-1]
		}
		if !ok || len(a) < len(s) || shortened != (len(a) > len(s)) {
			return false
		}
		for i, value := range s {
			if !shows(value, a[i]) {
				return false
			}
		}
		return true
	}
	return reflect.DeepEqual(shown, answer)
}

// TestReadmeExampleThatIsWrong: a wrong digit is seen, and so are members that are left
// out without a mark, or marked and not there.
func TestReadmeExampleThatIsWrong(t *testing.T) {
	const answer = `{"a":{"value":1,"unit":"ft"},"b":[1,2]}`
	for shown, want := range map[string]bool{
		answer:                              true,
		`{"a":{"value":1, …}, …}`:           true,
		`{"b":[1, …], …}`:                   true,
		`{"a":{"value":1},"b":[1,2]}`:       false,
		`{"a":{"value":2, …}, …}`:           false,
		`{"c":1, …}`:                        false,
		`{"b":[2, …], …}`:                   false,
		`{"a":{"value":1, …},"b":[1]}`:      false,
		`{"a":{"value":1, …},"b":[1,2, …]}`: false,
		`{"a":{"value":1, …},"b":[1,2], …}`: false,
	} {
		var s, a any
		if json.Unmarshal([]byte(marked(shown)), &s) != nil || json.Unmarshal([]byte(answer), &a) != nil {
			t.Fatal(shown)
		}
		if got := shows(s, a); got != want {
			t.Errorf("%s of %s: %v", shown, answer, got)
		}
	}
}

// TestReadmeListsPaths: the table names every path of the document.
func TestReadmeListsPaths(t *testing.T) {
	text := pageText(t, frontPage)
	for path := range document(t).Paths.Map() {
		if strings.HasPrefix(path, "/problems/") {
			continue // what a problem links to
		}
		if !regexp.MustCompile("`(GET |POST )?" + regexp.QuoteMeta(path) + "`").MatchString(text) {
			t.Errorf("the README does not list %s", path)
		}
	}
}

// TestReadmeNamesProblems: the page for integrators says what to do about each type.
func TestReadmeNamesProblems(t *testing.T) {
	text := pageText(t, clientsPage)
	kind := document(t).Paths.Value("/problems/{type}").Get.Parameters.GetByInAndName("path", "type")
	for _, name := range kind.Schema.Value.Enum {
		if !strings.Contains(text, fmt.Sprintf("`%s`", name)) {
			t.Errorf("openapi/README.md does not name the problem %s", name)
		}
	}
}

// TestReadmeBatch posts the file of the curl of a batch, as it is: each of its lines has
// an answer. curl would send the file of -d without its line ends.
func TestReadmeBatch(t *testing.T) {
	m := regexp.MustCompile(`/v1/batch -H 'Content-Type: application/x-ndjson' --data-binary @(\S+)`).FindStringSubmatch(pageText(t, clientsPage))
	if m == nil {
		t.Fatal("openapi/README.md has no curl of a batch")
	}
	_, replies := batch(t, pageText(t, "../"+m[1]))
	if len(replies) != 3 {
		t.Errorf("%d replies", len(replies))
	}
	for _, r := range replies {
		if r.Status != http.StatusOK || !strings.Contains(r.ID, "(invented)") {
			t.Errorf("line %d, %s: %+v", r.Line, r.ID, r.Problem)
		}
	}
}

// TestReadmeSheets posts the files of the curls of whole sheets.
func TestReadmeSheets(t *testing.T) {
	all := regexp.MustCompile(`/v1/calibrations [^\n]* -d @(\S+)`).FindAllStringSubmatch(pageText(t, clientsPage), -1)
	if len(all) == 0 {
		t.Fatal("openapi/README.md has no curl of a sheet")
	}
	for _, m := range all {
		if w := post(t, "calibrations", pageText(t, "../"+m[1])); w.Code != http.StatusOK {
			t.Errorf("%s: %d %s", m[1], w.Code, w.Body)
		}
	}
}
