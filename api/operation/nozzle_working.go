package operation

import (
	"slices"

	"wetrun/api/wire"
	"wetrun/api/working"
	"wetrun/calc"
	"wetrun/calc/method"
	"wetrun/calc/unit"
)

// between is the index of the upper one of the two points of the chart that a
// pressure lies between; 0 outside of it, and without one.
func (n *NozzleRequest) between(p unit.Pressure) int {
	return max(0, slices.IndexFunc(n.FlowChart, func(x FlowPointRequest) bool { return x.Pressure.SI() >= float64(p) }))
}

// workFlow adds the line of a nozzle's own flow of water at a pressure: of a member, or
// without one of a number between.
func (n *NozzleRequest) workFlow(w working.Working, member string, result, p wire.Quantity) {
	id, above := method.PressureLaw, n.between(unit.Pressure(p.SI()))
	if above > 0 {
		id = method.FlowChart
	}
	l := w.Line(id, member, result)
	switch {
	case l == nil:
	case above > 0:
		low, high := n.FlowChart[above-1], n.FlowChart[above]
		l.With("q_1", low.FlowRate).With("q_2", high.FlowRate).With("p", p).With("p_1", low.Pressure).With("p_2", high.Pressure)
	default:
		flow, rated := n.rated(p)
		l.With("q_0", flow).With("p", p).With("p_0", rated).Number("n", calc.SquareRoot)
	}
	if l != nil {
		l.Once = member == ""
	}
}

// flowAt is what workFlow explains, where a line is wanted.
func (n *NozzleRequest) flowAt(w working.Working, p wire.Quantity, u unit.ID) wire.Quantity {
	if w.MethodsOnly {
		return wire.Quantity{}
	}
	own := n.input()
	return wire.In(own.FlowAt(unit.Pressure(p.SI())), u)
}

// rated is the rating that the square-root law goes from: of a chart the nearer end.
func (n *NozzleRequest) rated(p wire.Quantity) (flow, pressure wire.Quantity) {
	if points := n.FlowChart; len(points) > 0 {
		x := points[0]
		if p.SI() > x.Pressure.SI() {
			x = points[len(points)-1]
		}
		return x.FlowRate, x.Pressure
	}
	a := n.answer(unit.Pressure(p.SI()))
	return a.RatedFlowRate, a.RatedPressure
}
