package record

import (
	"fmt"
	"strconv"

	"wetrun/internal/markup"
)

// head is the heading of the chart's column: the ends of its scale.
func (c *Chart) head(s Scale) markup.Part {
	end := func(v float64, anchor string) markup.Part {
		return markup.Element("text", number("x", s.x(v)), number("y", stripHeight-3), markup.Attribute("text-anchor", anchor), markup.Text(c.Number(v)))
	}
	ticks := s.ticks()
	first, last := ticks[0], ticks[len(ticks)-1]
	return markup.Element("th", markup.Class("chart"), markup.Attribute("scope", "col"),
		strip(markup.All(markup.Attribute("role", "img"), markup.Attribute("aria-label", c.Title)), end(first, "start"), end(last, "end")))
}

// cell is the strip of one row; its numbers stand beside it for who cannot see it.
func (s Scale) cell(p *Point) markup.Part {
	var drawn markup.Part
	if p != nil {
		drawn = s.drawn(s.mark(*p))
	}
	return markup.Element("td", markup.Class("chart"), strip(markup.Attribute("aria-hidden", "true"),
		markup.Each(s.ticks(), func(v float64) markup.Part {
			return markup.Element("line", markup.Class("tick"), number("x1", s.x(v)), number("x2", s.x(v)), number("y1", 0), number("y2", stripHeight))
		}),
		drawn))
}

// The signs tell the catches apart without colour: a dot within, and what is outside
// points to where it is.
var signs = map[string]markup.Part{
	"within": markup.Element("circle", markup.Class("within"), number("r", 3.5)),
	"above":  markup.Element("path", markup.Class("outside"), markup.Attribute("d", "M-5 -5.5 7 0 -5 5.5z")),
	"below":  markup.Element("path", markup.Class("outside"), markup.Attribute("d", "M5 -5.5 -7 0 5 5.5z")),
}

func (s Scale) drawn(m placedPoint) markup.Part {
	var acceptable markup.Part
	if m.Ranged {
		acceptable = markup.Element("rect", markup.Class("range"), number("x", m.Left), number("y", 2), number("width", m.Width), number("height", stripHeight-4))
	}
	return markup.All(acceptable,
		markup.Element("g", markup.Attribute("transform", fmt.Sprintf("translate(%g %g)", m.X, stripHeight/2)), signs[m.Status]))
}

func strip(attribute markup.Part, parts ...markup.Part) markup.Part {
	return markup.Element("svg", markup.Attribute("viewBox", fmt.Sprintf("0 0 %g %g", stripWidth, stripHeight)), attribute, markup.All(parts...))
}

// number is an attribute that is one.
func number(name string, x float64) markup.Part {
	return markup.Attribute(name, strconv.FormatFloat(x, 'f', -1, 64))
}
