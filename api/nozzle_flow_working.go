package api

import (
	"math"

	"wetrun/calc"
	"wetrun/calc/method"
	"wetrun/calc/unit"
)

// flowWork is the working of the flow of some catches, with what its lines go over.
type flowWork struct {
	r *NozzleFlowRequest
	x *calc.NozzleFlowResult
	a *NozzleFlowAnswer

	flows, nozzles, pressures []Quantity
}

func (r *NozzleFlowRequest) work(w working, x *calc.NozzleFlowResult, a *NozzleFlowAnswer) {
	for i := range r.Catches {
		c, q, w := &r.Catches[i], &a.Catches[i], w.item("/catches", i)
		w.line(method.CatchFlow, "/flowRate", q.FlowRate).with("V", c.Volume).with("t", c.Time)
		w.line(method.CatchNozzleFlow, "/nozzleFlowRate", q.NozzleFlowRate).with("F", q.FlowRate).count("n", max(c.Nozzles, 1))
	}
	k := &flowWork{
		r: r, x: x, a: a,
		flows:     listed(w, a.Catches, func(q *CatchFlowAnswer) Quantity { return q.FlowRate }),
		nozzles:   listed(w, r.Catches, func(c *CatchRequest) Quantity { return plainNumber(max(c.Nozzles, 1)) }),
		pressures: listed(w, r.Catches, func(c *CatchRequest) Quantity { return c.SprayPressure.or(r.SprayPressure) }),
	}
	w.line(method.MeanNozzleFlow, "/meanNozzleFlowRate", a.MeanNozzleFlowRate).each("F_i", k.flows).each("n_i", k.nozzles)
	if x.ExponentFitted {
		k.exponent(w)
	}
	for i := range r.PredictAt {
		k.predicted(w.item("/predicted", i), &r.PredictAt[i], &a.Predicted[i])
	}
	if a.Uncertainty == nil {
		return
	}
	for i := range a.Catches {
		w.item("/catches", i).uncertain("/uncertainty/nozzleFlowRate", &a.Catches[i].Uncertainty.NozzleFlowRate)
	}
	w.uncertain("/uncertainty/meanNozzleFlowRate", &a.Uncertainty.MeanNozzleFlowRate)
	for i := range a.Predicted {
		if u := a.Predicted[i].Uncertainty; u != nil {
			w.item("/predicted", i).uncertain("/uncertainty/nozzleFlowRate", &u.NozzleFlowRate)
		}
	}
}

// exponent adds the fit of the exponent to the catches whose pressure is known.
func (k *flowWork) exponent(w working) {
	var pressures, flows []Quantity
	for i, p := range k.pressures {
		if p.given() {
			pressures, flows = append(pressures, p), append(flows, k.a.Catches[i].NozzleFlowRate)
		}
	}
	x, y := k.meanLogarithm(w, pressures), k.meanLogarithm(w, flows)
	w.line(method.PressureExponent, "/pressureExponent/value", dimensionless(k.x.Exponent)).
		each("p_i", pressures).each("q_i", flows).with("x", x).with("y", y)
}

// predicted adds the flow at another pressure or of another liquid.
func (k *flowWork) predicted(w working, p *PredictionRequest, a *PredictedAnswer) {
	rd := w.density(p.RelativeDensity, p.LiquidDensity)
	member, water := "/nozzleFlowRate", k.a.MeanNozzleFlowRate
	if p.SprayPressure.given() {
		water = a.NozzleFlowRate
		if rd.given() {
			member, water = "", in(calc.WaterEquivalent(unit.FlowRate(water.si()), unit.Ratio(rd.si())), k.a.MeanNozzleFlowRate.Unit)
		}
		w.line(method.PredictedFlow, member, water).each("F_i", k.flows).with("p", p.SprayPressure).each("p_i", k.pressures).
			number("n", k.x.Exponent).each("n_i", k.nozzles)
	}
	if rd.given() {
		w.line(method.LiquidFlow, "/nozzleFlowRate", a.NozzleFlowRate).with("q_w", water).with("s", rd)
	}
}

// meanLogarithm adds the line of a mean of logarithms, of the numbers in the unit of
// the first, and returns it.
func (k *flowWork) meanLogarithm(w working, all []Quantity) Quantity {
	var sum float64
	for _, q := range all {
		sum += math.Log(q.si() / all[0].Unit.Factor())
	}
	mean := dimensionless(sum / float64(len(all)))
	w.line(method.MeanLogarithm, "", mean).each("x_i", all).count("n", len(all))
	return plainNumber(mean.Value)
}
