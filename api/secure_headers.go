package api

import (
	"net/http"

	"wetrun/internal/text"
)

// secureHeaders go with every answer: what it is must not be guessed, no other site
// may frame it or share its browsing context, and no link tells where it was
// followed. A page that needs a policy of content of its own sets it, with
// frame-ancestors in it. The slices are shared, which saves copies; nobody appends
// to them in place.
var secureHeaders = map[string][]string{
	"X-Content-Type-Options":     {"nosniff"},
	"Referrer-Policy":            {"no-referrer"},
	"Content-Security-Policy":    {"frame-ancestors 'none'"},
	"Cross-Origin-Opener-Policy": {"same-origin"},
}

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

func secure(h http.Header) {
	for name, value := range secureHeaders {
		h[name] = value
	}
}
