package record

import (
	"fmt"
	"strconv"

	"wetrun/internal/markup"
)

// figure is the chart as a drawing, with its title below.
func (c *Chart) figure() markup.Part {
	if c == nil {
		return nil
	}
	return markup.Element("figure", scrolled(c.Title, c.drawing()), markup.Element("figcaption", markup.Text(c.Title)))
}

func (c *Chart) drawing() markup.Part {
	p := c.Plot()
	return markup.Element("svg",
		markup.Attribute("viewBox", fmt.Sprintf("0 0 %g %g", p.Width, p.Height)), markup.Attribute("role", "img"), markup.Attribute("aria-label", c.Description),
		markup.Each(p.Ticks, p.tick),
		markup.Each(p.Marks, p.mark))
}

func (p Plot) tick(t Tick) markup.Part {
	return markup.All(
		markup.Element("line", markup.Class("tick"), at("x1", p.Left), at("x2", p.Right), at("y1", t.Y), at("y2", t.Y)),
		markup.Element("text", markup.Class("scale"), at("x", p.Left-6), at("y", t.Y), at("dy", 4), markup.Text(t.Text)))
}

// The signs tell the catches apart without colour: a dot within, and what is outside
// points to where it is.
var signs = map[string]markup.Part{
	"within": markup.Element("circle", markup.Class("within"), at("r", 4)),
	"above":  markup.Element("path", markup.Class("outside"), markup.Attribute("d", "M-6 5 0 -6 6 5z")),
	"below":  markup.Element("path", markup.Class("outside"), markup.Attribute("d", "M-6 -5 0 6 6 -5z")),
}

func (p Plot) mark(m Mark) markup.Part {
	var acceptable, name markup.Part
	if m.Ranged {
		acceptable = markup.Element("rect", markup.Class("range"), at("x", m.Left()), at("y", m.Top), at("width", m.Width), at("height", m.Height))
	}
	if m.Named {
		turned := fmt.Sprintf("translate(%g %g) rotate(-40)", m.X, p.Foot)
		name = markup.Element("text", markup.Class("name"), markup.Attribute("transform", turned), at("x", -4), at("y", 12), markup.Text(m.Name))
	}
	return markup.All(
		acceptable,
		markup.Element("g", markup.Attribute("transform", fmt.Sprintf("translate(%g %g)", m.X, m.Y)), signs[m.Status]),
		name)
}

// at is an attribute that is a number.
func at(name string, x float64) markup.Part {
	return markup.Attribute(name, strconv.FormatFloat(x, 'f', -1, 64))
}
