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

// worded says in which language an answer has its texts, and that it hangs on what
// was asked for.
func worded(h http.Header, lang text.Language) {
	h["Content-Language"] = contentLanguage[lang]
	varies(h, byLanguage)
}

// varies says that an answer hangs on another header of the request too.
func varies(h http.Header, by []string) {
	if h["Vary"] == nil {
		h["Vary"] = by
		return
	}
	h.Add("Vary", by[0])
}
