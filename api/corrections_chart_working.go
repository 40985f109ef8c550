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
func (k *correctionsWork) chartFlow(n int, p Quantity) Quantity {
	nozzle := k.nozzle(n)
	own := nozzle.input()
	q := in(own.FlowAt(unit.Pressure(p.si())), k.units.flow)
	nozzle.workFlow(k.working, "", q, p)
	return q
}

// flowRatioByChart adds the lines of what the pressure of a state does to the flow.
func (k *correctionsWork) flowRatioByChart(s calc.MachineState, measured Quantity) Quantity {
	c := k.chartFlow(s.Nozzle, in(s.SprayPressure, k.units.pressure))
	known := k.chartFlow(s.Nozzle, k.r.Measured.SprayPressure)
	f := bare(measured.Value * c.si() / known.si())
	k.step(method.FlowRatioByChart, f, put("f_0", measured), put("c", c), put("c_0", known))
	return f
}

// pressureByChart adds the lines of the pressure at which a rate comes to its target.
func (k *correctionsWork) pressureByChart(t *calc.Attempt, name string, answered, rate Quantity) {
	n, target := k.nozzle(t.From.Nozzle), k.r.TargetApplicationRate
	known := k.chartFlow(t.From.Nozzle, k.r.Measured.SprayPressure)
	q := in(unit.FlowRate(known.si()*target.si()/rate.si()), k.units.flow)
	k.step(method.ChartFlowForRate, q, put("c_0", known), put("R_t", target), put("R", rate))
	needed := in(t.Needed, k.units.pressure)
	own := n.input()
	_, above := own.ChartPressure(unit.FlowRate(q.si()), unit.Pressure(k.r.Measured.SprayPressure.si()))
	if above == 0 || above == len(n.FlowChart) {
		end := n.FlowChart[max(0, above-1)]
		k.member(method.PressureForFlow, name, answered, needed, put("p_0", end.Pressure), put("q", q), put("q_0", end.FlowRate))
		return
	}
	low, high := n.FlowChart[above-1], n.FlowChart[above]
	k.member(method.PressureByChart, name, answered, needed, put("p_1", low.Pressure), put("p_2", high.Pressure),
		put("q", q), put("q_1", low.FlowRate), put("q_2", high.FlowRate))
}
