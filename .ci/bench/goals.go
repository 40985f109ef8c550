package main

import (
	"fmt"
	"time"
)

// A goal is a figure with its bound.
type goal struct {
	what, figure, bound string // without a bound there is none
	met                 bool
	void                bool // what was measured says nothing
	hard                bool // noise cannot spoil it, so it may fail CI
}

// The bounds on the CPU time of a request.
const (
	mostOfFixed = 3.5
	mostOfPlain = 1.0
)

// mostAllocations is what the budgets of the api's tests allow, and a few for emptied pools.
const mostAllocations = 75

func (f *figures) goals() (all []goal) {
	for i := range f.contests {
		all = append(all, f.contests[i].goals()...)
	}
	all = append(all,
		atMost("allocations of a request, 12 catches", float64(f.allocations["TwelveCatchesCertain"]), mostAllocations, "", true),
		atMost("allocations of a request, a whole sheet", float64(f.allocations["SheetCertain"]), mostAllocations, "", true),
		atMost("allocations of a request, 12 catches with uncertainties", float64(f.allocations["TwelveCatchesObserved"]), mostAllocations, "", true),
	)
	for _, r := range f.batches {
		all = append(all, atLeast(fmt.Sprintf("%s: %s a second, 2 cores", r.way, r.name), "%.0f", r.two.perSecond, r.goal))
	}
	scaled := &f.batches[1] // whole sheets by the command
	all = append(all,
		atLeast(fmt.Sprintf("%s: %s, two cores against one", scaled.way, scaled.name), "%.2f", scaled.two.perSecond/scaled.one.perSecond, 1.7),
		goal{what: "start to first answer", figure: fmt.Sprintf("%.1f ms", f.first.Seconds()*1000), bound: "30 ms", met: f.first < 30*time.Millisecond},
		atMost("memory of an idle server", f.idle, 28, " MB", false),
		atMost("the program, stripped, with its documents", f.size, 22, " MB", true),
	)
	if f.quick {
		return all
	}
	return append(all,
		goal{what: fmt.Sprintf("p99 / p50 at half of the capacity (%v)", &f.wetrun), figure: fmt.Sprintf("%.1f", f.wetrun.ratio()), bound: "5", met: f.wetrun.ratio() < 5},
		goal{what: fmt.Sprintf("the same of the fixed reply (%v)", &f.fixed), figure: fmt.Sprintf("%.1f", f.fixed.ratio())},
		atMost("`wetrun batch`: memory at most, 1,000,000 lines", f.million.most, 64, " MB", false),
		atMost("`POST /v1/batch`: memory at most, 1,000,000 lines", f.servedMillion.most, 64, " MB", false),
	)
}

func (c *contest) goals() []goal {
	fixed := goal{what: fmt.Sprintf("CPU of `%s`, %s, fixed reply = 1", c.operation, c.name), figure: fmt.Sprintf("%.2f", c.wetrunRatio), void: c.void()}
	plain := goal{what: "the same, encoding/json without checks = 1", figure: fmt.Sprintf("%.2f", c.wetrunRatio/c.plainRatio), void: c.void()}
	if c.hasGoal {
		fixed.bound, fixed.met = fmt.Sprint(mostOfFixed), c.wetrunRatio <= mostOfFixed
		plain.bound, plain.met = fmt.Sprint(mostOfPlain), c.wetrunRatio <= mostOfPlain*c.plainRatio
	}
	return []goal{fixed, plain}
}

func atMost(what string, x, bound float64, unit string, hard bool) goal {
	return goal{what: what, figure: fmt.Sprintf("%.4g%s", x, unit), bound: fmt.Sprintf("%g%s", bound, unit), met: x > 0 && x < bound, hard: hard}
}

// atLeast has no goal where the bound is 0.
func atLeast(what, format string, x, bound float64) goal {
	g := goal{what: what, figure: fmt.Sprintf(format, x)}
	if bound > 0 {
		g.bound, g.met = fmt.Sprintf("%g or more", bound), x >= bound
	}
	return g
}

// verdict is what the table says of a goal.
func (g *goal) verdict() string {
	switch {
	case g.void:
		return "**void**"
	case g.bound == "":
		return ""
	case g.met:
		return "yes"
	}
	return "**no**"
}

// hard is an error when a goal is missed that noise cannot spoil.
func (f *figures) hard() error {
	for _, g := range f.goals() {
		if g.hard && !g.met {
			return fmt.Errorf("%s: %s, the goal is %s", g.what, g.figure, g.bound)
		}
	}
	return nil
}
