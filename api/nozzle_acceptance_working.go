package api

import (
	"strconv"

	"wetrun/calc"
	"wetrun/calc/unit"
)

func (r *NozzleAcceptanceRequest) methods(x *calc.NozzleAcceptanceResult, a *NozzleAcceptanceResponse) methodSet {
	s := samplingMethods(x, r.CatchPointsOnBoom)
	quiet := working{quiet: true}
	a.workUncertainty(&quiet)
	s.join(quiet.used)
	s.add(calc.MethodCatchFlow, calc.MethodCatchNozzleFlow, calc.MethodProportionOutside)
	s.addIf(r.lowestShared(x), calc.MethodLowestPressure)
	s.addIf(a.MeanNozzleFlowRate.given(), calc.MethodWeightedMeanFlow)
	s.addIf(x.HasMean, calc.MethodMeanOfValues, calc.MethodCoefficientOfVariation)
	s.addIf(x.HasRating || x.HasMean, calc.MethodOutputDeviation)
	s.addIf(x.LargestHiddenDeviation != 0, calc.MethodHiddenDeviation, calc.MethodLargestHiddenDeviation)
	s.addIf(a.AcceptableFlowRate.High.given(), calc.MethodAcceptableLow, calc.MethodAcceptableHigh)
	if a.RatedFlowRateAtPressure.given() {
		s.join(r.Nozzle.flowMethods(x.SprayPressure))
	}
	for i := range x.Catches {
		c, q := &r.Catches[i], &x.Catches[i]
		s.addIf(a.Catches[i].AcceptableFlowRate.High.given(), calc.MethodAcceptableLow, calc.MethodAcceptableHigh, calc.MethodJugReading)
		apart := q.SprayPressure != x.SprayPressure
		if len(c.NozzlesOnDrop) > 0 {
			s.add(calc.MethodDropRating, calc.MethodAlikeNozzles, calc.MethodDropMeanRating)
			for j := range c.NozzlesOnDrop {
				s.join(c.NozzlesOnDrop[j].Nozzle.flowMethods(q.SprayPressure))
				if apart {
					s.join(c.NozzlesOnDrop[j].Nozzle.flowMethods(x.SprayPressure))
				}
			}
			s.addIf(apart, calc.MethodFlowByChart)
			continue
		}
		if x.HasRating && q.SprayPressure != 0 {
			s.join(r.Nozzle.flowMethods(q.SprayPressure))
		}
		switch {
		case q.SprayPressure == 0 || !apart:
		case len(r.Nozzle.FlowChart) == 0:
			s.add(calc.MethodPressureLaw)
		default:
			s.add(calc.MethodFlowByChart)
			s.join(r.Nozzle.flowMethods(x.SprayPressure))
		}
	}
	return s
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

// acceptanceWork is the working of one round of catches.
type acceptanceWork struct {
	*working
	r     *NozzleAcceptanceRequest
	x     *calc.NozzleAcceptanceResult
	a     *NozzleAcceptanceResponse
	units *resultUnits
	rated map[float64]Quantity // the nozzle's flow, by pressure, once it has its line
}

func (r *NozzleAcceptanceRequest) work(w *working, x *calc.NozzleAcceptanceResult, a *NozzleAcceptanceResponse) {
	k := &acceptanceWork{w, r, x, a, r.units(), map[float64]Quantity{}}
	if r.lowestShared(x) {
		var own []Quantity
		for i := range r.Catches {
			if r.Catches[i].SprayPressure.given() {
				own = append(own, r.Catches[i].SprayPressure)
			}
		}
		w.line(calc.MethodLowestPressure, "/sprayPressure", a.SprayPressure, putEach("p_i", own))
	}
	if a.RatedFlowRateAtPressure.given() {
		r.Nozzle.workFlow(w, "/ratedFlowRateAtPressure", a.RatedFlowRateAtPressure, a.SprayPressure)
		k.rated[float64(x.SprayPressure)] = a.RatedFlowRateAtPressure
	}
	for i := range r.Catches {
		k.measured(i)
	}
	k.statistics()
	for i := range r.Catches {
		k.judged(i)
	}
	if a.AcceptableFlowRate.High.given() {
		k.acceptable("/acceptableFlowRate", a.AcceptableFlowRate, k.references(a.RatedFlowRateAtPressure, a.MeanNozzleFlowRate))
	}
	if x.LargestHiddenDeviation != 0 {
		var all []Quantity
		for i := range a.Catches {
			if q := a.Catches[i].LargestHiddenDeviation; q.given() {
				all = append(all, q)
			}
		}
		w.line(calc.MethodLargestHiddenDeviation, "/largestHiddenDeviation", a.LargestHiddenDeviation, putEach("h_i", all))
	}
	w.line(calc.MethodProportionOutside, "/proportionOutside", a.ProportionOutside, putNumber("n_o", x.Sampling.Outside), putNumber("n", x.Sampling.Caught))
	k.sampling()
	k.outliers()
	a.workUncertainty(w)
}

// pressure is that of a catch, as it was given or as it was answered.
func (k *acceptanceWork) pressure(i int) Quantity {
	if k.x.Catches[i].SprayPressure == 0 {
		return Quantity{}
	}
	return k.r.Catches[i].SprayPressure.or(k.r.SprayPressure.or(in(k.x.Catches[i].SprayPressure, k.units.pressure)))
}

// nozzleFlow is the nozzle's own flow at a pressure, with its line.
func (k *acceptanceWork) nozzleFlow(p Quantity) Quantity {
	q, known := k.rated[p.si()]
	if !known {
		n := k.r.Nozzle.input()
		q = in(n.FlowAt(unit.Pressure(p.si())), k.units.flow)
		k.r.Nozzle.workFlow(k.working, "", q, p)
		k.rated[p.si()] = q
	}
	return q
}

// dropFlow is the rated flow of a drop of different nozzles, with its lines.
func (k *acceptanceWork) dropFlow(i int, member string, p Quantity) (drop Quantity, each []Quantity) {
	var counts []Quantity
	var sum float64
	for j := range k.r.Catches[i].NozzlesOnDrop {
		d := &k.r.Catches[i].NozzlesOnDrop[j]
		n := d.Nozzle.input()
		q := in(n.FlowAt(unit.Pressure(p.si())), k.units.flow)
		d.Nozzle.workFlow(k.working, "", q, p)
		each, counts = append(each, q), append(counts, plainNumber(max(d.Count, 1)))
		sum += q.Value * float64(max(d.Count, 1))
	}
	drop = Quantity{sum, k.units.flow}
	k.line(calc.MethodDropRating, member, drop, putEach("q_i", each), putEach("n_i", counts))
	return drop, each
}

// nozzles is how many ran into the jug.
func (k *acceptanceWork) nozzles(i int) (n int) {
	c := &k.r.Catches[i]
	for j := range c.NozzlesOnDrop {
		n += max(c.NozzlesOnDrop[j].Count, 1)
	}
	return max(n, c.Nozzles, 1)
}

// measured adds the flows of one catch.
func (k *acceptanceWork) measured(i int) {
	c, q, at := &k.r.Catches[i], &k.a.Catches[i], "/catches/"+strconv.Itoa(i)
	k.line(calc.MethodCatchFlow, at+"/flowRate", q.FlowRate, put("V", c.Volume), put("t", c.Time))
	k.line(calc.MethodCatchNozzleFlow, at+"/nozzleFlowRate", q.NozzleFlowRate, put("F", q.FlowRate), putNumber("n", k.nozzles(i)))
	if p := k.x.Catches[i].SprayPressure; p == 0 || p == k.x.SprayPressure {
		return
	}
	member, here, there := at+"/nozzleFlowRateAtPressure", k.pressure(i), k.a.SprayPressure
	moved := in(k.x.Catches[i].NozzleFlowRateAtPressure, k.units.flow)
	if !q.NozzleFlowRateAtPressure.given() {
		member = ""
	}
	if len(c.NozzlesOnDrop) > 0 {
		wanted, _ := k.dropFlow(i, "", there)
		known, _ := k.dropFlow(i, "", here)
		k.line(calc.MethodFlowByChart, member, moved, put("q_0", q.NozzleFlowRate), put("c", wanted), put("c_0", known))
		return
	}
	k.move(member, moved, q.NozzleFlowRate, here, there)
}

// move adds the line of a flow that was brought to another pressure.
func (k *acceptanceWork) move(member string, moved, flow, here, there Quantity) {
	if len(k.r.Nozzle.FlowChart) == 0 {
		k.line(calc.MethodPressureLaw, member, moved, put("q_0", flow), put("p", there), put("p_0", here), putNumber("n", calc.SquareRoot))
		return
	}
	k.line(calc.MethodFlowByChart, member, moved, put("q_0", flow), put("c", k.nozzleFlow(there)), put("c_0", k.nozzleFlow(here)))
}

// statistics adds the mean, the coefficient of variation and the sides.
func (k *acceptanceWork) statistics() {
	var flows, nozzles []Quantity
	sides := map[calc.Position][2][]Quantity{}
	for i := range k.r.Catches {
		if len(k.r.Catches[i].NozzlesOnDrop) > 0 {
			continue
		}
		q, n := in(k.x.Catches[i].NozzleFlowRateAtPressure, k.units.flow), plainNumber(k.nozzles(i))
		flows, nozzles = append(flows, q), append(nozzles, n)
		side := sides[k.r.Catches[i].Position]
		sides[k.r.Catches[i].Position] = [2][]Quantity{append(side[0], q), append(side[1], n)}
	}
	if k.a.MeanNozzleFlowRate.given() {
		k.line(calc.MethodWeightedMeanFlow, "/meanNozzleFlowRate", k.a.MeanNozzleFlowRate, putEach("q_i", flows), putEach("n_i", nozzles))
	}
	if !k.x.HasMean {
		return
	}
	var sum float64
	for _, q := range flows {
		sum += q.Value
	}
	mean, n := Quantity{sum / float64(len(flows)), k.units.flow}, putNumber("n", len(flows))
	k.line(calc.MethodMeanOfValues, "", mean, putEach("x_i", flows), n)
	k.line(calc.MethodCoefficientOfVariation, "/coefficientOfVariation", k.a.CoefficientOfVariation, putEach("x_i", flows), put("m", mean), n)
	for i, s := range k.a.SideMeans {
		at, side := "/sideMeans/"+strconv.Itoa(i), sides[s.Position]
		k.line(calc.MethodWeightedMeanFlow, at+"/meanNozzleFlowRate", s.MeanNozzleFlowRate, putEach("q_i", side[0]), putEach("n_i", side[1]))
		k.line(calc.MethodOutputDeviation, at+"/deviationFromMean", s.DeviationFromMean, put("q", s.MeanNozzleFlowRate), put("q_r", k.a.MeanNozzleFlowRate))
	}
}

// judged adds what one catch is held against, and what follows.
func (k *acceptanceWork) judged(i int) {
	c, q, x, at := &k.r.Catches[i], &k.a.Catches[i], &k.x.Catches[i], "/catches/"+strconv.Itoa(i)
	var rated, mean Quantity
	alike := plainNumber(k.nozzles(i))
	switch p := k.pressure(i); {
	case len(c.NozzlesOnDrop) > 0:
		drop, each := k.dropFlow(i, at+"/ratedFlowRateAtPressure", p)
		rated = in(drop.si()/float64(k.nozzles(i)), k.units.flow)
		k.line(calc.MethodDropMeanRating, "", rated, put("Q", drop), putNumber("n", k.nozzles(i)))
		least := each[0]
		for _, one := range each {
			least.Value = min(least.Value, one.Value)
		}
		alike = bare(drop.Value / least.Value)
		k.line(calc.MethodAlikeNozzles, "", alike, put("Q", drop), putEach("q_i", each))
	case k.x.HasRating:
		rated = k.nozzleFlow(p)
	}
	if x.InMean {
		mean = k.a.MeanNozzleFlowRate
		flow := in(x.NozzleFlowRateAtPressure, k.units.flow)
		k.line(calc.MethodOutputDeviation, at+"/deviationFromMean", q.DeviationFromMean, put("q", flow), put("q_r", mean))
		if x.SprayPressure != 0 && x.SprayPressure != k.x.SprayPressure && k.x.Basis != calc.RatedBasis {
			n := k.r.Nozzle.input()
			here, there := k.a.SprayPressure, k.pressure(i)
			moved := calc.FlowAtPressure(unit.FlowRate(mean.si()), k.x.SprayPressure, x.SprayPressure, calc.SquareRoot)
			if len(n.FlowChart) > 0 {
				moved = unit.FlowRate(mean.si()) * n.FlowAt(x.SprayPressure) / n.FlowAt(k.x.SprayPressure)
			}
			mean = in(moved, k.units.flow)
			k.move("", mean, k.a.MeanNozzleFlowRate, here, there)
		}
	}
	if q.DeviationFromRated.given() {
		k.line(calc.MethodOutputDeviation, at+"/deviationFromRated", q.DeviationFromRated, put("q", q.NozzleFlowRate), put("q_r", rated))
	}
	if q.AcceptableFlowRate.High.given() {
		k.acceptable(at+"/acceptableFlowRate", q.AcceptableFlowRate, k.references(rated, mean))
		nozzles, time := putNumber("n", k.nozzles(i)), put("t", c.Time)
		k.line(calc.MethodJugReading, at+"/acceptableVolume/low", q.AcceptableVolume.Low, put("q", q.AcceptableFlowRate.Low), nozzles, time)
		k.line(calc.MethodJugReading, at+"/acceptableVolume/high", q.AcceptableVolume.High, put("q", q.AcceptableFlowRate.High), nozzles, time)
	}
	if q.LargestHiddenDeviation.given() {
		d := q.DeviationFromRated
		if k.x.Basis == calc.MeanBasis {
			d = q.DeviationFromMean
		}
		k.line(calc.MethodHiddenDeviation, at+"/largestHiddenDeviation", q.LargestHiddenDeviation, put("n", alike), put("d", d), put("l", k.a.Tolerance.Limit))
	}
}

// references are the flows that the basis asks for.
func (k *acceptanceWork) references(rated, mean Quantity) []Quantity {
	switch k.x.Basis {
	case calc.RatedBasis:
		return []Quantity{rated}
	case calc.MeanBasis:
		return []Quantity{mean}
	}
	return []Quantity{rated, mean}
}

func (k *acceptanceWork) acceptable(member string, flows Range, references []Quantity) {
	all, limit := putEach("q_i", references), put("l", k.a.Tolerance.Limit)
	k.line(calc.MethodAcceptableLow, member+"/low", flows.Low, limit, all)
	k.line(calc.MethodAcceptableHigh, member+"/high", flows.High, limit, all)
}
