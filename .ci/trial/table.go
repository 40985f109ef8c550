package main

import (
	"errors"
	"fmt"
	"strings"
)

const pageFile = "testdata/trial/README.md"

// A tally counts what came of the sheets of one kind, or of all.
type tally struct {
	sheets, refused, ready int
	could, faults          [words]int
}

func (c *tally) add(o *outcome) {
	c.sheets++
	if o.score == nil {
		c.refused++
		return
	}
	if o.verdict == "ready" {
		c.ready++
	}
	for w := range words {
		if o.score.could[w] {
			c.could[w]++
		}
		if o.score.faults[w] != "" {
			c.faults[w]++
		}
	}
}

// A board is the tally of each kind, in the order of the kinds, and of all.
type board struct {
	kinds []*kind
	of    map[*kind]*tally
	all   tally
}

func count(kinds []*kind, outcomes []outcome) *board {
	b := &board{kinds: kinds, of: map[*kind]*tally{}}
	for _, k := range kinds {
		b.of[k] = &tally{}
	}
	for i := range outcomes {
		b.of[outcomes[i].kind].add(&outcomes[i])
		b.all.add(&outcomes[i])
	}
	return b
}

// table has a row for each kind; a count stands where a fault could be.
func (b *board) table() string {
	var s strings.Builder
	s.WriteString("| kind | sheets | refused | ready |")
	for _, x := range scales {
		s.WriteString(" " + x.name + " |")
	}
	s.WriteString("\n|" + strings.Repeat(" --- |", 4+int(words)) + "\n")
	row := func(name string, c *tally) {
		fmt.Fprintf(&s, "| %s | %d | %s | %d |", name, c.sheets, countOf(c.refused), c.ready)
		for w := range words {
			switch {
			case c.could[w] == 0:
				s.WriteString("  |")
			default:
				fmt.Fprintf(&s, " %s |", countOf(c.faults[w]))
			}
		}
		s.WriteString("\n")
	}
	for _, k := range b.kinds {
		name := k.name
		if k.sound {
			name += " *"
		}
		row(name, b.of[k])
	}
	row("**all**", &b.all)
	line := func(name string, cell func(word) string) {
		fmt.Fprintf(&s, "| %s |  |  |  |", name)
		for w := range words {
			s.WriteString(" " + cell(w) + " |")
		}
		s.WriteString("\n")
	}
	line("of so many", func(w word) string { return fmt.Sprint(b.all.could[w]) })
	line("share", func(w word) string { return fmt.Sprintf("%.2f %%", 100*b.all.share(w)) })
	line("at most", atMost)
	line("kept", func(w word) string {
		switch {
		case scales[w].bound == 1:
			return ""
		case b.all.share(w) > scales[w].bound:
			return "**no**"
		}
		return "yes"
	})
	return s.String()
}

// atMost is the bound of a word, where it has one.
func atMost(w word) string {
	if scales[w].bound == 1 {
		return ""
	}
	return fmt.Sprintf("%g %%", 100*scales[w].bound)
}

func countOf(n int) string {
	if n == 0 {
		return "0"
	}
	return fmt.Sprintf("**%d**", n)
}

func (c *tally) share(w word) float64 {
	if c.could[w] == 0 {
		return 0
	}
	return float64(c.faults[w]) / float64(c.could[w])
}

// broken is an error that names the bounds that are not kept.
func (b *board) broken() error {
	var all []string
	for w := range words {
		if b.all.share(w) > scales[w].bound {
			all = append(all, fmt.Sprintf("%s %.2f %%, at most %g %%", scales[w].name, 100*b.all.share(w), 100*scales[w].bound))
		}
	}
	if b.all.refused > 0 {
		all = append(all, fmt.Sprintf("%d sheets are refused", b.all.refused))
	}
	if all == nil {
		return nil
	}
	return errors.New(strings.Join(all, "\n"))
}
