package record

import (
	"cmp"
	"io"

	"wetrun/internal/markup"
)

// Write writes the page as HTML; what users named in it is escaped.
func (p *Page) Write(w io.Writer) error {
	title := p.Title
	if p.Label != "" {
		title = p.Label + " – " + p.Title
	}
	return markup.Write(w, p.Language, title,
		markup.All(
			markup.Element("meta", markup.Attribute("name", "robots"), markup.Attribute("content", "noindex")),
			markup.Style(style)),
		markup.Element("main", p.main()...))
}

func (p *Page) main() []markup.Part {
	return []markup.Part{
		markup.Element("header",
			markup.Element("p", markup.Class("kind"), markup.Text(p.Title)),
			markup.Element("h1", markup.Text(cmp.Or(p.Label, p.Title))),
			markup.Element("p", markup.Class("verdict "+p.Verdict.Code), markup.Element("strong", markup.Text(p.Verdict.Word)), markup.Text(" "+p.Verdict.Detail))),
		facts("facts filed", p.Filed),
		facts("facts", p.Facts),
		p.Steps.section("steps", "ol"),
		p.note(), // explains a sign of the parts, so it stands before them
		p.parts(),
		p.Plans.section("plans"),
		p.Warnings.section("warnings", "ul"),
		p.Cautions.section("cautions", "ul"),
		markup.Element("section", markup.Class("sign"), markup.Each(p.Sign, func(line string) markup.Part {
			return markup.Element("p", markup.Element("span", markup.Text(line)))
		})),
		markup.Element("footer",
			markup.Element("p", markup.Text(p.Digest.Name+" "), markup.Element("code", markup.Text(p.Digest.Value))),
			markup.Element("p", markup.Text(p.Digest.Explanation))),
		p.Working.section("working"),
	}
}

func facts(class string, all []Fact) markup.Part {
	if len(all) == 0 {
		return nil
	}
	return markup.Element("dl", markup.Class(class), markup.Each(all, func(f Fact) markup.Part {
		var blank markup.Part
		if f.Value == "" {
			blank = markup.Class("blank")
		}
		return markup.Element("div", blank, markup.Element("dt", markup.Text(f.Name)), markup.Element("dd", markup.Text(f.Value)))
	}))
}

func (p *Page) note() markup.Part {
	if p.Note == "" {
		return nil
	}
	return markup.Element("p", markup.Class("note"), markup.Text(p.Note))
}

// section is the lines in a list of the element named, or nothing without lines.
func (l Lines) section(class, list string) markup.Part {
	if len(l.Lines) == 0 {
		return nil
	}
	return markup.Element("section", markup.Class(class), markup.Element("h2", markup.Text(l.Heading)), markup.Element(list, markup.Texts("li", l.Lines)))
}

// parts are the parts of the job; those that need the width of the page stand below the
// others.
func (p *Page) parts() markup.Part {
	var narrow, wide []Part
	for _, one := range p.Parts {
		if one.wide() {
			wide = append(wide, one)
		} else {
			narrow = append(narrow, one)
		}
	}
	return markup.All(markup.Element("div", markup.Class("parts"), markup.Each(narrow, Part.element)), markup.Each(wide, Part.element))
}

func (p Part) element() markup.Part {
	return markup.Element("section", markup.Class("part "+p.Status),
		markup.Element("h2", markup.Text(p.Heading+" "), markup.Element("span", markup.Class("status"), markup.Text(p.Word))),
		markup.Texts("p", p.Lines),
		p.Table.element())
}

func (t *Table) section(class string) markup.Part {
	if t == nil {
		return nil
	}
	return markup.Element("section", markup.Class(class), t.element())
}

func (t *Table) element() markup.Part {
	if t == nil {
		return nil
	}
	var scale Scale
	var head, key markup.Part
	if t.Chart != nil {
		scale = scaleOf(t.Rows)
		head = t.Chart.head(scale)
		key = markup.Element("p", markup.Class("key"), markup.Text(t.Chart.Title))
	}
	class := "scroll"
	if t.halves() {
		class += " halves"
	}
	return markup.All(scrolled(class, t.Caption, markup.Element("table",
		markup.Element("caption", markup.Text(t.Caption)),
		markup.Element("thead", markup.Element("tr", markup.Each(t.Heads, func(head string) markup.Part {
			return markup.Element("th", markup.Attribute("scope", "col"), markup.Text(head))
		}), head)),
		markup.Element("tbody", markup.Each(t.Rows, func(r Row) markup.Part {
			var cell markup.Part
			if t.Chart != nil {
				cell = scale.cell(r.Point)
			}
			return r.element(cell)
		})))), key)
}

func (r Row) element(chart markup.Part) markup.Part {
	parts := make([]markup.Part, 0, len(r.Cells)+2)
	switch {
	case r.Marked:
		parts = append(parts, markup.Class("marked"))
	case r.Replaced:
		parts = append(parts, markup.Class("replaced"))
	}
	for i, cell := range r.Cells {
		if i == 0 {
			parts = append(parts, markup.Element("th", markup.Attribute("scope", "row"), markup.Text(cell)))
		} else {
			parts = append(parts, markup.Element("td", markup.Text(cell)))
		}
	}
	return markup.Element("tr", append(parts, chart)...)
}

// scrolled is what a narrow screen scrolls by itself; who has no mouse can reach it.
func scrolled(class, name string, part markup.Part) markup.Part {
	return markup.Element("div", markup.Class(class), markup.Attribute("role", "region"), markup.Attribute("tabindex", "0"), markup.Attribute("aria-label", name), part)
}
