package finding

import "slices"

// Enumerations that an input can hold are strings: the words that stand for them in
// requests too. The zero value is one that was not given. Each type lists its words with
// the method Words; the lists themselves stand beside the constants.

// WordsOf is such a list for callers, who may keep it.
func WordsOf[W ~string](list []W) []string {
	words := make([]string, len(list))
	for i, w := range list {
		words[i] = string(w)
	}
	return words
}

// NotAmong tells whether a word was given and is none of the list.
func NotAmong[W ~string](w W, list []W) bool { return w != "" && !slices.Contains(list, w) }
