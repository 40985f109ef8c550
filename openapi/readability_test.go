package openapi_test

import (
	"encoding/json"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// longestSentence of a description, in words: its readers are programmers, and many words are names of fields.
const longestSentence = 30

// TestDescriptionsAreShort: no sentence of a description or a summary is long.
func TestDescriptionsAreShort(t *testing.T) {
	_, asJSON := joinedDocument(t)
	var tree any
	if err := json.Unmarshal(asJSON, &tree); err != nil {
		t.Fatal(err)
	}
	read := 0
	described(tree, func(s string) {
		for _, sentence := range sentences(s) {
			read++
			if n := len(strings.Fields(sentence)); n > longestSentence {
				t.Errorf("%d words: %s", n, sentence)
			}
		}
	})
	if read < 1000 {
		t.Errorf("only %d sentences were read", read)
	}
}

// described calls f with each description and summary, but not with those inside examples.
func described(node any, f func(string)) {
	switch n := node.(type) {
	case map[string]any:
		for name, value := range n {
			s, ok := value.(string)
			switch {
			case ok && (name == "description" || name == "summary"):
				f(s)
			case name != "value" && name != "example":
				described(value, f)
			}
		}
	case []any:
		for _, value := range n {
			described(value, f)
		}
	}
}

var (
	formula     = regexp.MustCompile("(?m)^    .*$|`[^`]*`") // a line set apart, and what is in code font, which counts as one word
	sentenceEnd = regexp.MustCompile(`[.!?:;][)"*]*\s+|\n\n`)
)

// sentences are cut at marks, at semicolons and at colons, since what follows them can be read by itself.
func sentences(s string) []string {
	return sentenceEnd.Split(formula.ReplaceAllStringFunc(s, func(part string) string {
		if strings.HasPrefix(part, "`") {
			return "code"
		}
		return "\n\n"
	}), -1)
}

func TestSentences(t *testing.T) {
	got := sentences("One (two). Three `a. b c` four: five;\n\n    a = b. c\n\nsix")
	if want := []string{"One (two)", "Three code four", "five", "six"}; !slices.Equal(got, want) {
		t.Errorf("%q, not %q", got, want)
	}
}
