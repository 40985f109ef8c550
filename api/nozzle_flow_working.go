package api

import (
	"math"
	"strconv"

	"wetrun/calc"
	"wetrun/calc/method"
	"wetrun/calc/unit"
)

func (r *NozzleFlowRequest) methods(x *calc.NozzleFlowResult) methodSet {
	s := methodsOf(method.CatchFlow, method.CatchNozzleFlow, method.MeanNozzleFlow)
	s.addIf(x.ExponentFitted, method.MeanLogarithm, method.PressureExponent)
	for i := range r.PredictAt {
		p := &r.PredictAt[i]
		s.addIf(p.SprayPressure.given(), method.PredictedFlow)
		s.addIf(p.RelativeDensity.given() || p.LiquidDensity.given(), method.LiquidFlow)
		s.addIf(p.LiquidDensity.given(), method.RelativeDensity)
	}
	return s
}

func (r *NozzleFlowRequest) work(w *working, x *calc.NozzleFlowResult, a *NozzleFlowResponse) {
	flow := a.MeanNozzleFlowRate.Unit
	var flows, nozzles, pressures, known, flowsKnown []Quantity
	for i := range r.Catches {
		c, at := &r.Catches[i], "/catches/"+strconv.Itoa(i)
		n := plainNumber(max(c.Nozzles, 1))
		w.line(method.CatchFlow, at+"/flowRate", a.Catches[i].FlowRate, put("V", c.Volume), put("t", c.Time))
		w.line(method.CatchNozzleFlow, at+"/nozzleFlowRate", a.Catches[i].NozzleFlowRate, put("F", a.Catches[i].FlowRate), put("n", n))
		p := c.SprayPressure.or(r.SprayPressure)
		flows, nozzles, pressures = append(flows, a.Catches[i].FlowRate), append(nozzles, n), append(pressures, p)
		if p.given() {
			known, flowsKnown = append(known, p), append(flowsKnown, a.Catches[i].NozzleFlowRate)
		}
	}
	w.line(method.MeanNozzleFlow, "/meanNozzleFlowRate", a.MeanNozzleFlowRate, putEach("F_i", flows), putEach("n_i", nozzles))
	if x.ExponentFitted {
		w.line(method.PressureExponent, "/pressureExponent/value", bare(x.Exponent), putEach("p_i", known), putEach("q_i", flowsKnown),
			put("x", w.workLogarithms(known)), put("y", w.workLogarithms(flowsKnown)))
	}
	for i, p := range r.PredictAt {
		at := "/predicted/" + strconv.Itoa(i) + "/nozzleFlowRate"
		rd := w.workDensity(p.RelativeDensity, p.LiquidDensity)
		water := a.MeanNozzleFlowRate
		if p.SprayPressure.given() {
			member := at
			water = a.Predicted[i].NozzleFlowRate
			if rd.given() {
				member, water = "", in(calc.WaterEquivalent(unit.FlowRate(water.si()), unit.Ratio(rd.si())), flow)
			}
			w.line(method.PredictedFlow, member, water, putEach("F_i", flows), put("p", p.SprayPressure), putEach("p_i", pressures),
				putNumber("n", x.Exponent), putEach("n_i", nozzles))
		}
		if rd.given() {
			w.line(method.LiquidFlow, at, a.Predicted[i].NozzleFlowRate, put("q_w", water), put("s", rd))
		}
	}
	a.workUncertainty(w)
}

func (a *NozzleFlowResponse) workUncertainty(w *working) {
	if a.Uncertainty == nil {
		return
	}
	for i := range a.Catches {
		w.uncertain(w.item("/catches", i, "/uncertainty/nozzleFlowRate"), &a.Catches[i].Uncertainty.NozzleFlowRate)
	}
	w.uncertain("/uncertainty/meanNozzleFlowRate", &a.Uncertainty.MeanNozzleFlowRate)
	for i := range a.Predicted {
		if u := a.Predicted[i].Uncertainty; u != nil {
			w.uncertain(w.item("/predicted", i, "/uncertainty/nozzleFlowRate"), &u.NozzleFlowRate)
		}
	}
}

// workLogarithms adds the line of a mean of logarithms, of the numbers in the unit of
// the first, and returns it.
func (w *working) workLogarithms(all []Quantity) Quantity {
	var sum float64
	for _, q := range all {
		sum += math.Log(q.si() / all[0].Unit.Factor())
	}
	mean := bare(sum / float64(len(all)))
	w.line(method.MeanLogarithm, "", mean, putEach("x_i", all), putNumber("n", len(all)))
	return plainNumber(mean.Value)
}
