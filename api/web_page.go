package api

import (
	"net/http"

	"wetrun/internal/text"
	"wetrun/internal/web"
)

// webPages are the files of the field sheet. They are for people: the document
// does not list them. A browser asks every time whether they have changed, so that
// a page never runs with the modules of another release.
func webPages() map[string]*page {
	all := map[string]*page{}
	for path, file := range web.Files() {
		all[path] = &page{
			mediaType: file.MediaType,
			wordless:  true,
			header:    http.Header{"Cache-Control": {"no-cache"}, "Content-Security-Policy": {web.Policy}},
			prepare:   func(text.Language) ([]byte, error) { return file.Body, nil },
		}
	}
	return all
}
