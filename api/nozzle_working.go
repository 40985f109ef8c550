package api

import (
	"slices"

	"wetrun/calc"
	"wetrun/calc/method"
	"wetrun/calc/unit"
)

// between is the index of the upper one of the two points of the chart that a
// pressure lies between; 0 outside of it, and without one.
func (n *NozzleRequest) between(p unit.Pressure) int {
	return max(0, slices.IndexFunc(n.FlowChart, func(x FlowPointRequest) bool { return x.Pressure.si() >= float64(p) }))
}

// workFlow adds the line of a nozzle's own flow of water at a pressure: of a member, or
// without one of a number between.
func (n *NozzleRequest) workFlow(w working, member string, result, p Quantity) {
	id, above := method.PressureLaw, n.between(unit.Pressure(p.si()))
	if above > 0 {
		id = method.FlowChart
	}
	l := w.line(id, member, result)
	switch {
	case l == nil:
	case above > 0:
		low, high := n.FlowChart[above-1], n.FlowChart[above]
		l.with("q_1", low.FlowRate).with("q_2", high.FlowRate).with("p", p).with("p_1", low.Pressure).with("p_2", high.Pressure)
	default:
		flow, rated := n.rated(p)
		l.with("q_0", flow).with("p", p).with("p_0", rated).number("n", calc.SquareRoot)
	}
	if l != nil {
		l.once = member == ""
	}
}

// flowAt is what workFlow explains, where a line is wanted.
func (n *NozzleRequest) flowAt(w working, p Quantity, u unit.ID) Quantity {
	if w.methodsOnly {
		return Quantity{}
	}
	own := n.input()
	return in(own.FlowAt(unit.Pressure(p.si())), u)
}

// rated is the rating that the square-root law goes from: of a chart the nearer end.
func (n *NozzleRequest) rated(p Quantity) (flow, pressure Quantity) {
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
