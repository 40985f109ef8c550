// Package markup builds pages for people as trees of elements, which a library writes
// and escapes. Templates would do, but they call methods by names that the linker
// cannot know, and so keep every exported method of everything in the program.
package markup

import (
	"io"

	"golang.org/x/net/html"

	"wetrun/internal/text"
)

// A Part is what an element is made of: an attribute, a text, an element, or several
// of them. A nil Part is none.
type Part func(*html.Node)

// Attribute is one attribute. Its name is never a user's.
func Attribute(name, value string) Part {
	return func(in *html.Node) { in.Attr = append(in.Attr, html.Attribute{Key: name, Val: text.Visible(value)}) }
}

// Class is the attribute that a style sheet goes by.
func Class(value string) Part { return Attribute("class", value) }

// Text is what people read. What would be markup in it is escaped, and what would hide or
// reorder it is left out.
func Text(words string) Part { return verbatim(text.Visible(words)) }

// Style is a style sheet, byte for byte: its hash is in the policy of the page.
func Style(sheet string) Part { return Element("style", verbatim(sheet)) }

func verbatim(data string) Part {
	return func(in *html.Node) { in.AppendChild(&html.Node{Type: html.TextNode, Data: data}) }
}

// Element is an element of the name, which is never a user's, and what it is made of.
func Element(name string, parts ...Part) Part {
	return func(in *html.Node) {
		node := &html.Node{Type: html.ElementNode, Data: name}
		All(parts...)(node)
		in.AppendChild(node)
	}
}

// All is its parts in their order.
func All(parts ...Part) Part {
	return func(in *html.Node) {
		for _, part := range parts {
			if part != nil {
				part(in)
			}
		}
	}
}

// Each is a part for each of some things.
func Each[T any](things []T, part func(T) Part) Part {
	return func(in *html.Node) {
		for _, thing := range things {
			All(part(thing))(in)
		}
	}
}

// Texts is an element of the name for each text.
func Texts(name string, texts []string) Part {
	return Each(texts, func(words string) Part { return Element(name, Text(words)) })
}

// Write writes a page in a language (BCP 47). The head holds what it needs beside
// its title.
func Write(w io.Writer, language, title string, head Part, body ...Part) error {
	document := &html.Node{Type: html.DocumentNode}
	document.AppendChild(&html.Node{Type: html.DoctypeNode, Data: "html"})
	Element("html", Attribute("lang", language),
		Element("head",
			Element("meta", Attribute("charset", "utf-8")),
			Element("meta", Attribute("name", "viewport"), Attribute("content", "width=device-width, initial-scale=1")),
			Element("title", Text(title)),
			head),
		Element("body", body...),
	)(document)
	return html.Render(w, document)
}
