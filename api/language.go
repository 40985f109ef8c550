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
	if h["Vary"] == nil {
		h["Vary"] = byLanguage
		return
	}
	h.Add("Vary", byLanguage[0])
}
