package api

import (
	"bytes"
	"strconv"

	"wetrun/api/wire"
	"wetrun/internal/markup"
	"wetrun/internal/text"
)

// problemPage is the short page that a problem's type points to.
func problemPage(kind wire.ProblemType) func(text.Language) ([]byte, error) {
	return func(lang text.Language) ([]byte, error) {
		title := text.Of(lang, "title."+string(kind))
		var b bytes.Buffer
		err := markup.Write(&b, lang.Tag(), title, nil,
			markup.Element("h1", markup.Text(title)),
			markup.Element("p", markup.Text(text.Of(lang, "remedy."+string(kind)))),
			markup.Element("p",
				markup.Text(strconv.Itoa(kind.Status())+" · "), markup.Element("code", markup.Text(string(kind))),
				markup.Text(" · "), markup.Element("a", markup.Attribute("href", "/openapi.yaml"), markup.Text("openapi.yaml"))))
		return b.Bytes(), err
	}
}
