package api

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// near words a quantity with the uncertainty it has, where that is known: two
// significant digits of it, as JCGM 100:2008, section 7.2.6, advises.
func (s *summary) near(q Quantity, u UncertaintyResponse) string {
	if !u.Expanded.given() || !q.given() {
		return s.people(q)
	}
	expanded, err := strconv.ParseFloat(fmt.Sprintf("%.2g", u.Expanded.as(q.Unit)), 64)
	if err != nil {
		return s.people(q)
	}
	return s.people(q) + " ± " + s.lang.Number(expanded) + " (95 %)"
}

// unsure are the lines on a verdict that is too close to its limit to be called.
func (s *summary) unsure(of string, c ConformanceResponse) []string {
	switch {
	case c.ConformanceDetail == "":
		return nil
	case of == "":
		return []string{c.ConformanceDetail}
	}
	return []string{of + ": " + c.ConformanceDetail}
}

// catchesUnsure are the lines on catches that cannot be called and on those that stand
// apart from the rest; what is said of several is said once. What is to be cleaned or
// replaced has an action, and is caught again after that.
func (s *summary) catchesUnsure(x *NozzleAcceptanceResponse) []string {
	var said grouped
	for i, c := range x.Catches {
		said.add(x.round.name(c.Label, i), c.ConformanceDetail)
	}
	for _, o := range x.Outliers {
		acted := func(a ActionResponse) bool { return a.Pointer == o.Pointer }
		if slices.ContainsFunc(x.Actions, acted) {
			continue
		}
		said.add(x.round.name(o.Label, o.catch), o.Text)
	}
	return said.lines()
}

// grouped gathers the names that one text is said of.
type grouped struct {
	texts []string
	names map[string][]string
}

func (g *grouped) add(name, text string) {
	if text == "" {
		return
	}
	if g.names == nil {
		g.names = map[string][]string{}
	}
	if len(g.names[text]) == 0 {
		g.texts = append(g.texts, text)
	}
	g.names[text] = append(g.names[text], name)
}

func (g *grouped) lines() (all []string) {
	for _, text := range g.texts {
		all = append(all, strings.Join(g.names[text], ", ")+": "+text)
	}
	return all
}
