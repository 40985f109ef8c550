package web_test

import (
	"bytes"
	"encoding/json"
	"os"
	"path"
	"regexp"
	"slices"
	"strings"
	"testing"

	"wetrun/internal/web"
)

// words reads a module of words: one object in plain JSON.
func words(t *testing.T, name string) map[string][2]string {
	t.Helper()
	body := web.Files()["/web/"+name].Body
	start, end := bytes.IndexByte(body, '{'), bytes.LastIndexByte(body, '}')
	if start < 0 || end < start {
		t.Fatalf("%s has no words", name)
	}
	var all map[string][2]string
	if err := json.Unmarshal(body[start:end+1], &all); err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	return all
}

func allWords(t *testing.T) map[string][2]string {
	all := words(t, "words.js")
	for key, pair := range words(t, "words-fields.js") {
		if _, twice := all[key]; twice {
			t.Errorf("two words for %s", key)
		}
		all[key] = pair
	}
	return all
}

func code(t *testing.T) string {
	t.Helper()
	var b strings.Builder
	for name, file := range web.Files() {
		if !strings.HasPrefix(path.Base(name), "words") && (strings.HasSuffix(name, ".js") || name == "/") {
			b.Write(file.Body)
		}
	}
	return b.String()
}

// elsewhere are Spanish words that a crew knows too; the service says others (the
// glossary in internal/text), and the page says what the service says.
var elsewhere = regexp.MustCompile(`(?i)\b(recolec\w*|bajantes?|toberas?|botalón|fumigadora|pulveri\w*|caldo|marcha|régimen|gastada|media|dosis de aplicación|tienes|debes|puedes|haz)\b`)

var argument = regexp.MustCompile(`\{\w+\}`)

func TestWordsInBothLanguages(t *testing.T) {
	same := []string{"notSaid", "no", "status.due", "check.count", "field/target/labelMaximum"}
	for key, pair := range allWords(t) {
		english, spanish := pair[0], pair[1]
		if (english == "" || spanish == "") && key != "status.due" {
			t.Errorf("%s: a language has no words", key)
		}
		if len(english) > 12 && english == spanish && !slices.Contains(same, key) {
			t.Errorf("%s: the same in both languages", key)
		}
		if word := elsewhere.FindString(spanish); word != "" {
			t.Errorf("%s: %q is no word of the glossary", key, word)
		}
		a, b := argument.FindAllString(english, -1), argument.FindAllString(spanish, -1)
		slices.Sort(a)
		slices.Sort(b)
		if !slices.Equal(a, b) {
			t.Errorf("%s takes %v in English and %v in Spanish", key, a, b)
		}
	}
}

// TestWordsAreUsedAndThere: every key that the page names has words, and no words
// are left over. Keys that are put together count by what they begin with.
func TestWordsAreUsedAndThere(t *testing.T) {
	all, source := allWords(t), code(t)
	named := map[string]bool{}
	for _, m := range regexp.MustCompile(`(?:say\(|data-say(?:-label)?(?:="|': ')|button\(|says?: |ticks: )'?([a-zA-Z][\w.-]*)['"]`).FindAllStringSubmatch(source, -1) {
		named[m[1]] = true
		if _, ok := all[m[1]]; !ok {
			t.Errorf("no words for %s", m[1])
		}
	}
	if len(named) < 40 {
		t.Fatalf("found only %d keys in the modules", len(named))
	}
	var begins []string
	for _, m := range regexp.MustCompile("[`]([a-z]+[./]?)\\$\\{").FindAllStringSubmatch(source, -1) {
		begins = append(begins, m[1])
	}
	for key := range all {
		used := named[key] || strings.Contains(source, "'"+key+"'")
		for _, begin := range begins {
			used = used || strings.HasPrefix(key, begin)
		}
		if !used {
			t.Errorf("nobody says %s", key)
		}
	}
}

// TestFieldsHaveWords reads the pointers of steps.js: each field has a label, and
// each label a field.
func TestFieldsHaveWords(t *testing.T) {
	all := words(t, "words-fields.js")
	steps := string(web.Files()["/web/steps.js"].Body)
	var pointers []string
	for _, m := range regexp.MustCompile(`(?:at: |q\()'(/[\w/]+)'`).FindAllStringSubmatch(steps, -1) {
		pointers = append(pointers, m[1])
	}
	for _, m := range regexp.MustCompile(`range\('(/[\w/]+)'`).FindAllStringSubmatch(steps, -1) {
		pointers = append(pointers, m[1]+"/low", m[1]+"/high")
	}
	if len(pointers) < 30 {
		t.Fatalf("found only %d pointers", len(pointers))
	}
	for _, p := range pointers {
		if _, ok := all["field"+p]; !ok {
			t.Errorf("no label for %s", p)
		}
	}
	for key := range all {
		if p, ok := strings.CutPrefix(key, "field"); ok && !strings.Contains(p, "*") && !slices.Contains(pointers, p) {
			t.Errorf("no field for the label of %s", p)
		}
	}
}

// TestStepsHavePlaces: of each next step that the document has the page knows where it is
// done, or that nobody has to go anywhere (result), and of no other.
func TestStepsHavePlaces(t *testing.T) {
	document, err := os.ReadFile("../../openapi/openapi.yaml")
	if err != nil {
		t.Fatal(err)
	}
	listed := regexp.MustCompile(`(?s)\n    SheetStep:\n.*?code:.*?x-extensible-enum: \[([^\]]+)\]`).FindSubmatch(document)
	if listed == nil {
		t.Fatal("the document has no codes of steps")
	}
	codes := strings.Split(string(listed[1]), ", ")
	steps := string(web.Files()["/web/steps.js"].Body)
	_, table, _ := strings.Cut(steps, "placeOfStep = {")
	table, _, _ = strings.Cut(table, "}")
	places := map[string]string{}
	for _, m := range regexp.MustCompile(`(\w+): '(\w+)'`).FindAllStringSubmatch(table, -1) {
		places[m[1]] = m[2]
		if !strings.Contains(steps, "id: '"+m[2]+"'") {
			t.Errorf("%s is done at %s, which the page has not", m[1], m[2])
		}
		if !slices.Contains(codes, m[1]) {
			t.Errorf("no step is called %s", m[1])
		}
	}
	for _, code := range codes {
		if places[code] == "" {
			t.Errorf("no place for %s", code)
		}
	}
}

// TestExamplesAreTheDemoSheets: what the page loads is what testdata holds, and it
// says that it is invented.
func TestExamplesAreTheDemoSheets(t *testing.T) {
	files := web.Files()
	entries, err := os.ReadDir("../../testdata/demo")
	if err != nil || len(entries) == 0 {
		t.Fatal("no demo sheets", err)
	}
	for _, e := range entries {
		want, err := os.ReadFile("../../testdata/demo/" + e.Name())
		if err != nil {
			t.Fatal(err)
		}
		got := files["/web/examples/"+e.Name()].Body
		if !bytes.Equal(got, want) {
			t.Errorf("%s differs: cp testdata/demo/%s internal/web/static/examples/", e.Name(), e.Name())
		}
		name, spanish := strings.CutSuffix(strings.TrimSuffix(e.Name(), ".json"), ".es")
		invented := "(invented)"
		if spanish {
			invented = "(inventado)"
		}
		if !bytes.Contains(got, []byte(invented)) {
			t.Errorf("%s does not say %s", e.Name(), invented)
		}
		if !strings.Contains(code(t), "'"+name+"'") {
			t.Errorf("the page does not offer %s", name)
		}
	}
}

// TestSpanishExamplesAreTwins: a demo sheet has a Spanish twin of the same numbers, in
// which everything has a Spanish name.
func TestSpanishExamplesAreTwins(t *testing.T) {
	files := web.Files()
	named := regexp.MustCompile(`"(label|item|finding)": "([^"]*)"`)
	english := regexp.MustCompile(`\b(left|center|right|bed|beds|field|strainer|cleaned|invented)\b`)
	pairs := 0
	for name, file := range files {
		if !strings.HasPrefix(name, "/web/examples/") || strings.HasSuffix(name, ".es.json") {
			continue
		}
		pairs++
		twin := files[strings.TrimSuffix(name, ".json")+".es.json"].Body
		if !bytes.Equal(named.ReplaceAll(twin, []byte("$1")), named.ReplaceAll(file.Body, []byte("$1"))) {
			t.Errorf("%s and its twin differ in more than names", name)
		}
		for _, m := range named.FindAllSubmatch(twin, -1) {
			if english.Match(m[2]) {
				t.Errorf("the twin of %s calls something %s", name, m[2])
			}
		}
	}
	if pairs != 3 {
		t.Errorf("%d sheets have twins", pairs)
	}
}

// TestNothingInline: the policy forbids what is inline or from elsewhere, so none
// may be written.
func TestNothingInline(t *testing.T) {
	for name, file := range web.Files() {
		if strings.HasPrefix(name, "/web/examples/") {
			continue
		}
		for _, bad := range []string{`style="`, "<style", ` onclick="`, "javascript:", "innerHTML", "insertAdjacentHTML", "eval(", "@import", " url("} {
			if bytes.Contains(file.Body, []byte(bad)) {
				t.Errorf("%s has %s", name, bad)
			}
		}
		for _, m := range regexp.MustCompile(`https?://[^\s"'<]+`).FindAll(file.Body, -1) {
			if !strings.HasPrefix(string(m), "http://www.w3.org/2000/svg") {
				t.Errorf("%s names %s", name, m)
			}
		}
		if lines := bytes.Count(file.Body, []byte("\n")); strings.HasSuffix(name, ".js") && !strings.Contains(name, "words") && lines > 250 {
			t.Errorf("%s has %d lines", name, lines)
		}
	}
	if !strings.HasPrefix(web.Policy, "default-src 'none'; script-src 'self'; style-src 'self' 'sha256-") || strings.Contains(web.Policy, "unsafe") {
		t.Errorf("the policy is %s", web.Policy)
	}
}

// TestReferencesAreThere: every module, style sheet and picture that a file asks for
// is served.
func TestReferencesAreThere(t *testing.T) {
	files := web.Files()
	asks := regexp.MustCompile(`(?:from '|src="|href=")(\./[\w-]+\.js|/web/[\w./-]+)['"]`)
	n := 0
	for name, file := range files {
		for _, m := range asks.FindAllSubmatch(file.Body, -1) {
			n++
			at := strings.Replace(string(m[1]), "./", "/web/", 1)
			if _, ok := files[at]; !ok {
				t.Errorf("%s asks for %s", name, at)
			}
		}
	}
	if n < 30 {
		t.Errorf("found only %d references", n)
	}
}
