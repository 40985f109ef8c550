package operation

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"wetrun/api/wire"
	"wetrun/api/working"
	"wetrun/calc/certainty"
	"wetrun/internal/text"
)

// withUncertainty words a quantity with its uncertainty, where that is known: two
// significant digits of it, as JCGM 100:2008, section 7.2.6, advises.
func (s *summary) withUncertainty(q wire.Quantity, u working.UncertaintyAnswer) string {
	if !u.Expanded.Given() || !q.Given() {
		return s.quantity(q)
	}
	expanded, err := strconv.ParseFloat(fmt.Sprintf("%.2g", u.Expanded.As(q.Unit)), 64)
	if err != nil {
		return s.quantity(q)
	}
	return s.quantity(q) + " ± " + s.lang.Number(expanded) + " (" + s.lang.Measured("95", "%") + ")"
}

// tooCloseLines are the lines on a verdict that is too close to its limit to be called.
func (s *summary) tooCloseLines(of string, c working.ConformanceAnswer) []string {
	switch {
	case c.ConformanceDetail == "":
		return nil
	case of == "":
		return []string{c.ConformanceDetail}
	}
	return []string{of + ": " + c.ConformanceDetail}
}

// catchRemarks are the lines on catches that cannot be called and on those that stand
// apart from the rest; what is said of several is said once. What is to be cleaned or
// replaced has an action, and is caught again after that.
func (s *summary) catchRemarks(x *NozzleAcceptanceAnswer) []string {
	var remarks sharedRemarks
	for i, c := range x.Catches {
		remarks.add(x.origins.name(c.Label, i), c.ConformanceDetail)
	}
	acted := func(o OutlierAnswer) bool {
		return slices.ContainsFunc(x.Actions, func(a ActionAnswer) bool { return a.Pointer == o.Pointer })
	}
	apart := slices.DeleteFunc(slices.Clone(x.Outliers), acted)
	for _, o := range apart {
		words := o.Text
		if len(apart) == 1 { // the other one of a pair has an action
			words = text.Coded(s.lang, "outlier", string(certainty.GrubbsTest))
		}
		remarks.add(x.origins.name(o.Label, o.catch), words)
	}
	return remarks.lines()
}

// sharedRemarks gathers for each text the names of what it is said of.
type sharedRemarks struct {
	texts []string
	names map[string][]string
}

func (r *sharedRemarks) add(name, words string) {
	if words == "" {
		return
	}
	if r.names == nil {
		r.names = map[string][]string{}
	}
	if len(r.names[words]) == 0 {
		r.texts = append(r.texts, words)
	}
	r.names[words] = append(r.names[words], name)
}

func (r *sharedRemarks) lines() (all []string) {
	for _, words := range r.texts {
		all = append(all, strings.Join(r.names[words], ", ")+": "+words)
	}
	return all
}
