package calc

import (
	"slices"

	"wetrun/calc/finding"
)

// A DropletClass is how coarse a spray is, from the finest up. Classes compare a
// spray with reference nozzles; they have no fixed bounds in micrometres. A class
// hangs on nozzle and pressure together and is what the nozzle's maker says:
// nothing here computes it.
type DropletClass string

// The droplet classes. Source: names and order, Grainews, Nozzle colour and flow
// rate confusion, https://www.grainews.ca/news/nozzle-colour-and-flow-rate-confusion/ ,
// which also says that class depends on nozzle and pressure together, and that the
// colours of sizes are not those of classes. The finest and the coarsest are from
// memory.
const (
	DropletClassUnknown DropletClass = "" // never allowed
	ExtremelyFine       DropletClass = "extremely_fine"
	VeryFine            DropletClass = "very_fine"
	Fine                DropletClass = "fine"
	Medium              DropletClass = "medium"
	Coarse              DropletClass = "coarse"
	VeryCoarse          DropletClass = "very_coarse"
	ExtremelyCoarse     DropletClass = "extremely_coarse"
	UltraCoarse         DropletClass = "ultra_coarse"
)

var dropletClasses = []DropletClass{ExtremelyFine, VeryFine, Fine, Medium, Coarse, VeryCoarse, ExtremelyCoarse, UltraCoarse}

// Words lists the classes, the finest first.
func (DropletClass) Words() []string { return finding.WordsOf(dropletClasses) }

// orFiner is the finer of two classes, of which the first may be unknown.
func (c DropletClass) orFiner(other DropletClass) DropletClass {
	if c == DropletClassUnknown || slices.Index(dropletClasses, other) < slices.Index(dropletClasses, c) {
		return other
	}
	return c
}

// A DropletEntry is one line of a droplet chart: the class of a nozzle over a
// range of pressures, both included. Low and high may be the same. A choice of
// nozzles needs Size or Label; for corrections an entry without a Label is of the
// present nozzle, and Size is not used.
type DropletEntry struct {
	Size          SizeName // ISO 10625
	Label         string   // of a nozzle at hand, instead of Size
	PressureRange PressureRange
	DropletClass  DropletClass
}

// speaksOf tells whether an entry is of a candidate.
func (in NozzleSelectionInput) speaksOf(e *DropletEntry, c *Candidate) bool {
	if e.Size != "" {
		return e.Size == c.Size
	}
	return c.Shelf >= 0 && e.Label == in.Shelf[c.Shelf].Label
}

// droplets is the class of a candidate over a span of pressures, the finest that
// its entries name there, since fine drops drift. It is unknown unless they cover
// the whole span. The verdict is NotJudged when no classes were asked for, and
// Within only when the span is covered and every class in it is allowed: what is
// unknown is never allowed. Where two entries meet, both count.
func (in NozzleSelectionInput) droplets(c *Candidate, span PressureRange) (DropletClass, finding.Verdict) {
	finest, verdict := DropletClassUnknown, finding.Within
	for i := range in.DropletChart {
		e := &in.DropletChart[i]
		if !in.speaksOf(e, c) || !e.PressureRange.meets(span) {
			continue
		}
		finest = finest.orFiner(e.DropletClass)
		if !slices.Contains(in.AllowedDropletClasses, e.DropletClass) {
			verdict = finding.Outside
		}
	}
	if !in.covers(c, span) {
		finest, verdict = DropletClassUnknown, finding.Outside
	}
	if len(in.AllowedDropletClasses) == 0 {
		verdict = finding.NotJudged
	}
	return finest, verdict
}

// meets tells whether two ranges share a pressure, ends included.
func (r PressureRange) meets(other PressureRange) bool {
	return finding.AtMost(float64(r.Low/other.High), 1) && finding.AtMost(float64(other.Low/r.High), 1)
}

// covers tells whether the entries of a candidate leave no gap in the span. It
// reaches on from one entry to the next, as long as one leads further.
func (in NozzleSelectionInput) covers(c *Candidate, span PressureRange) bool {
	reach, began := span.Low, false
	for further := true; further; {
		further = false
		for i := range in.DropletChart {
			e := &in.DropletChart[i]
			if !in.speaksOf(e, c) || e.PressureRange.holds(reach) != finding.Within {
				continue
			}
			began = true
			if !finding.AtMost(float64(e.PressureRange.High/reach), 1) {
				reach, further = e.PressureRange.High, true
			}
		}
	}
	return began && finding.AtMost(float64(span.High/reach), 1)
}

func (e *DropletEntry) check(v *finding.Invalid, i int) {
	switch {
	case e.Size == "" && e.Label == "":
		v.RequiredUnless(finding.Item("dropletChart", i).Member("size"), finding.Item("dropletChart", i).Member("label"))
	case e.Size != "" && e.Label != "":
		v.Conflict(finding.Item("dropletChart", i).Member("label"), finding.Item("dropletChart", i).Member("size"))
	case e.Size != "" && !knownSize(e.Size):
		v.Add(finding.Item("dropletChart", i).Member("size"), CodeUnknownSize)
	}
	e.checkClass(v, i)
}

// checkClass looks at range and class.
func (e *DropletEntry) checkClass(v *finding.Invalid, i int) {
	if e.PressureRange == (PressureRange{}) {
		v.Add(finding.Item("dropletChart", i).Member("pressureRange"), finding.CodeRequired)
	}
	if wrong := e.PressureRange.check(); len(wrong) > 0 {
		*v = append(*v, wrong.Under(finding.Item("dropletChart", i).Member("pressureRange"))...)
	}
	switch {
	case e.DropletClass == DropletClassUnknown:
		v.Add(finding.Item("dropletChart", i).Member("dropletClass"), finding.CodeRequired)
	case finding.NotAmong(e.DropletClass, dropletClasses):
		v.Add(finding.Item("dropletChart", i).Member("dropletClass"), finding.CodeNotAllowed)
	}
}

func knownSize(name SizeName) bool {
	q, _ := Nozzle{Size: name}.rating()
	return q != 0
}
