package text_test

import (
	"os"
	"regexp"
	"strings"
	"testing"

	"wetrun/internal/text"
)

// TestGlossaryIsCurrent: each word of GLOSSARY.md stands in a text of its language, and
// none of those that are not to be used stands in a Spanish one.
func TestGlossaryIsCurrent(t *testing.T) {
	table, err := os.ReadFile("GLOSSARY.md")
	if err != nil {
		t.Fatal(err)
	}
	var english, spanish strings.Builder
	for _, key := range text.Keys() {
		english.WriteString(strings.ToLower(text.Of(text.English, key)) + "\n")
		spanish.WriteString(strings.ToLower(text.Of(text.Spanish, key)) + "\n")
	}
	rows := regexp.MustCompile(`(?m)^\| ([^|]*) \| ([^|]*) \|([^|]*)\|$`).FindAllStringSubmatch(string(table), -1)
	if len(rows) < 32 {
		t.Fatalf("only %d rows", len(rows))
	}
	for _, row := range rows[2:] { // the head and its rule go before
		for _, word := range glossaryWords(row[1]) {
			if !strings.Contains(english.String(), word[0]) {
				t.Errorf("no English text has %q", word[0])
			}
		}
		for _, word := range glossaryWords(row[2]) {
			if !strings.Contains(spanish.String(), word[0]) && (word[1] == "" || !strings.Contains(spanish.String(), word[1])) {
				t.Errorf("no Spanish text has %q", word[0])
			}
		}
		never, _, _ := strings.Cut(row[3], ":")
		for _, word := range glossaryWords(never) {
			if m := words(word[0] + `s?`).FindString(spanish.String()); m != "" {
				t.Errorf("a Spanish text has %q", m)
			}
		}
	}
}

// glossaryWords are those of a cell, each with what stands in brackets behind it.
func glossaryWords(cell string) (all [][2]string) {
	for word := range strings.SplitSeq(cell, ", ") {
		word, bracket, _ := strings.Cut(strings.TrimSpace(strings.ToLower(word)), " (")
		for _, article := range []string{"to ", "a "} {
			word = strings.TrimPrefix(word, article)
		}
		if word != "" {
			all = append(all, [2]string{word, strings.TrimSuffix(bracket, ")")})
		}
	}
	return all
}
