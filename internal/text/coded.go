package text

import (
	"strings"
	"sync"
)

// coded has the texts by kind and code, so that the two need not be joined for
// every look.
var coded = sync.OnceValue(func() map[[2]string][languages]string {
	all := make(map[[2]string][languages]string, len(texts))
	for key, words := range texts {
		kind, code, _ := strings.Cut(key, ".")
		all[[2]string{kind, code}] = words
	}
	return all
})

// Coded returns the text of a code of some kind, such as caution and clean_water,
// which takes no arguments. It is Of, without a new string for each key.
func Coded(lang Language, kind, code string) string {
	if words, ok := coded()[[2]string{kind, code}]; ok {
		return words[lang]
	}
	return kind + "." + code
}
