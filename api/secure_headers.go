package api

import (
	"maps"
	"net/http"

	"wetrun/internal/text"
)

// secureHeaders go with every answer: what it is must not be guessed, and no other
// site may frame it. Those of pages keep other sites out of their browsing context, and
// no link tells where it was followed. A page that needs a policy of content of its own
// sets it, with frame-ancestors in it. The slices are shared, which saves copies; nobody
// appends to them in place.
var (
	secureHeaders = map[string][]string{
		"X-Content-Type-Options":  {"nosniff"},
		"Content-Security-Policy": {"frame-ancestors 'none'"},
	}
	securePage = map[string][]string{
		"Referrer-Policy":            {"no-referrer"},
		"Cross-Origin-Opener-Policy": {"same-origin"},
	}
)

// The values of headers that most answers have, shared likewise.
var (
	noStore         = []string{"no-store"}
	byLanguage      = []string{"Accept-Language"}
	byAccept        = []string{"Accept"}
	jsonType        = []string{"application/json"}
	contentLanguage = languageTags()
)

// languageTags are the values of Content-Language, in the order of the languages.
func languageTags() (tags [][]string) {
	for _, lang := range text.Languages() {
		tags = append(tags, []string{lang.Tag()})
	}
	return tags
}

// secure sets the headers; what a browser gets is a page for all it knows.
func secure(h http.Header, method string) {
	maps.Copy(h, secureHeaders)
	if method != http.MethodPost {
		maps.Copy(h, securePage)
	}
}
