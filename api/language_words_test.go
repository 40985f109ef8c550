package api

import (
	"encoding/json"
	"net/http"
	"reflect"
	"regexp"
	"slices"
	"testing"

	"wetrun/api/operation"
	"wetrun/api/wire"
)

// TestLanguageChangesWordsOnly posts every example of the document and reads every
// page in both languages: same status, codes, pointers and numbers, other words.
func TestLanguageChangesWordsOnly(t *testing.T) {
	for _, o := range operation.All {
		for name, x := range requestExamples(t, o.Name) {
			t.Run(o.Name+"/"+name, func(t *testing.T) {
				inBoth(t, http.MethodPost, "/v1/"+o.Name, encodeJSON(t, x.Value.Value))
			})
		}
		for name, x := range refusalExamples(t, o.Name) {
			t.Run(o.Name+"/refused/"+name, func(t *testing.T) {
				if inBoth(t, http.MethodPost, "/v1/"+o.Name, encodeJSON(t, x.Value.Extensions["x-request"])) < 3 {
					t.Error("title, detail and the detail of an error are not all in Spanish")
				}
			})
		}
		for name, body := range map[string]string{"empty": "", "broken": `{"a":1,,}`, "of another type": `[1]`, "too many members": `{"a":{"b":null},"resultUnits":"furlongs"}`} {
			t.Run(o.Name+"/"+name, func(t *testing.T) { inBoth(t, http.MethodPost, "/v1/"+o.Name, body) })
		}
	}
	for path := range pages(operation.All) {
		if regexp.MustCompile(`^/v1/(units|tolerances|methods|nozzle-sizes|procedure)$`).MatchString(path) && inBoth(t, http.MethodGet, path, "") == 0 {
			t.Errorf("%s has no Spanish", path)
		}
	}
	for _, c := range []struct{ method, path string }{{"GET", "/nowhere"}, {"DELETE", "/v1/units"}, {"PUT", "/v1/ground-speed"}} {
		if inBoth(t, c.method, c.path, "") < 2 {
			t.Errorf("%s %s is not refused in Spanish", c.method, c.path)
		}
	}
}

// inBoth asks in both languages and counts the texts that differ.
func inBoth(t *testing.T, method, path, body string) int {
	t.Helper()
	headers := []string{"X-Request-Id", "one-of-both"}
	en := call(t, method, path, body, append(headers, "Accept-Language", "en")...)
	es := call(t, method, path, body, append(headers, "Accept-Language", "es-AR, en;q=0.5")...)
	if en.Code != es.Code || en.Header().Get("Content-Type") != es.Header().Get("Content-Type") || es.Header().Get("Content-Language") != "es" {
		t.Fatalf("English %d %v, Spanish %d %v", en.Code, en.Header(), es.Code, es.Header())
	}
	if es.Code == http.StatusUnprocessableEntity {
		if err := validates("Problem", es.Body.Bytes()); err != nil {
			t.Error(err)
		}
	}
	var a, b any
	if err := json.Unmarshal(en.Body.Bytes(), &a); err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(es.Body.Bytes(), &b); err != nil {
		t.Fatal(err)
	}
	return wordsDiffer(t, "", "", a, b)
}

var (
	// texts are the members that hold sentences in the reader's language.
	texts  = regexp.MustCompile(`^(detail|text|verdictDetail|conformanceDetail|decisionDetail|title|meaning|domain|why|cautionTexts)$`)
	digits = regexp.MustCompile(`\d+(?:[.,]\d+)?`)
	dot    = regexp.MustCompile(`(\d)\.(\d)`)
)

func wordsDiffer(t *testing.T, at, name string, en, es any) (differ int) {
	t.Helper()
	switch a := en.(type) {
	case map[string]any:
		b, _ := es.(map[string]any)
		if len(a) != len(b) {
			t.Errorf("%s: members %v and %v", at, a, b)
		}
		for k := range a {
			differ += wordsDiffer(t, at+"/"+k, k, a[k], b[k])
		}
	case []any:
		b, _ := es.([]any)
		if len(a) != len(b) {
			t.Errorf("%s: %d and %d items", at, len(a), len(b))
			return differ
		}
		for i := range a {
			differ += wordsDiffer(t, at, name, a[i], b[i])
		}
	case string:
		b, _ := es.(string)
		// The title of a source is in the source's language.
		if source := name == "title" && at != "/title" && at != "/methods/title"; !texts.MatchString(name) || source {
			if a != b {
				t.Errorf("%s: %q and %q, but it is no text", at, a, b)
			}
			return 0
		}
		if a == b {
			t.Errorf("%s is English still: %s", at, b)
		}
		if x, y := numbersIn(dot.ReplaceAllString(a, "$1,$2")), numbersIn(b); !slices.Equal(x, y) {
			t.Errorf("%s: numbers %v and %v in\n%s\n%s", at, x, y, a, b)
		}
		return 1
	default:
		if !reflect.DeepEqual(en, es) {
			t.Errorf("%s: %v and %v", at, en, es)
		}
	}
	return differ
}

func numbersIn(s string) []string {
	all := digits.FindAllString(s, -1)
	slices.Sort(all)
	return all
}

// TestProblemPagesInSpanish reads each page as a browser of a crew asks for it.
func TestProblemPagesInSpanish(t *testing.T) {
	for _, p := range wire.ProblemTypes {
		en := call(t, http.MethodGet, "/problems/"+string(p.Kind), "").Body.String()
		es := call(t, http.MethodGet, "/problems/"+string(p.Kind), "", "Accept-Language", "es-419,es;q=0.9").Body.String()
		if !regexp.MustCompile(`<html lang="en">`).MatchString(en) || !regexp.MustCompile(`<html lang="es-419">`).MatchString(es) {
			t.Errorf("%s: the language is not said", p.Kind)
		}
		for _, tag := range []string{"title", "h1", "p"} {
			inside := regexp.MustCompile(`<` + tag + `>([^<]+)</` + tag + `>`)
			a, b := inside.FindStringSubmatch(en), inside.FindStringSubmatch(es)
			if a == nil || b == nil || a[1] == b[1] {
				t.Errorf("%s: <%s> %q and %q", p.Kind, tag, a, b)
			}
		}
	}
}
