package api

import (
	"bytes"
	"html/template"
	"time"

	"wetrun/internal/text"
)

var deprecationTemplate = template.Must(template.New("deprecation").Parse(`<!doctype html>
<html lang="{{.Lang}}">
<meta charset="utf-8">
<meta name="viewport" content="width=device-width">
<title>{{.Title}}</title>
<h1>{{.Title}}</h1>
<p>{{.Policy}}</p>
<p>{{.Breaking}}</p>
{{if .Lines}}<ul>
{{range .Lines}}<li>{{.}}</li>
{{end}}</ul>
{{else}}<p>{{.None}}</p>
{{end}}<p><a href="/docs">docs</a></p>
</html>
`))

// deprecationPage is what rel="deprecation" leads to: how an operation goes, and
// which ones are going.
func deprecationPage(operations []operation) func(text.Language) ([]byte, error) {
	return func(lang text.Language) ([]byte, error) {
		var lines []string
		for _, o := range operations {
			if d := o.deprecation; d != nil {
				key, args := "deprecation.line", []any{"/v1/" + o.name, d.since.Format(time.DateOnly), d.sunset.Format(time.DateOnly)}
				if d.successor != "" {
					key, args = "deprecation.line_successor", append(args, d.successor)
				}
				lines = append(lines, text.Of(lang, key, args...))
			}
		}
		var b bytes.Buffer
		err := deprecationTemplate.Execute(&b, struct {
			Lang, Title, Policy, Breaking, None string
			Lines                               []string
		}{
			lang.Tag(), text.Of(lang, "deprecation.title"), text.Of(lang, "deprecation.policy", noticeMonths),
			text.Of(lang, "deprecation.breaking"), text.Of(lang, "deprecation.none"), lines,
		})
		return b.Bytes(), err
	}
}
