package text

import (
	"math"
	"strings"
	"testing"
)

// TestFilledIsPrinted fills every text with arguments both ways: by its template and
// by the printer of golang.org/x/text.
func TestFilledIsPrinted(t *testing.T) {
	numbers := []int{0, 7, -1, 999, 1000, -1000, -123456, 262144, 1_000_000, math.MaxInt64, math.MinInt64}
	filled := 0
	for key, worded := range texts {
		for l, s := range worded {
			if !strings.Contains(s, "%[") {
				continue
			}
			for i, n := range numbers {
				args := argumentsOf(s, n)
				for j, a := range args {
					if _, word := a.(string); word && i%3 == 1 {
						args[j] = Figure{"0.25", "gal_us"}
					}
				}
				simple, _ := Language(l).argumentsOf(args)
				got, ok := templates[key][l].fill(Language(l), simple)
				want := printed(Language(l), key, args)
				if !ok || got != want {
					t.Errorf("%s: %q %t, the printer writes %q", key, got, ok, want)
				}
				filled++
			}
		}
	}
	if filled < 1000 {
		t.Errorf("only %d texts filled in", filled)
	}
}

// argumentsOf has a word for each %[n]s of a text, and the number for each %[n]d.
func argumentsOf(s string, number int) (args []any) {
	for n := '1'; n <= '9'; n++ {
		switch at := "%[" + string(n) + "]"; {
		case strings.Contains(s, at+"s"):
			args = append(args, "boquilla 3 % <a>")
		case strings.Contains(s, at+"d"):
			args = append(args, number)
		}
	}
	return args
}

// TestOtherArgumentsArePrinted leaves to the printer what a template cannot do, and
// says what is wrong as it does.
func TestOtherArgumentsArePrinted(t *testing.T) {
	const key = "sampling.all_caught"
	for name, args := range map[string][]any{
		"a broken number": {1.5, 2}, "too few": {1}, "too many": {1, 2, 3}, "a word for a number": {"one", 2},
	} {
		if simple, ok := English.argumentsOf(args); ok {
			if got, ok := templates[key][English].fill(English, simple); ok {
				t.Errorf("%s: filled in as %q", name, got)
			}
			if got, want := Filled(English, key, simple...), printed(English, key, args); got != want {
				t.Errorf("%s: %q, want %q", name, got, want)
			}
		}
		if got, want := Of(English, key, args...), printed(English, key, args); got != want {
			t.Errorf("%s: %q, want %q", name, got, want)
		}
	}
	if templateOf("100 % of %[1]s") != nil || templateOf("%d") != nil || templateOf("%[1]x") != nil {
		t.Error("a template of other verbs")
	}
}
