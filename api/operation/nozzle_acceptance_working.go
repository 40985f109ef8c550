package operation

import (
	"wetrun/api/wire"
	"wetrun/api/working"
	"wetrun/calc"
	"wetrun/calc/method"
	"wetrun/calc/unit"
)

// acceptanceWork is the working of one round of catches.
type acceptanceWork struct {
	working.Working
	r     *NozzleAcceptanceRequest
	x     *calc.NozzleAcceptanceResult
	a     *NozzleAcceptanceAnswer
	units *resultUnits
	rated map[float64]wire.Quantity // the nozzle's flow, by pressure, once it has its line
}

func (r *NozzleAcceptanceRequest) work(w working.Working, x *calc.NozzleAcceptanceResult, a *NozzleAcceptanceAnswer) {
	k := &acceptanceWork{Working: w, r: r, x: x, a: a, units: r.units()}
	k.common()
	for i := range r.Catches {
		k.measured(i)
	}
	k.statistics()
	for i := range r.Catches {
		k.judged(i)
	}
	if a.AcceptableFlowRate != (BoundsAnswer{}) {
		k.acceptable(w, &a.AcceptableFlowRate, a.RatedFlowRateAtPressure, a.MeanNozzleFlowRate)
	}
	if x.LargestHiddenDeviation != 0 {
		w.Line(method.LargestHiddenDeviation, "/largestHiddenDeviation", a.LargestHiddenDeviation).Each("h_i", k.hidden())
	}
	w.Line(method.ProportionOutside, "/proportionOutside", a.ProportionOutside).Count("n_o", x.Sampling.Outside).Count("n", x.Sampling.Caught)
	k.sampling()
	k.outliers()
	k.uncertainties()
}

// common adds the pressure that all catches are compared at, and the nozzle's flow there.
func (k *acceptanceWork) common() {
	if r := k.r; r.lowestShared(k.x) {
		var own []wire.Quantity
		if !k.MethodsOnly {
			for i := range r.Catches {
				if r.Catches[i].SprayPressure.Given() {
					own = append(own, r.Catches[i].SprayPressure)
				}
			}
		}
		k.Line(method.LowestPressure, "/sprayPressure", k.a.SprayPressure).Each("p_i", own)
	}
	if flow := k.a.RatedFlowRateAtPressure; flow.Given() {
		k.rating(k.Working, &k.r.Nozzle, "/ratedFlowRateAtPressure", k.a.SprayPressure)
		k.keepRated(k.x.SprayPressure, flow)
	}
}

// lowestShared tells whether the working pressure is the lowest of the catches' own.
func (r *NozzleAcceptanceRequest) lowestShared(x *calc.NozzleAcceptanceResult) bool {
	if r.SprayPressure.Given() || x.SprayPressure == 0 {
		return false
	}
	var low float64
	for i := range r.Catches {
		if p := r.Catches[i].SprayPressure.SI(); p != 0 && (low == 0 || p < low) {
			low = p
		}
	}
	return low == float64(x.SprayPressure)
}

// measured adds the flows of one catch.
func (k *acceptanceWork) measured(i int) {
	c, q, w := &k.r.Catches[i], &k.a.Catches[i], k.Item("/catches", i)
	w.Line(method.CatchFlow, "/flowRate", q.FlowRate).With("V", c.Volume).With("t", c.Time)
	w.Line(method.CatchNozzleFlow, "/nozzleFlowRate", q.NozzleFlowRate).With("F", q.FlowRate).Count("n", k.nozzles(i))
	if p := k.x.Catches[i].SprayPressure; p != 0 && p != k.x.SprayPressure {
		k.atCommonPressure(w, i)
	}
}

// judged adds what one catch is held against, and what follows.
func (k *acceptanceWork) judged(i int) {
	c, q, x, w := &k.r.Catches[i], &k.a.Catches[i], &k.x.Catches[i], k.Item("/catches", i)
	var rated, mean wire.Quantity
	alike := working.PlainNumber(k.nozzles(i))
	switch {
	case len(c.NozzlesOnDrop) > 0:
		rated, alike = k.drop(w, i)
	case k.x.HasRating:
		rated = k.nozzleFlow(k.pressure(i))
	}
	if x.InMean {
		mean = k.a.MeanNozzleFlowRate
		w.Line(method.OutputDeviation, "/deviationFromMean", q.DeviationFromMean).
			With("q", wire.In(x.NozzleFlowRateAtPressure, k.units.flow)).With("q_r", mean)
		if x.SprayPressure != 0 && x.SprayPressure != k.x.SprayPressure && k.x.Basis != calc.RatedBasis {
			mean = k.meanAt(i)
		}
	}
	if q.DeviationFromRated.Given() {
		w.Line(method.OutputDeviation, "/deviationFromRated", q.DeviationFromRated).With("q", q.NozzleFlowRate).With("q_r", rated)
	}
	if q.AcceptableFlowRate != (BoundsAnswer{}) {
		k.acceptable(w, &q.AcceptableFlowRate, rated, mean)
		if q.AcceptableVolume.Low.Given() {
			w.Line(method.JugReading, "/acceptableVolume/low", q.AcceptableVolume.Low).
				With("q", q.AcceptableFlowRate.Low).Count("n", k.nozzles(i)).With("t", c.Time)
		}
		if q.AcceptableVolume.High.Given() {
			w.Line(method.JugReading, "/acceptableVolume/high", q.AcceptableVolume.High).
				With("q", q.AcceptableFlowRate.High).Count("n", k.nozzles(i)).With("t", c.Time)
		}
	}
	if q.LargestHiddenDeviation.Given() {
		d, limits := q.DeviationFromRated, k.x.Rated
		if x.HiddenFrom == calc.MeanBasis {
			d, limits = q.DeviationFromMean, k.x.Mean
		}
		w.Line(method.HiddenDeviation, "/largestHiddenDeviation", q.LargestHiddenDeviation).
			With("n", alike).With("d", d).With("l_b", percent(limits.Below)).With("l_a", percent(limits.Above))
	}
}

// acceptable adds the range about the flows that are limited.
func (k *acceptanceWork) acceptable(w working.Working, flows *BoundsAnswer, rated, mean wire.Quantity) {
	about := func(id method.ID, member string, end wire.Quantity, ofRated, ofMean unit.Ratio) {
		if !end.Given() {
			return
		}
		l := w.Line(id, member, end)
		switch {
		case l == nil:
		case ofRated == 0:
			l.With("q_i", mean).With("l_i", percent(ofMean))
		case ofMean == 0 || !mean.Given():
			l.With("q_i", rated).With("l_i", percent(ofRated))
		default:
			l.Both("q_i", rated, mean).Both("l_i", percent(ofRated), percent(ofMean))
		}
	}
	about(method.AcceptableLow, "/acceptableFlowRate/low", flows.Low, k.x.Rated.Below, k.x.Mean.Below)
	about(method.AcceptableHigh, "/acceptableFlowRate/high", flows.High, k.x.Rated.Above, k.x.Mean.Above)
}

// hidden are the hidden deviations of the catches that have one.
func (k *acceptanceWork) hidden() (all []wire.Quantity) {
	if k.MethodsOnly {
		return nil
	}
	for i := range k.a.Catches {
		if q := k.a.Catches[i].LargestHiddenDeviation; q.Given() {
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

// keepRated keeps the nozzle's flow at a pressure, which has its line.
func (k *acceptanceWork) keepRated(p unit.Pressure, flow wire.Quantity) {
	switch {
	case k.MethodsOnly:
	case k.rated == nil:
		k.rated = map[float64]wire.Quantity{float64(p): flow}
	default:
		k.rated[float64(p)] = flow
	}
}
