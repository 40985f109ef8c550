package api

import (
	"bytes"
	"time"

	"wetrun/api/operation"
	"wetrun/internal/markup"
	"wetrun/internal/text"
)

// deprecationPage is what rel="deprecation" leads to: how an operation goes, and
// which ones are going.
func deprecationPage(operations []operation.Operation) func(text.Language) ([]byte, error) {
	return func(lang text.Language) ([]byte, error) {
		var lines []string
		for _, o := range operations {
			if d := o.Deprecation; d != nil {
				key, args := "deprecation.line", []any{"/v1/" + o.Name, lang.Date(d.Since.Format(time.DateOnly)), lang.Date(d.Sunset.Format(time.DateOnly))}
				if d.Successor != "" {
					key, args = "deprecation.line_successor", append(args, d.Successor)
				}
				lines = append(lines, text.Of(lang, key, args...))
			}
		}
		going := markup.Element("p", markup.Text(text.Of(lang, "deprecation.none")))
		if lines != nil {
			going = markup.Element("ul", markup.Texts("li", lines))
		}
		title := text.Of(lang, "deprecation.title")
		var b bytes.Buffer
		err := markup.Write(&b, lang.Tag(), title, nil,
			markup.Element("h1", markup.Text(title)),
			markup.Element("p", markup.Text(text.Of(lang, "deprecation.policy", operation.NoticeMonths))),
			markup.Element("p", markup.Text(text.Of(lang, "deprecation.breaking"))),
			going,
			markup.Element("p", markup.Element("a", markup.Attribute("href", "/docs"), markup.Text("docs"))))
		return b.Bytes(), err
	}
}
