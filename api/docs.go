package api

import (
	"embed"

	"github.com/swaggest/swgui/v5/static"

	"wetrun/internal/text"
)

//go:embed docs
var docs embed.FS

// docsPage is the interactive reference without its files.
func docsPage(text.Language) ([]byte, error) { return docs.ReadFile("docs/index.html") }

// docsFiles are the files that the reference loads, all from this server; those of the
// library are kept compressed in it.
func docsFiles() map[string]*page {
	own := func(name string) func(text.Language) ([]byte, error) {
		return packing(func(text.Language) ([]byte, error) { return docs.ReadFile("docs/" + name) })
	}
	library := func(name string) func(text.Language) ([]byte, error) {
		return func(text.Language) ([]byte, error) { return static.FS.ReadFile(name) }
	}
	const css, script, picture = "text/css; charset=utf-8", "text/javascript; charset=utf-8", "image/png"
	return map[string]*page{
		"/docs/page.css":             {mediaType: css, wordless: true, packed: true, prepare: own("page.css")},
		"/docs/start.js":             {mediaType: script, wordless: true, packed: true, prepare: own("start.js")},
		"/docs/swagger-ui.css":       {mediaType: css, wordless: true, packed: true, prepare: library("swagger-ui.css.gz")},
		"/docs/swagger-ui-bundle.js": {mediaType: script, wordless: true, packed: true, prepare: library("swagger-ui-bundle.js.gz")},
		"/docs/favicon-16x16.png":    {mediaType: picture, wordless: true, prepare: library("favicon-16x16.png")},
		"/docs/favicon-32x32.png":    {mediaType: picture, wordless: true, prepare: library("favicon-32x32.png")},
	}
}
