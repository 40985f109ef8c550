package api

import (
	"wetrun/calc"
	"wetrun/calc/method"
	"wetrun/calc/unit"
)

// acceptanceWork is the working of one round of catches.
type acceptanceWork struct {
	working
	r     *NozzleAcceptanceRequest
	x     *calc.NozzleAcceptanceResult
	a     *NozzleAcceptanceAnswer
	units *resultUnits
	rated map[float64]Quantity // the nozzle's flow, by pressure, once it has its line
}

func (r *NozzleAcceptanceRequest) work(w working, x *calc.NozzleAcceptanceResult, a *NozzleAcceptanceAnswer) {
	k := &acceptanceWork{working: w, r: r, x: x, a: a, units: r.units()}
	k.common()
	for i := range r.Catches {
		k.measured(i)
	}
	k.statistics()
	for i := range r.Catches {
		k.judged(i)
	}
	if a.AcceptableFlowRate.High.given() {
		k.acceptable(w, &a.AcceptableFlowRate, a.RatedFlowRateAtPressure, a.MeanNozzleFlowRate)
	}
	if x.LargestHiddenDeviation != 0 {
		w.line(method.LargestHiddenDeviation, "/largestHiddenDeviation", a.LargestHiddenDeviation).each("h_i", k.hidden())
	}
	w.line(method.ProportionOutside, "/proportionOutside", a.ProportionOutside).count("n_o", x.Sampling.Outside).count("n", x.Sampling.Caught)
	k.sampling()
	k.outliers()
	k.uncertainties()
}

// common adds the pressure that all catches are compared at, and the nozzle's flow there.
func (k *acceptanceWork) common() {
	if r := k.r; r.lowestShared(k.x) {
		var own []Quantity
		if !k.methodsOnly {
			for i := range r.Catches {
				if r.Catches[i].SprayPressure.given() {
					own = append(own, r.Catches[i].SprayPressure)
				}
			}
		}
		k.line(method.LowestPressure, "/sprayPressure", k.a.SprayPressure).each("p_i", own)
	}
	if flow := k.a.RatedFlowRateAtPressure; flow.given() {
		k.r.Nozzle.workFlow(k.working, "/ratedFlowRateAtPressure", flow, k.a.SprayPressure)
		k.knows(k.x.SprayPressure, flow)
	}
}

// lowestShared tells whether the working pressure is the lowest of the catches' own.
func (r *NozzleAcceptanceRequest) lowestShared(x *calc.NozzleAcceptanceResult) bool {
	if r.SprayPressure.given() || x.SprayPressure == 0 {
		return false
	}
	var low float64
	for i := range r.Catches {
		if p := r.Catches[i].SprayPressure.si(); p != 0 && (low == 0 || p < low) {
			low = p
		}
	}
	return low == float64(x.SprayPressure)
}

// measured adds the flows of one catch.
func (k *acceptanceWork) measured(i int) {
	c, q, w := &k.r.Catches[i], &k.a.Catches[i], k.item("/catches", i)
	w.line(method.CatchFlow, "/flowRate", q.FlowRate).with("V", c.Volume).with("t", c.Time)
	w.line(method.CatchNozzleFlow, "/nozzleFlowRate", q.NozzleFlowRate).with("F", q.FlowRate).count("n", k.nozzles(i))
	if p := k.x.Catches[i].SprayPressure; p != 0 && p != k.x.SprayPressure {
		k.atCommonPressure(w, i)
	}
}

// judged adds what one catch is held against, and what follows.
func (k *acceptanceWork) judged(i int) {
	c, q, x, w := &k.r.Catches[i], &k.a.Catches[i], &k.x.Catches[i], k.item("/catches", i)
	var rated, mean Quantity
	alike := plainNumber(k.nozzles(i))
	switch {
	case len(c.NozzlesOnDrop) > 0:
		rated, alike = k.drop(w, i)
	case k.x.HasRating:
		rated = k.nozzleFlow(k.pressure(i))
	}
	if x.InMean {
		mean = k.a.MeanNozzleFlowRate
		w.line(method.OutputDeviation, "/deviationFromMean", q.DeviationFromMean).
			with("q", in(x.NozzleFlowRateAtPressure, k.units.flow)).with("q_r", mean)
		if x.SprayPressure != 0 && x.SprayPressure != k.x.SprayPressure && k.x.Basis != calc.RatedBasis {
			mean = k.meanAt(i)
		}
	}
	if q.DeviationFromRated.given() {
		w.line(method.OutputDeviation, "/deviationFromRated", q.DeviationFromRated).with("q", q.NozzleFlowRate).with("q_r", rated)
	}
	if q.AcceptableFlowRate.High.given() {
		k.acceptable(w, &q.AcceptableFlowRate, rated, mean)
		w.line(method.JugReading, "/acceptableVolume/low", q.AcceptableVolume.Low).
			with("q", q.AcceptableFlowRate.Low).count("n", k.nozzles(i)).with("t", c.Time)
		w.line(method.JugReading, "/acceptableVolume/high", q.AcceptableVolume.High).
			with("q", q.AcceptableFlowRate.High).count("n", k.nozzles(i)).with("t", c.Time)
	}
	if q.LargestHiddenDeviation.given() {
		d := q.DeviationFromRated
		if k.x.Basis == calc.MeanBasis {
			d = q.DeviationFromMean
		}
		w.line(method.HiddenDeviation, "/largestHiddenDeviation", q.LargestHiddenDeviation).
			with("n", alike).with("d", d).with("l", k.a.Tolerance.Limit)
	}
}

// acceptable adds the range about the flows that the basis asks for.
func (k *acceptanceWork) acceptable(w working, flows *Range, rated, mean Quantity) {
	low := w.line(method.AcceptableLow, "/acceptableFlowRate/low", flows.Low).with("l", k.a.Tolerance.Limit)
	high := w.line(method.AcceptableHigh, "/acceptableFlowRate/high", flows.High).with("l", k.a.Tolerance.Limit)
	switch k.x.Basis {
	case calc.RatedBasis:
		low.with("q_i", rated)
		high.with("q_i", rated)
	case calc.MeanBasis:
		low.with("q_i", mean)
		high.with("q_i", mean)
	default:
		low.both("q_i", rated, mean)
		high.both("q_i", rated, mean)
	}
}

// hidden are the hidden deviations of the catches that have one.
func (k *acceptanceWork) hidden() (all []Quantity) {
	if k.methodsOnly {
		return nil
	}
	for i := range k.a.Catches {
		if q := k.a.Catches[i].LargestHiddenDeviation; q.given() {
			all = append(all, q)
		}
	}
	return all
}

// nozzles is how many ran into the jug.
func (k *acceptanceWork) nozzles(i int) (n int) {
	c := &k.r.Catches[i]
	for j := range c.NozzlesOnDrop {
		n += max(c.NozzlesOnDrop[j].Count, 1)
	}
	return max(n, c.Nozzles, 1)
}

// knows keeps the nozzle's flow at a pressure, which has its line.
func (k *acceptanceWork) knows(p unit.Pressure, flow Quantity) {
	switch {
	case k.methodsOnly:
	case k.rated == nil:
		k.rated = map[float64]Quantity{float64(p): flow}
	default:
		k.rated[float64(p)] = flow
	}
}
