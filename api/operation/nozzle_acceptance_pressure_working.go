package operation

import (
	"wetrun/api/wire"
	"wetrun/api/working"
	"wetrun/calc"
	"wetrun/calc/method"
	"wetrun/calc/unit"
)

// pressure is that of a catch, as it was given or as it was answered.
func (k *acceptanceWork) pressure(i int) wire.Quantity {
	if k.x.Catches[i].SprayPressure == 0 {
		return wire.Quantity{}
	}
	return k.r.Catches[i].SprayPressure.Or(k.r.SprayPressure.Or(wire.In(k.x.Catches[i].SprayPressure, k.units.pressure)))
}

// nozzleFlow is the nozzle's own flow at a pressure, with its line.
func (k *acceptanceWork) nozzleFlow(p wire.Quantity) wire.Quantity {
	flow, known := k.rated[p.SI()]
	if !known {
		flow = k.rating(k.Working, &k.r.Nozzle, "", p)
		k.keepRated(unit.Pressure(p.SI()), flow)
	}
	return flow
}

// rating adds the lines of what a nozzle gives at a pressure by its maker, for as much of the
// time as it is open.
func (k *acceptanceWork) rating(w working.Working, n *NozzleRequest, member string, p wire.Quantity) wire.Quantity {
	flow := n.flowAt(w, p, k.units.flow)
	if !k.r.DutyCycle.Given() {
		n.workFlow(w, member, flow, p)
		return flow
	}
	n.workFlow(w, "", flow, p)
	pulsed, answered := flow, wire.Quantity{}
	pulsed.Value *= k.r.DutyCycle.SI()
	if member != "" {
		answered = pulsed
	}
	w.LineOr(method.PulsedFlow, member, answered, pulsed).With("d", k.r.DutyCycle).With("q_f", flow)
	return pulsed
}

// atCommonPressure adds the flow of a catch at the pressure that all are compared at.
func (k *acceptanceWork) atCommonPressure(w working.Working, i int) {
	q, here, there := &k.a.Catches[i], k.pressure(i), k.a.SprayPressure
	member, moved := "/nozzleFlowRateAtPressure", wire.In(k.x.Catches[i].NozzleFlowRateAtPressure, k.units.flow)
	if !q.NozzleFlowRateAtPressure.Given() {
		member = ""
	}
	if len(k.r.Catches[i].NozzlesOnDrop) > 0 {
		wanted, _ := k.dropFlow(w, i, "", there)
		known, _ := k.dropFlow(w, i, "", here)
		w.Line(method.FlowByChart, member, moved).With("q_0", q.NozzleFlowRate).With("c", wanted).With("c_0", known)
		return
	}
	k.move(w, member, moved, q.NozzleFlowRate, here, there)
}

// move adds the line of a flow that was brought to another pressure.
func (k *acceptanceWork) move(w working.Working, member string, moved, flow, here, there wire.Quantity) {
	if len(k.r.Nozzle.FlowChart) == 0 {
		w.Line(method.PressureLaw, member, moved).With("q_0", flow).With("p", there).With("p_0", here).Number("n", calc.SquareRoot)
		return
	}
	wanted, known := k.nozzleFlow(there), k.nozzleFlow(here)
	w.Line(method.FlowByChart, member, moved).With("q_0", flow).With("c", wanted).With("c_0", known)
}

// meanAt is the mean flow at the pressure of a catch, with its line.
func (k *acceptanceWork) meanAt(i int) (mean wire.Quantity) {
	if !k.MethodsOnly {
		flow, here, there := unit.FlowRate(k.a.MeanNozzleFlowRate.SI()), k.x.SprayPressure, k.x.Catches[i].SprayPressure
		moved := calc.FlowAtPressure(flow, here, there, calc.SquareRoot)
		if n := k.r.Nozzle.input(); len(n.FlowChart) > 0 {
			moved = flow * n.FlowAt(there) / n.FlowAt(here)
		}
		mean = wire.In(moved, k.units.flow)
	}
	k.move(k.Working, "", mean, k.a.MeanNozzleFlowRate, k.a.SprayPressure, k.pressure(i))
	return mean
}

// drop adds the rated flow of a drop of different nozzles; it returns the mean of them
// and how many like the smallest one the drop amounts to.
func (k *acceptanceWork) drop(w working.Working, i int) (rated, alike wire.Quantity) {
	drop, each := k.dropFlow(w, i, "/ratedFlowRateAtPressure", k.pressure(i))
	if !k.MethodsOnly {
		rated = wire.In(drop.SI()/float64(k.nozzles(i)), k.units.flow)
		least := each[0].Value
		for _, one := range each {
			least = min(least, one.Value)
		}
		alike = working.Dimensionless(drop.Value / least)
	}
	w.Line(method.DropMeanRating, "", rated).With("Q", drop).Count("n", k.nozzles(i))
	w.Line(method.AlikeNozzles, "", alike).With("Q", drop).Each("q_i", each)
	return rated, alike
}

// dropFlow is the rated flow of a drop of different nozzles, with its lines.
func (k *acceptanceWork) dropFlow(w working.Working, i int, member string, p wire.Quantity) (drop wire.Quantity, each []wire.Quantity) {
	var counts []wire.Quantity
	drop.Unit = k.units.flow
	for j := range k.r.Catches[i].NozzlesOnDrop {
		d := &k.r.Catches[i].NozzlesOnDrop[j]
		q := k.rating(w, &d.Nozzle, "", p)
		if !w.MethodsOnly {
			each, counts = append(each, q), append(counts, working.PlainNumber(max(d.Count, 1)))
			drop.Value += q.Value * float64(max(d.Count, 1))
		}
	}
	w.Line(method.DropRating, member, drop).Each("q_i", each).Each("n_i", counts)
	return drop, each
}
