package calc

import (
	"math"
	"strconv"

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
	if !c.mixed() || from == to {
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
	r.warn(at("Catches", i, "NozzlesOnDrop"), WarnDropNotInMean)
	if unusual(c.SprayPressure) {
		r.warn(at("Catches", i, "SprayPressure"), WarnUnusualPressure)
	}
	p, far := r.Catches[i].SprayPressure, false
	for j := range c.NozzlesOnDrop {
		n, field := &c.NozzlesOnDrop[j].Nozzle, at("Catches", i, "NozzlesOnDrop["+strconv.Itoa(j)+"].Nozzle")
		if n.PressureRange.holds(p) == Outside {
			r.warn(field, WarnPressureOutsideRange)
		}
		if n.chartHolds(p) == Outside {
			r.warn(field, WarnOutsideFlowChart)
		}
		far = far || n.farFromRating(p)
		r.Warnings = append(r.Warnings, n.warnChart(field)...)
	}
	if far {
		r.warn(at("Catches", i, "NozzlesOnDrop"), WarnFarFromRating)
	}
}

func (r *NozzleAcceptanceResult) warn(field, code string) {
	r.Warnings = append(r.Warnings, Warning{field, code})
}

// checkDrops looks at the drops of different nozzles, and at what they ask of the
// rest.
func (in NozzleAcceptanceInput) checkDrops(v *Invalid) {
	for i := range in.Catches {
		c := &in.Catches[i]
		if c.mixed() && c.Nozzles != 0 {
			v.conflict(at("Catches", i, "NozzlesOnDrop"), at("Catches", i, "Nozzles"))
		}
		for j := range c.NozzlesOnDrop {
			wrong := c.NozzlesOnDrop[j].Nozzle.check()
			if c.NozzlesOnDrop[j].Count >= 0 && len(wrong) == 0 {
				continue
			}
			field := at("Catches", i, "NozzlesOnDrop["+strconv.Itoa(j)+"]")
			if c.NozzlesOnDrop[j].Count < 0 {
				v.add(field+".Count", CodeNotPositive)
			}
			*v = append(*v, wrong.under(field+".Nozzle")...)
		}
	}
}
