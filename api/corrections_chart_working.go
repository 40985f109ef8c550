package api

import (
	"wetrun/calc"
	"wetrun/calc/method"
	"wetrun/calc/unit"
)

// byChart tells whether the flow of a nozzle follows the pressure by its chart, before
// which goes an exponent that catches of the present one gave.
func (k *correctionsWork) byChart(n int) bool {
	return len(k.nozzle(n).FlowChart) > 0 && (n != 0 || !k.r.PressureExponent.given())
}

// chartFlow adds the line of what the chart of a nozzle says at a pressure.
func (k *correctionsWork) chartFlow(w working, n int, p Quantity) Quantity {
	nozzle := k.nozzle(n)
	own := nozzle.input()
	q := in(own.FlowAt(unit.Pressure(p.si())), k.units.flow)
	nozzle.workFlow(w, "", q, p)
	return q
}

// flowRatioByChart adds the lines of what the pressure of a state does to the flow.
func (k *correctionsWork) flowRatioByChart(w working, s *calc.MachineState, measured Quantity) Quantity {
	c := k.chartFlow(w, s.Nozzle, in(s.SprayPressure, k.units.pressure))
	known := k.chartFlow(w, s.Nozzle, k.r.Measured.SprayPressure)
	f := dimensionless(measured.Value * c.si() / known.si())
	w.intermediate(method.FlowRatioByChart, f).with("f_0", measured).with("c", c).with("c_0", known)
	return f
}

// pressureByChart adds the lines of the pressure at which a rate comes to its target.
func (k *correctionsWork) pressureByChart(w working, t *calc.Attempt, name string, answered, rate Quantity) {
	n, target := k.nozzle(t.From.Nozzle), k.r.TargetApplicationRate
	known := k.chartFlow(w, t.From.Nozzle, k.r.Measured.SprayPressure)
	q := in(unit.FlowRate(known.si()*target.si()/rate.si()), k.units.flow)
	w.intermediate(method.ChartFlowForRate, q).with("c_0", known).with("R_t", target).with("R", rate)
	needed := in(t.Needed, k.units.pressure)
	own := n.input()
	_, above := own.ChartPressure(unit.FlowRate(q.si()), unit.Pressure(k.r.Measured.SprayPressure.si()))
	if above == 0 || above == len(n.FlowChart) {
		end := n.FlowChart[max(0, above-1)]
		w.lineOr(method.PressureForFlow, name, answered, needed).with("p_0", end.Pressure).with("q", q).with("q_0", end.FlowRate)
		return
	}
	low, high := n.FlowChart[above-1], n.FlowChart[above]
	w.lineOr(method.PressureByChart, name, answered, needed).
		with("p_1", low.Pressure).with("p_2", high.Pressure).with("q", q).with("q_1", low.FlowRate).with("q_2", high.FlowRate)
}
