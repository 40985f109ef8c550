package text_test

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// A passage is what people read in one place, in one language.
type passage struct{ place, words string }

// elsewhereHonest are contexts in which a word that the glossary retires means something else.
var elsewhereHonest = map[string]*regexp.Regexp{
	"shaft": regexp.MustCompile(`PTO shafts?`),
	"mean":  regexp.MustCompile(`(basis|can|would|you) mean\b`),
}

// forSpecialists are files whose readers know the word of statistics.
var forSpecialists = regexp.MustCompile(`^(methods.*|sampling|uncertainty)\.go$|/(sampling|wear-forecast|uncertainty|nozzle-selection)\.yaml$`)

// TestGlossaryIsKept: each word of GLOSSARY.md stands in a text of its language, and
// none of those beside it that are not to be used stands in any.
func TestGlossaryIsKept(t *testing.T) {
	table, err := os.ReadFile("GLOSSARY.md")
	if err != nil {
		t.Fatal(err)
	}
	english, spanish := passages(t)
	rows := regexp.MustCompile(`(?m)^\| ([^|]*) \| ?([^|]*?) ?\| ([^|]*) \| ?([^|]*?) ?\|$`).FindAllStringSubmatch(string(table), -1)
	if len(rows) < 32 {
		t.Fatalf("only %d rows", len(rows))
	}
	for _, row := range rows[2:] { // the head and its rule go before
		for column, in := range [][]passage{english, english, spanish, spanish} {
			for _, word := range glossaryWords(row[column+1]) {
				at := find(word, in, column%2 == 1)
				switch {
				case column%2 == 0 && len(at) == 0:
					t.Errorf("no text has %q", word)
				case column%2 == 1:
					for _, p := range at {
						t.Errorf("%s has %q: %s", p.place, word, p.words)
					}
				}
			}
		}
	}
}

// glossaryWords are those of a cell, without what explains them behind a colon.
func glossaryWords(cell string) (all []string) {
	words, _, _ := strings.Cut(strings.ToLower(cell), ": ")
	for word := range strings.SplitSeq(words, ",") {
		if word = strings.TrimSpace(word); word != "" {
			all = append(all, word)
		}
	}
	return all
}

// find looks for a word: as a whole one, where it is retired, and not where it means something else.
func find(word string, in []passage, retired bool) (at []passage) {
	whole := words(regexp.QuoteMeta(word) + `|` + regexp.QuoteMeta(word) + `s`)
	if word == "mean" { // "this means that" is another word
		whole = words(word)
	}
	for _, p := range in {
		switch honest := elsewhereHonest[word]; {
		case !retired:
			if strings.Contains(strings.ToLower(p.words), word) {
				return []passage{p}
			}
		case (word == "mean" || word == "media") && forSpecialists.MatchString(p.place):
		case honest != nil && whole.MatchString(honest.ReplaceAllString(p.words, "")), honest == nil && whole.MatchString(p.words):
			at = append(at, p)
		}
	}
	return at
}

var (
	fenced = regexp.MustCompile("(?s)```.*?```")
	coded  = regexp.MustCompile("`[^`]*`|%\\[\\d\\][sd]|\\w+(?:_\\w+)+") // code, arguments and codes: output_5_of_mean
	paired = regexp.MustCompile(`(?m)^"[^"]+": \["((?:[^"\\]|\\.)*)", "((?:[^"\\]|\\.)*)"\]`)
	told   = regexp.MustCompile(`^( *)(?:- )?(?:.*\{)?(?:description|summary): (.+)$`)
)

// passages are the texts of this folder and those of the page, in both languages; and the
// prose of the front page and the descriptions of the contract, which are English alone.
func passages(t *testing.T) (english, spanish []passage) {
	t.Helper()
	read := func(pattern string, f func(place, content string)) {
		files, err := filepath.Glob(pattern)
		if err != nil || len(files) == 0 {
			t.Fatal(pattern, files, err)
		}
		for _, file := range files {
			content, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			f(file, string(content))
		}
	}
	for file, texts := range textsByFile(t) {
		for _, e := range texts {
			english = append(english, passage{file, coded.ReplaceAllString(e.english, "")})
			spanish = append(spanish, passage{file, coded.ReplaceAllString(e.spanish, "")})
		}
	}
	read("../web/static/words*.js", func(place, content string) {
		for _, m := range paired.FindAllStringSubmatch(content, -1) {
			english, spanish = append(english, passage{place, m[1]}), append(spanish, passage{place, m[2]})
		}
	})
	read("../../README.md", func(place, content string) {
		for line := range strings.Lines(coded.ReplaceAllString(fenced.ReplaceAllString(content, ""), "")) {
			english = append(english, passage{place, line})
		}
	})
	for _, parts := range []string{"components", "paths"} {
		read("../../openapi/"+parts+"/*.yaml", func(place, content string) {
			for _, d := range descriptions(content) {
				english = append(english, passage{place, coded.ReplaceAllString(d, "")})
			}
		})
	}
	if len(english) < 3000 || len(spanish) < 1200 {
		t.Fatalf("only %d and %d passages", len(english), len(spanish))
	}
	return english, spanish
}

// descriptions of a part of the contract, each as one line.
func descriptions(part string) (all []string) {
	lines := strings.Split(part, "\n")
	for i, line := range lines {
		m := told.FindStringSubmatch(line)
		if m == nil {
			continue
		}
		all = append(all, m[2])
		if m[2] != "|" && m[2] != ">" {
			continue
		}
		last := len(all) - 1
		for _, l := range lines[i+1:] {
			if strings.TrimSpace(l) != "" && !strings.HasPrefix(l, m[1]+" ") {
				break
			}
			all[last] += " " + strings.TrimSpace(l)
		}
	}
	return all
}
