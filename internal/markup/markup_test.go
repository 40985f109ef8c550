package markup_test

import (
	"strings"
	"testing"

	"golang.org/x/net/html"

	"wetrun/internal/markup"
	"wetrun/internal/text"
)

// FuzzWrite: whatever a text, a title or the value of an attribute holds, a parser
// reads back what is visible of it, and finds no element or attribute more.
func FuzzWrite(f *testing.F) {
	for _, s := range []string{"plain", `<script>alert(1)</script>`, `"><img src=x onerror=alert(1)>`, `' onclick='a`, "</title></head><b>", "&lt;&amp", "<!--", "]]>", "</p>", "\x1b[2J", "\u202Etxt.exe"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		// A parser reads other bytes in their place; none of them begins markup.
		s = strings.NewReplacer("\x00", "", "\r", "").Replace(strings.ToValidUTF8(s, ""))
		var b strings.Builder
		if err := markup.Write(&b, "en", s, nil, markup.Element("p", markup.Class(s), markup.Attribute("title", s), markup.Text(s))); err != nil {
			t.Fatal(err)
		}
		root, err := html.Parse(strings.NewReader(b.String()))
		if err != nil {
			t.Fatal(err)
		}
		s = text.Visible(s)
		var elements []string
		for n := range root.Descendants() {
			if n.Type != html.ElementNode {
				continue
			}
			elements = append(elements, n.Data)
			if n.Data != "p" && n.Data != "title" {
				continue
			}
			if got := n.FirstChild; s != "" && (got == nil || got.Data != s || got.NextSibling != nil) {
				t.Errorf("%s reads %+v", n.Data, got)
			}
			for _, a := range n.Attr {
				if n.Data != "p" || len(n.Attr) != 2 || a.Val != s {
					t.Errorf("%s has %q", n.Data, n.Attr)
				}
			}
		}
		if got := strings.Join(elements, " "); got != "html head meta meta title body p" {
			t.Errorf("%q made %s", s, got)
		}
	})
}

// TestStyleStands: the style of a page is not escaped, since its hash is in the policy.
func TestStyleStands(t *testing.T) {
	const style = "a > b {\n\tcontent: \"&\" }"
	var b strings.Builder
	err := markup.Write(&b, "es", "T", markup.Style(style), markup.Texts("li", []string{"one", "two"}), nil)
	const want = `<!DOCTYPE html><html lang="es"><head><meta charset="utf-8"/><meta name="viewport" content="width=device-width, initial-scale=1"/><title>T</title>` +
		`<style>` + style + `</style></head><body><li>one</li><li>two</li></body></html>`
	if err != nil || b.String() != want {
		t.Errorf("%v: %s", err, b.String())
	}
}
