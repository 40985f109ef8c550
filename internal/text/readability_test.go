package text_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
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
	for file, texts := range englishByFile(t) {
		if specialists[file] {
			continue
		}
		var words, sentences, spoken int
		for _, s := range texts {
			for _, sentence := range sentencesOf(s) {
				n := strings.Fields(sentence)
				if len(n) > longestSentence {
					t.Errorf("%s: %d words: %s", file, len(n), sentence)
				}
				if len(n) < 3 {
					continue
				}
				sentences, words = sentences+1, words+len(n)
				for _, word := range n {
					spoken += syllables(word)
				}
			}
		}
		if sentences == 0 {
			continue
		}
		read += sentences
		if grade := 0.39*float64(words)/float64(sentences) + 11.8*float64(spoken)/float64(words) - 15.59; grade > highestGrade {
			t.Errorf("%s: grade %.1f, of %d sentences", file, grade, sentences)
		}
	}
	if read < 500 {
		t.Errorf("only %d sentences were read", read)
	}
}

// englishByFile are the English texts of each file of this folder, from its source.
func englishByFile(t *testing.T) map[string][]string {
	t.Helper()
	files, err := os.ReadDir(".")
	if err != nil {
		t.Fatal(err)
	}
	all := map[string][]string{}
	for _, f := range files {
		if !strings.HasSuffix(f.Name(), ".go") || strings.HasSuffix(f.Name(), "_test.go") {
			continue
		}
		tree, err := parser.ParseFile(token.NewFileSet(), f.Name(), nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		ast.Inspect(tree, func(n ast.Node) bool {
			entry, ok := n.(*ast.CompositeLit)
			if !ok || len(entry.Elts) != 3 {
				return true
			}
			if english, ok := entry.Elts[1].(*ast.BasicLit); ok && english.Kind == token.STRING {
				s, err := strconv.Unquote(english.Value)
				if err != nil {
					t.Fatal(err)
				}
				all[f.Name()] = append(all[f.Name()], s)
			}
			return true
		})
	}
	return all
}

// A sentence ends at a mark before a capital letter or a number that is filled in, at a colon too: what follows it is a list.
var sentenceEnd = regexp.MustCompile(`[.!?][)"]?\s+`)

func sentencesOf(s string) []string { return sentenceEnd.Split(strings.TrimSpace(s), -1) }

var (
	vowels  = regexp.MustCompile(`[aeiouy]+`)
	silent  = regexp.MustCompile(`([^laeiouyd]|[^t]d|[aeiouy]l)es?$|[^td]ed$`)
	letters = regexp.MustCompile(`[a-z]+`)
)

// syllables of a word, as it is spoken: groups of vowels, without a silent e. What has no letters is one.
func syllables(word string) (n int) {
	for _, part := range letters.FindAllString(strings.ToLower(word), -1) {
		groups := len(vowels.FindAllString(part, -1))
		if groups > 1 && silent.MatchString(part) && !regexp.MustCompile(`(s|x|z|ch|sh|[cg])es$`).MatchString(part) {
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
		"tested": 2, "average": 3, "uncertainty": 5, "catches": 2, "rinsate": 2, "damaged": 2, "speed,": 1, "12.7%": 1, "too-close": 2,
	} {
		if got := syllables(word); got != want {
			t.Errorf("%s: %d, by hand %d", word, got, want)
		}
	}
}
