package api

import (
	"gonum.org/v1/gonum/stat"

	"wetrun/calc/certainty"
	"wetrun/calc/method"
	"wetrun/calc/unit"
)

// flowsOf are the flows of the catches of one side, or of all with an empty one, and
// how many nozzles each has; without the drops of different nozzles.
func (k *acceptanceWork) flowsOf(side certainty.Position) (flows, nozzles []Quantity) {
	if k.methodsOnly {
		return nil, nil
	}
	for i := range k.r.Catches {
		if c := &k.r.Catches[i]; len(c.NozzlesOnDrop) == 0 && (side == "" || c.Position == side) {
			flows = append(flows, in(k.x.Catches[i].NozzleFlowRateAtPressure, k.units.flow))
			nozzles = append(nozzles, plainNumber(k.nozzles(i)))
		}
	}
	return flows, nozzles
}

// statistics adds the mean, the coefficient of variation and the sides.
func (k *acceptanceWork) statistics() {
	flows, nozzles := k.flowsOf("")
	if k.a.MeanNozzleFlowRate.given() {
		k.line(method.WeightedMeanFlow, "/meanNozzleFlowRate", k.a.MeanNozzleFlowRate).each("q_i", flows).each("n_i", nozzles)
	}
	if !k.x.HasMean {
		return
	}
	var total float64
	for _, q := range flows {
		total += q.Value
	}
	mean := Quantity{total / float64(len(flows)), k.units.flow}
	k.line(method.MeanOfValues, "", mean).each("x_i", flows).count("n", len(flows))
	k.line(method.CoefficientOfVariation, "/coefficientOfVariation", k.a.CoefficientOfVariation).
		each("x_i", flows).with("m", mean).count("n", len(flows))
	for i := range k.a.SideMeans {
		s, w := &k.a.SideMeans[i], k.item("/sideMeans", i)
		flows, nozzles := k.flowsOf(s.Position)
		w.line(method.WeightedMeanFlow, "/meanNozzleFlowRate", s.MeanNozzleFlowRate).each("q_i", flows).each("n_i", nozzles)
		w.line(method.OutputDeviation, "/deviationFromMean", s.DeviationFromMean).
			with("q", s.MeanNozzleFlowRate).with("q_r", k.a.MeanNozzleFlowRate)
	}
}

// sampling adds what the catches tell of the whole boom.
func (k *acceptanceWork) sampling() {
	s, a, points := &k.x.Sampling, &k.a.Sampling, k.r.CatchPointsOnBoom
	low, high, chance := method.SharePossibleLow, method.SharePossibleHigh, method.ChanceAbove
	if points > 0 {
		low, high, chance = method.PointsPossibleLow, method.PointsPossibleHigh, method.ChanceAbovePoints
	}
	for _, l := range [...]*line{
		k.line(low, "/sampling/proportionOutside/low", a.ProportionOutside.Low),
		k.line(high, "/sampling/proportionOutside/high", a.ProportionOutside.High),
		k.line(chance, "/sampling/chanceAboveLimit", a.ChanceAboveLimit),
	} {
		if l != nil {
			limit := certainty.SamplingInput{CatchPointsOnBoom: points, ReplaceAllAbove: unit.Ratio(k.a.ReplaceAllAbove.si())}
			l.count("x", s.Outside).count("n", s.Caught).count("N", points).
				with("L", k.a.ReplaceAllAbove).number("K", float64(limit.AtLimit()))
		}
	}
}

// outliers adds the tests that found catches which stand apart.
func (k *acceptanceWork) outliers() {
	for i := range k.x.Outliers {
		o, w := &k.x.Outliers[i], k.item("/outliers", i)
		flows := k.comparedWith(o)
		n := len(flows)
		mean, deviation := k.spreadOf(flows)
		if o.Test == certainty.GrubbsTest {
			w.line(method.Grubbs, "/statistic", dimensionless(o.Statistic)).
				with("x", in(k.x.Catches[o.Value].NozzleFlowRateAtPressure, k.units.flow)).with("m", mean).with("s", deviation)
			t := k.point(method.GrubbsPoint, n, 2*n)
			w.line(method.GrubbsCritical, "/criticalValue", dimensionless(o.Critical)).count("n", n).with("t", t)
			continue
		}
		w.line(method.RangeOverDeviation, "/statistic", dimensionless(o.Statistic)).each("x_i", flows).with("s", deviation)
		t := k.point(method.RangePoint, n, n*(n-1))
		w.line(method.RangeCritical, "/criticalValue", dimensionless(o.Critical)).count("n", n).with("t", t)
	}
}

// comparedWith are the flows that a test went over.
func (k *acceptanceWork) comparedWith(o *certainty.Outlier) (flows []Quantity) {
	if k.methodsOnly {
		return nil
	}
	for _, c := range k.x.Compared {
		if c != o.Without {
			flows = append(flows, in(k.x.Catches[c].NozzleFlowRateAtPressure, k.units.flow))
		}
	}
	return flows
}

// point adds Student's t that a test of n values by so many comparisons rests on.
func (k *acceptanceWork) point(id method.ID, n, comparisons int) (t Quantity) {
	if !k.methodsOnly {
		t = dimensionless(quantileOfStudent(1-float64(certainty.OutlierTestSignificance)/float64(comparisons), float64(n-2)))
	}
	k.intermediate(id, t).count("n", n)
	return t
}

// spreadOf adds the mean and the standard deviation of some flows.
func (k *acceptanceWork) spreadOf(flows []Quantity) (mean, deviation Quantity) {
	if !k.methodsOnly {
		values := make([]float64, len(flows))
		for i := range flows {
			values[i] = flows[i].Value
		}
		m, s := stat.MeanStdDev(values, nil)
		mean, deviation = Quantity{m, k.units.flow}, Quantity{s, k.units.flow}
	}
	k.intermediate(method.MeanOfValues, mean).each("x_i", flows).count("n", len(flows))
	k.intermediate(method.StandardDeviation, deviation).each("x_i", flows).with("m", mean).count("n", len(flows))
	return mean, deviation
}
