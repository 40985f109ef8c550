package operation

import (
	"math"

	"wetrun/api/wire"
	"wetrun/api/working"
	"wetrun/calc"
	"wetrun/calc/method"
	"wetrun/calc/unit"
)

// flowWork is the working of the flow of some catches, with what its lines go over.
type flowWork struct {
	r *NozzleFlowRequest
	x *calc.NozzleFlowResult
	a *NozzleFlowAnswer

	flows, nozzles, pressures []wire.Quantity
}

func (r *NozzleFlowRequest) work(w working.Working, x *calc.NozzleFlowResult, a *NozzleFlowAnswer) {
	for i := range r.Catches {
		c, q, w := &r.Catches[i], &a.Catches[i], w.Item("/catches", i)
		w.Line(method.CatchFlow, "/flowRate", q.FlowRate).With("V", c.Volume).With("t", c.Time)
		w.Line(method.CatchNozzleFlow, "/nozzleFlowRate", q.NozzleFlowRate).With("F", q.FlowRate).Count("n", max(c.Nozzles, 1))
	}
	k := &flowWork{
		r: r, x: x, a: a,
		flows:     working.Listed(w, a.Catches, func(q *CatchFlowAnswer) wire.Quantity { return q.FlowRate }),
		nozzles:   working.Listed(w, r.Catches, func(c *CatchRequest) wire.Quantity { return working.PlainNumber(max(c.Nozzles, 1)) }),
		pressures: working.Listed(w, r.Catches, func(c *CatchRequest) wire.Quantity { return c.SprayPressure.Or(r.SprayPressure) }),
	}
	w.Line(method.MeanNozzleFlow, "/meanNozzleFlowRate", a.MeanNozzleFlowRate).Each("F_i", k.flows).Each("n_i", k.nozzles)
	if x.ExponentFitted {
		k.exponent(w)
	}
	for i := range r.PredictAt {
		k.predicted(w.Item("/predicted", i), &r.PredictAt[i], &a.Predicted[i])
	}
	if a.Uncertainty == nil {
		return
	}
	for i := range a.Catches {
		w.Item("/catches", i).Uncertain("/uncertainty/nozzleFlowRate", &a.Catches[i].Uncertainty.NozzleFlowRate)
	}
	w.Uncertain("/uncertainty/meanNozzleFlowRate", &a.Uncertainty.MeanNozzleFlowRate)
	for i := range a.Predicted {
		if u := a.Predicted[i].Uncertainty; u != nil {
			w.Item("/predicted", i).Uncertain("/uncertainty/nozzleFlowRate", &u.NozzleFlowRate)
		}
	}
}

// exponent adds the fit of the exponent to the catches whose pressure is known.
func (k *flowWork) exponent(w working.Working) {
	var pressures, flows []wire.Quantity
	for i, p := range k.pressures {
		if p.Given() {
			pressures, flows = append(pressures, p), append(flows, k.a.Catches[i].NozzleFlowRate)
		}
	}
	x, y := k.meanLogarithm(w, pressures), k.meanLogarithm(w, flows)
	w.Line(method.PressureExponent, "/pressureExponent/value", working.Dimensionless(k.x.Exponent)).
		Each("p_i", pressures).Each("q_i", flows).With("x", x).With("y", y)
}

// predicted adds the flow at another pressure or of another liquid.
func (k *flowWork) predicted(w working.Working, p *PredictionRequest, a *PredictedAnswer) {
	rd := w.Density(p.RelativeDensity, p.LiquidDensity)
	member, water := "/nozzleFlowRate", k.a.MeanNozzleFlowRate
	if p.SprayPressure.Given() {
		water = a.NozzleFlowRate
		if rd.Given() {
			member, water = "", wire.In(calc.WaterEquivalent(unit.FlowRate(water.SI()), unit.Ratio(rd.SI())), k.a.MeanNozzleFlowRate.Unit)
		}
		w.Line(method.PredictedFlow, member, water).Each("F_i", k.flows).With("p", p.SprayPressure).Each("p_i", k.pressures).
			Number("n", k.x.Exponent).Each("n_i", k.nozzles)
	}
	if rd.Given() {
		w.Line(method.LiquidFlow, "/nozzleFlowRate", a.NozzleFlowRate).With("q_w", water).With("s", rd)
	}
}

// meanLogarithm adds the line of a mean of logarithms, of the numbers in the unit of
// the first, and returns it.
func (k *flowWork) meanLogarithm(w working.Working, all []wire.Quantity) wire.Quantity {
	var sum float64
	for _, q := range all {
		sum += math.Log(q.SI() / all[0].Unit.Factor())
	}
	mean := working.Dimensionless(sum / float64(len(all)))
	w.Line(method.MeanLogarithm, "", mean).Each("x_i", all).Count("n", len(all))
	return working.PlainNumber(mean.Value)
}
