package api

import (
	"embed"

	"github.com/swaggest/swgui/v5/static"

	"wetrun/internal/text"
)

//go:embed docs
var docs embed.FS

// docsPage is the interactive reference without its files. That of the library is a
// template with scripts inside, which our policy forbids; its handler writes entity tags
// without quotes (RFC 9110, 8.8.3) and errors that are no problems.
func docsPage(text.Language) ([]byte, error) { return docs.ReadFile("docs/index.html") }

// docsFiles are the files that the reference loads, all from this server; those of the
// library are kept compressed in it. Without keys nothing of the page speaks of any.
func docsFiles(keys bool) map[string]*page {
	own := func(names ...string) func(text.Language) ([]byte, error) {
		return compressed(func(text.Language) (all []byte, err error) {
			for _, name := range names {
				file, err := docs.ReadFile("docs/" + name)
				if err != nil {
					return nil, err
				}
				all = append(all, file...)
			}
			return all, nil
		})
	}
	styles := []string{"page.css", "no-keys.css"}
	if keys {
		styles = styles[:1]
	}
	library := func(name string) func(text.Language) ([]byte, error) {
		return func(text.Language) ([]byte, error) { return static.FS.ReadFile(name) }
	}
	const css, script = "text/css; charset=utf-8", "text/javascript; charset=utf-8"
	return map[string]*page{
		"/docs/page.css":             {mediaType: css, wordless: true, packed: true, prepare: own(styles...)},
		"/docs/start.js":             {mediaType: script, wordless: true, packed: true, prepare: own("start.js")},
		"/docs/swagger-ui.css":       {mediaType: css, wordless: true, packed: true, prepare: library("swagger-ui.css.gz")},
		"/docs/swagger-ui-bundle.js": {mediaType: script, wordless: true, packed: true, prepare: library("swagger-ui-bundle.js.gz")},
	}
}
