package calc

import (
	"math"

	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// A DropNozzle is one kind of nozzle on a drop that carries different ones.
type DropNozzle struct {
	Nozzle Nozzle
	Count  int // how many of it; zero stands for one
}

// Codes of drops that carry different nozzles.
const (
	// CodeRatedBasisOnly is the violation for a tolerance about the mean where a drop
	// carries different nozzles: unlike nozzles have no mean to be held to.
	CodeRatedBasisOnly = "rated_basis_only"
	// WarnDropNotInMean is the warning that such a drop is left out of the mean, the
	// coefficient of variation and the sides.
	WarnDropNotInMean = "drop_not_in_mean"
)

// mixed tells whether the catch is of a drop that carries different nozzles.
func (c *AcceptanceCatch) mixed() bool { return len(c.NozzlesOnDrop) > 0 }

// nozzles is how many nozzles ran into the jug.
func (c *AcceptanceCatch) nozzles() float64 {
	if !c.mixed() {
		return c.Catch.nozzles()
	}
	var n float64
	for i := range c.NozzlesOnDrop {
		n += c.NozzlesOnDrop[i].count()
	}
	return n
}

func (d *DropNozzle) count() float64 { return Catch{Nozzles: d.Count}.nozzles() }

// ratedFlow is what the maker of each nozzle says that the drop gives at a
// pressure, all its nozzles together, and the least that one of them gives.
func (c *AcceptanceCatch) ratedFlow(common Nozzle, p unit.Pressure) (sum, least unit.FlowRate) {
	if !c.mixed() {
		q := common.FlowAt(p)
		return q * unit.FlowRate(c.nozzles()), q
	}
	least = unit.FlowRate(math.Inf(1))
	for i := range c.NozzlesOnDrop {
		d := &c.NozzlesOnDrop[i]
		q := d.Nozzle.FlowAt(p)
		sum += q * unit.FlowRate(d.count())
		least = min(least, q)
	}
	return sum, least
}

// move brings a flow of the catch to another pressure, as its nozzles together
// change between the two.
func (c *AcceptanceCatch) move(common Nozzle, q unit.FlowRate, from, to unit.Pressure) unit.FlowRate {
	if !c.mixed() {
		return common.move(q, from, to)
	}
	here, _ := c.ratedFlow(common, from)
	there, _ := c.ratedFlow(common, to)
	return q * unit.FlowRate(there/here)
}

// mixedDrops is how many catches are of such drops.
func (in NozzleAcceptanceInput) mixedDrops() (n int) {
	for i := range in.Catches {
		if in.Catches[i].mixed() {
			n++
		}
	}
	return n
}

// warnDrop reports what is unusual of a drop of different nozzles.
func (r *NozzleAcceptanceResult) warnDrop(c *AcceptanceCatch, i int) {
	r.warn(finding.Item("catches", i).Member("nozzlesOnDrop"), WarnDropNotInMean)
	if unusualPressure(c.SprayPressure) {
		r.warn(finding.Item("catches", i).Member("sprayPressure"), WarnUnusualPressure)
	}
	p, far := r.Catches[i].SprayPressure, false
	for j := range c.NozzlesOnDrop {
		n, place := &c.NozzlesOnDrop[j].Nozzle, finding.Item("catches", i).Item("nozzlesOnDrop", j).Member("nozzle")
		if n.PressureRange.holds(p) == finding.Outside {
			r.warn(place, WarnPressureOutsideRange)
		}
		if n.chartHolds(p) == finding.Outside {
			r.warn(place, WarnOutsideFlowChart)
		}
		far = far || n.farFromRating(p)
		r.Warnings = append(r.Warnings, n.warnChart(place)...)
	}
	if far {
		r.warn(finding.Item("catches", i).Member("nozzlesOnDrop"), WarnFarFromRating)
	}
}

func (r *NozzleAcceptanceResult) warn(place finding.Place, code string) {
	r.Warnings = append(r.Warnings, finding.Warning{Place: place, Code: code})
}

// checkDrops looks at the drops of different nozzles, and at what they ask of the
// rest.
func (in NozzleAcceptanceInput) checkDrops(v *finding.Invalid) {
	for i := range in.Catches {
		c := &in.Catches[i]
		if c.mixed() && c.Nozzles != 0 {
			v.Conflict(finding.Item("catches", i).Member("nozzlesOnDrop"), finding.Item("catches", i).Member("nozzles"))
		}
		for j := range c.NozzlesOnDrop {
			place := finding.Item("catches", i).Item("nozzlesOnDrop", j)
			if c.NozzlesOnDrop[j].Count < 0 {
				v.Add(place.Member("count"), finding.CodeNotPositive)
			}
			*v = append(*v, c.NozzlesOnDrop[j].Nozzle.check().Under(place.Member("nozzle"))...)
		}
	}
}
