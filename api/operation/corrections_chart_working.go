package operation

import (
	"wetrun/api/wire"
	"wetrun/api/working"
	"wetrun/calc"
	"wetrun/calc/method"
	"wetrun/calc/unit"
)

// byChart tells whether the flow of a nozzle follows the pressure by its chart, before
// which goes an exponent that catches of the present one gave.
func (k *correctionsWork) byChart(n int) bool {
	return len(k.nozzle(n).FlowChart) > 0 && (n != 0 || !k.r.PressureExponent.Given())
}

// chartFlow adds the line of what the chart of a nozzle says at a pressure.
func (k *correctionsWork) chartFlow(w working.Working, n int, p wire.Quantity) wire.Quantity {
	nozzle := k.nozzle(n)
	own := nozzle.input()
	q := wire.In(own.FlowAt(unit.Pressure(p.SI())), k.units.flow)
	nozzle.workFlow(w, "", q, p)
	return q
}

// flowRatioByChart adds the lines of what the pressure of a state does to the flow.
func (k *correctionsWork) flowRatioByChart(w working.Working, s *calc.MachineState, measured wire.Quantity) wire.Quantity {
	c := k.chartFlow(w, s.Nozzle, wire.In(s.SprayPressure, k.units.pressure))
	known := k.chartFlow(w, s.Nozzle, k.r.Measured.SprayPressure)
	f := working.Dimensionless(measured.Value * c.SI() / known.SI())
	w.Intermediate(method.FlowRatioByChart, f).With("f_0", measured).With("c", c).With("c_0", known)
	return f
}

// pressureByChart adds the lines of the pressure at which a rate comes to its target.
func (k *correctionsWork) pressureByChart(w working.Working, t *calc.Attempt, name string, answered, rate wire.Quantity) {
	n, target := k.nozzle(t.From.Nozzle), k.aim
	known := k.chartFlow(w, t.From.Nozzle, k.r.Measured.SprayPressure)
	q := wire.In(unit.FlowRate(known.SI()*target.SI()/rate.SI()), k.units.flow)
	w.Intermediate(method.ChartFlowForRate, q).With("c_0", known).With("R_t", target).With("R", rate)
	needed := wire.In(t.Needed, k.units.pressure)
	own := n.input()
	_, above := own.ChartPressure(unit.FlowRate(q.SI()), unit.Pressure(k.r.Measured.SprayPressure.SI()))
	if above == 0 || above == len(n.FlowChart) {
		end := n.FlowChart[max(0, above-1)]
		w.LineOr(method.PressureForFlow, name, answered, needed).With("p_0", end.Pressure).With("q", q).With("q_0", end.FlowRate)
		return
	}
	low, high := n.FlowChart[above-1], n.FlowChart[above]
	w.LineOr(method.PressureByChart, name, answered, needed).
		With("p_1", low.Pressure).With("p_2", high.Pressure).With("q", q).With("q_1", low.FlowRate).With("q_2", high.FlowRate)
}
