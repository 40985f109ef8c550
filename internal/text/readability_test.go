package text_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

const (
	longestSentence = 20 // words: what is understood at first hearing; common practice of plain language, no published source
	highestGrade    = 8.0
)

// specialists are the files whose readers check formulas: sources and symbols in them are not for crews.
var specialists = map[string]bool{"methods.go": true, "methods_symbols.go": true}

// TestCrewsCanReadIt: no English sentence is long, and each file has the grade of a school
// of eight years or less. The grade is Kincaid's, from sentences of three words or more:
//
//	0.39 * words / sentences + 11.8 * syllables / words - 15.59
//
// Kincaid, Fishburne, Rogers and Chissom, 1975: Derivation of new readability formulas for
// Navy enlisted personnel. Naval Technical Training Command, Research Branch Report 8-75.
func TestCrewsCanReadIt(t *testing.T) {
	read := 0
	for file, texts := range textsByFile(t) {
		if specialists[file] {
			continue
		}
		var words, sentences, beats int
		for _, e := range texts {
			for _, sentence := range sentencesOf(e.english) {
				n := strings.Fields(sentence)
				if len(n) > longestSentence {
					t.Errorf("%s: %d words: %s", file, len(n), sentence)
				}
				if len(n) < 3 {
					continue
				}
				sentences, words = sentences+1, words+len(n)
				for _, word := range n {
					beats += syllables(word)
				}
			}
		}
		if sentences == 0 {
			continue
		}
		read += sentences
		if grade := 0.39*float64(words)/float64(sentences) + 11.8*float64(beats)/float64(words) - 15.59; grade > highestGrade {
			t.Errorf("%s: grade %.1f, of %d sentences", file, grade, sentences)
		}
	}
	if read < 500 {
		t.Errorf("only %d sentences were read", read)
	}
}

// A worded entry is one of a file, as its source has it.
type worded struct{ english, spanish string }

// textsByFile are the texts of each file of this folder, from its source.
func textsByFile(t *testing.T) map[string][]worded {
	t.Helper()
	files, err := filepath.Glob("*.go")
	if err != nil {
		t.Fatal(err)
	}
	all := map[string][]worded{}
	for _, file := range files {
		if strings.HasSuffix(file, "_test.go") {
			continue
		}
		tree, err := parser.ParseFile(token.NewFileSet(), file, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		ast.Inspect(tree, func(n ast.Node) bool {
			if entry, ok := n.(*ast.CompositeLit); ok && len(entry.Elts) == 3 {
				if english, spanish := literal(entry.Elts[1]), literal(entry.Elts[2]); english != "" && spanish != "" {
					all[file] = append(all[file], worded{english, spanish})
				}
			}
			return true
		})
	}
	return all
}

// literal is the text of a string literal, or nothing.
func literal(e ast.Expr) string {
	if l, ok := e.(*ast.BasicLit); ok && l.Kind == token.STRING {
		if s, err := strconv.Unquote(l.Value); err == nil {
			return s
		}
	}
	return ""
}

// A sentence ends at a mark with a space behind it.
var sentenceEnd = regexp.MustCompile(`[.!?][)"]?\s+`)

func sentencesOf(s string) []string { return sentenceEnd.Split(strings.TrimSpace(s), -1) }

var (
	vowels  = regexp.MustCompile(`[aeiouy]+`)
	silent  = regexp.MustCompile(`([^laeiouyd]|[^t]d|[aeiouy]l)es?$|[^td]ed$`)
	spoken  = regexp.MustCompile(`(s|x|z|ch|sh|[cg])es$`) // as in catches, where the e is not silent
	letters = regexp.MustCompile(`[a-z]+`)
)

// syllables of a word, as it is spoken: groups of vowels, without a silent e. What has no letters is one.
func syllables(word string) (n int) {
	for _, part := range letters.FindAllString(strings.ToLower(word), -1) {
		groups := len(vowels.FindAllString(part, -1))
		if groups > 1 && silent.MatchString(part) && !spoken.MatchString(part) {
			groups--
		}
		n += max(groups, 1)
	}
	return max(n, 1)
}

// TestSyllables: counted by hand, aloud.
func TestSyllables(t *testing.T) {
	for word, want := range map[string]int{
		"boom": 1, "spray": 1, "nozzle": 2, "pressure": 2, "gauge": 1, "calibrate": 3, "nozzles": 2, "measured": 2,
		"tested": 2, "average": 3, "uncertainty": 4, "catches": 2, "rinsate": 2, "damaged": 2, "speed,": 1, "12.7%": 1, "too-close": 2,
	} {
		if got := syllables(word); got != want {
			t.Errorf("%s: %d, by hand %d", word, got, want)
		}
	}
}
