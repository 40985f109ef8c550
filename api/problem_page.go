package api

import (
	"bytes"
	"html/template"

	"wetrun/internal/text"
)

var problemTemplate = template.Must(template.New("problem").Parse(`<!doctype html>
<html lang="{{.Lang}}">
<meta charset="utf-8">
<meta name="viewport" content="width=device-width">
<title>{{.Title}}</title>
<h1>{{.Title}}</h1>
<p>{{.Remedy}}</p>
<p>{{.Status}} · <code>{{.Kind}}</code> · <a href="/openapi.yaml">openapi.yaml</a></p>
</html>
`))

// problemPage is the short page that a problem's type points to.
func problemPage(kind problemType) func(text.Language) ([]byte, error) {
	return func(lang text.Language) ([]byte, error) {
		var b bytes.Buffer
		err := problemTemplate.Execute(&b, struct {
			Lang, Title, Remedy, Kind string
			Status                    int
		}{lang.Tag(), text.Of(lang, "title."+string(kind)), text.Of(lang, "remedy."+string(kind)), string(kind), kind.status()})
		return b.Bytes(), err
	}
}
