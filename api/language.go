package api

import (
	"net/http"
	"strings"

	"wetrun/internal/text"
)

// languageOf is the language that a request asks for. Several header lines are one
// list.
func languageOf(req *http.Request) text.Language {
	return text.Match(strings.Join(req.Header.Values("Accept-Language"), ","))
}

// setLanguage says in which language an answer has its texts, and that it depends on what
// was asked for.
func setLanguage(h http.Header, lang text.Language) {
	h["Content-Language"] = contentLanguage[lang]
	addVary(h, byLanguage)
}

// addVary says that an answer depends on another header of the request too.
func addVary(h http.Header, by []string) {
	if h["Vary"] == nil {
		h["Vary"] = by
		return
	}
	h.Add("Vary", by[0])
}
