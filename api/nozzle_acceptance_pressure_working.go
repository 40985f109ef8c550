package api

import (
	"wetrun/calc"
	"wetrun/calc/method"
	"wetrun/calc/unit"
)

// pressure is that of a catch, as it was given or as it was answered.
func (k *acceptanceWork) pressure(i int) Quantity {
	if k.x.Catches[i].SprayPressure == 0 {
		return Quantity{}
	}
	return k.r.Catches[i].SprayPressure.or(k.r.SprayPressure.or(in(k.x.Catches[i].SprayPressure, k.units.pressure)))
}

// nozzleFlow is the nozzle's own flow at a pressure, with its line.
func (k *acceptanceWork) nozzleFlow(p Quantity) Quantity {
	flow, known := k.rated[p.si()]
	if !known {
		flow = k.r.Nozzle.flowAt(k.working, p, k.units.flow)
		k.r.Nozzle.workFlow(k.working, "", flow, p)
		k.knows(unit.Pressure(p.si()), flow)
	}
	return flow
}

// atCommonPressure adds the flow of a catch at the pressure that all are compared at.
func (k *acceptanceWork) atCommonPressure(w working, i int) {
	q, here, there := &k.a.Catches[i], k.pressure(i), k.a.SprayPressure
	member, moved := "/nozzleFlowRateAtPressure", in(k.x.Catches[i].NozzleFlowRateAtPressure, k.units.flow)
	if !q.NozzleFlowRateAtPressure.given() {
		member = ""
	}
	if len(k.r.Catches[i].NozzlesOnDrop) > 0 {
		wanted, _ := k.dropFlow(w, i, "", there)
		known, _ := k.dropFlow(w, i, "", here)
		w.line(method.FlowByChart, member, moved).with("q_0", q.NozzleFlowRate).with("c", wanted).with("c_0", known)
		return
	}
	k.move(w, member, moved, q.NozzleFlowRate, here, there)
}

// move adds the line of a flow that was brought to another pressure.
func (k *acceptanceWork) move(w working, member string, moved, flow, here, there Quantity) {
	if len(k.r.Nozzle.FlowChart) == 0 {
		w.line(method.PressureLaw, member, moved).with("q_0", flow).with("p", there).with("p_0", here).number("n", calc.SquareRoot)
		return
	}
	wanted, known := k.nozzleFlow(there), k.nozzleFlow(here)
	w.line(method.FlowByChart, member, moved).with("q_0", flow).with("c", wanted).with("c_0", known)
}

// meanAt is the mean flow at the pressure of a catch, with its line.
func (k *acceptanceWork) meanAt(i int) (mean Quantity) {
	if !k.methodsOnly {
		flow, here, there := unit.FlowRate(k.a.MeanNozzleFlowRate.si()), k.x.SprayPressure, k.x.Catches[i].SprayPressure
		moved := calc.FlowAtPressure(flow, here, there, calc.SquareRoot)
		if n := k.r.Nozzle.input(); len(n.FlowChart) > 0 {
			moved = flow * n.FlowAt(there) / n.FlowAt(here)
		}
		mean = in(moved, k.units.flow)
	}
	k.move(k.working, "", mean, k.a.MeanNozzleFlowRate, k.a.SprayPressure, k.pressure(i))
	return mean
}

// drop adds the rated flow of a drop of different nozzles; it returns the mean of them
// and how many like the smallest one the drop amounts to.
func (k *acceptanceWork) drop(w working, i int) (rated, alike Quantity) {
	drop, each := k.dropFlow(w, i, "/ratedFlowRateAtPressure", k.pressure(i))
	if !k.methodsOnly {
		rated = in(drop.si()/float64(k.nozzles(i)), k.units.flow)
		least := each[0].Value
		for _, one := range each {
			least = min(least, one.Value)
		}
		alike = dimensionless(drop.Value / least)
	}
	w.line(method.DropMeanRating, "", rated).with("Q", drop).count("n", k.nozzles(i))
	w.line(method.AlikeNozzles, "", alike).with("Q", drop).each("q_i", each)
	return rated, alike
}

// dropFlow is the rated flow of a drop of different nozzles, with its lines.
func (k *acceptanceWork) dropFlow(w working, i int, member string, p Quantity) (drop Quantity, each []Quantity) {
	var counts []Quantity
	drop.Unit = k.units.flow
	for j := range k.r.Catches[i].NozzlesOnDrop {
		d := &k.r.Catches[i].NozzlesOnDrop[j]
		q := d.Nozzle.flowAt(w, p, k.units.flow)
		d.Nozzle.workFlow(w, "", q, p)
		if !w.methodsOnly {
			each, counts = append(each, q), append(counts, plainNumber(max(d.Count, 1)))
			drop.Value += q.Value * float64(max(d.Count, 1))
		}
	}
	w.line(method.DropRating, member, drop).each("q_i", each).each("n_i", counts)
	return drop, each
}
