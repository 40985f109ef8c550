// Package web holds the field sheet that the service shows at /: one page, its
// style sheet, and plain ES modules that call the public API and nothing else.
// There is no build step; what is in static is what a browser gets.
package web

import (
	"embed"
	"fmt"
	"io/fs"
	"path"
	"strings"

	"wetrun/internal/record"
)

//go:embed static
var static embed.FS

// Policy is the Content-Security-Policy of the page: nothing from another host,
// nothing inline, and nobody frames it. A record that the page opens has this policy
// too, so the one style of a record is allowed.
var Policy = "default-src 'none'; script-src 'self'; style-src 'self' " + record.StyleSource + "; img-src 'self' data:; connect-src 'self'; " +
	"base-uri 'none'; form-action 'self'; frame-ancestors 'none'"

// A File is one file of the page.
type File struct {
	MediaType string
	Body      []byte
}

var mediaTypes = map[string]string{
	".html": "text/html; charset=utf-8",
	".css":  "text/css; charset=utf-8",
	".js":   "text/javascript; charset=utf-8",
	".json": "application/json",
	".svg":  "image/svg+xml",
}

// Files lists the files by the path that they are served at: the page itself at /,
// everything else under /web/.
func Files() map[string]File {
	files := map[string]File{}
	err := fs.WalkDir(static, "static", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		mediaType, ok := mediaTypes[path.Ext(name)]
		if !ok {
			return fmt.Errorf("web: no media type for %s", name)
		}
		body, err := static.ReadFile(name)
		at := "/web/" + strings.TrimPrefix(name, "static/")
		if name == "static/index.html" {
			at = "/"
		}
		files[at] = File{mediaType, body}
		return err
	})
	if err != nil {
		panic(err) // the files are built in, and a test reads them
	}
	return files
}
