package api

import (
	"net/http"

	"wetrun/internal/text"
	"wetrun/internal/web"
)

// webPages are the files of the field sheet. They are for people: the document
// does not list them. A browser asks every time whether they have changed, so that
// a page never runs with the modules of another release. What is sent is a third when
// it is compressed, and fields are where networks are slow.
func webPages() map[string]*page {
	all := map[string]*page{}
	for path, file := range web.Files() {
		all[path] = &page{
			mediaType: file.MediaType,
			wordless:  true,
			header:    http.Header{"Cache-Control": {"no-cache"}, "Content-Security-Policy": {web.Policy}},
			packed:    true,
			prepare:   compressed(func(text.Language) ([]byte, error) { return file.Body, nil }),
		}
	}
	return all
}
