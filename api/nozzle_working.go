package api

import (
	"slices"

	"wetrun/calc"
	"wetrun/calc/method"
	"wetrun/calc/unit"
)

// flowMethods are those by which a nozzle's own flow at a pressure comes about.
func (n *NozzleRequest) flowMethods(p unit.Pressure) methodSet {
	if n.between(p) > 0 {
		return methodsOf(method.FlowChart)
	}
	return methodsOf(method.PressureLaw)
}

// between is the index of the upper one of the two points of the chart that a
// pressure lies between; 0 outside of it, and without one.
func (n *NozzleRequest) between(p unit.Pressure) int {
	i := slices.IndexFunc(n.FlowChart, func(x FlowPointRequest) bool { return x.Pressure.si() >= float64(p) })
	if i < 0 || i == 0 {
		return 0
	}
	return i
}

// workFlow adds the line of a nozzle's own flow of water at a pressure, a step where it
// is no member.
func (n *NozzleRequest) workFlow(w *working, member string, result, p Quantity) {
	add := func(id method.ID, operands ...operand) {
		if member == "" {
			w.step(id, result, operands...)
		} else {
			w.line(id, member, result, operands...)
		}
	}
	if i := n.between(unit.Pressure(p.si())); i > 0 {
		low, high := n.FlowChart[i-1], n.FlowChart[i]
		add(method.FlowChart, put("q_1", low.FlowRate), put("q_2", high.FlowRate),
			put("p", p), put("p_1", low.Pressure), put("p_2", high.Pressure))
		return
	}
	flow, at := n.rated(p)
	add(method.PressureLaw, put("q_0", flow), put("p", p), put("p_0", at), putNumber("n", calc.SquareRoot))
}

// rated is the rating that the square-root law goes from: of a chart the nearer end.
func (n *NozzleRequest) rated(p Quantity) (flow, at Quantity) {
	if points := n.FlowChart; len(points) > 0 {
		x := points[0]
		if p.si() > x.Pressure.si() {
			x = points[len(points)-1]
		}
		return x.FlowRate, x.Pressure
	}
	a := n.answer(unit.Pressure(p.si()))
	return a.RatedFlowRate, a.RatedPressure
}

// workDensity adds the line of a relative density that was given as a density, and
// returns the one to put in; none for water.
func (w *working) workDensity(relative, liquid Quantity) Quantity {
	if !liquid.given() {
		return relative
	}
	rd := in(calc.RelativeDensity(unit.Density(liquid.si())), unit.IDOne)
	w.line(method.RelativeDensity, "", rd, put("r", liquid), put("r_w", in(calc.WaterDensity, unit.IDKgM3)))
	return rd
}
