package operation

import (
	"gonum.org/v1/gonum/stat"

	"wetrun/api/wire"
	"wetrun/api/working"
	"wetrun/calc/certainty"
	"wetrun/calc/method"
)

// flowsOf are the flows of the catches of one side, or of all with an empty one, and
// how many nozzles each has; without the drops of different nozzles.
func (k *acceptanceWork) flowsOf(side certainty.Position) (flows, nozzles []wire.Quantity) {
	if k.MethodsOnly {
		return nil, nil
	}
	for i := range k.r.Catches {
		if c := &k.r.Catches[i]; len(c.NozzlesOnDrop) == 0 && (side == "" || c.Position == side) {
			flows = append(flows, wire.In(k.x.Catches[i].NozzleFlowRateAtPressure, k.units.flow))
			nozzles = append(nozzles, working.PlainNumber(k.nozzles(i)))
		}
	}
	return flows, nozzles
}

// statistics adds the mean, the coefficient of variation and the sides.
func (k *acceptanceWork) statistics() {
	flows, nozzles := k.flowsOf("")
	if k.a.MeanNozzleFlowRate.Given() {
		k.Line(method.WeightedMeanFlow, "/meanNozzleFlowRate", k.a.MeanNozzleFlowRate).Each("q_i", flows).Each("n_i", nozzles)
	}
	if !k.x.HasMean {
		return
	}
	var total float64
	for _, q := range flows {
		total += q.Value
	}
	mean := wire.Quantity{Value: total / float64(len(flows)), Unit: k.units.flow}
	k.Line(method.MeanOfValues, "", mean).Each("x_i", flows).Count("n", len(flows))
	k.Line(method.CoefficientOfVariation, "/coefficientOfVariation", k.a.CoefficientOfVariation).
		Each("x_i", flows).With("m", mean).Count("n", len(flows))
	for i := range k.a.SideMeans {
		s, w := &k.a.SideMeans[i], k.Item("/sideMeans", i)
		flows, nozzles := k.flowsOf(s.Position)
		w.Line(method.WeightedMeanFlow, "/meanNozzleFlowRate", s.MeanNozzleFlowRate).Each("q_i", flows).Each("n_i", nozzles)
		w.Line(method.OutputDeviation, "/deviationFromMean", s.DeviationFromMean).
			With("q", s.MeanNozzleFlowRate).With("q_r", k.a.MeanNozzleFlowRate)
	}
}

// sampling adds what the catches tell of the whole boom.
func (k *acceptanceWork) sampling() {
	s, a, points := &k.x.Sampling, &k.a.Sampling, k.r.CatchPointsOnBoom
	low, high, chance := method.SharePossibleLow, method.SharePossibleHigh, method.ChanceAbove
	if points > 0 {
		low, high, chance = method.PointsPossibleLow, method.PointsPossibleHigh, method.ChanceAbovePoints
	}
	for _, l := range [...]*working.Line{
		k.Line(low, "/sampling/proportionOutside/low", a.ProportionOutside.Low),
		k.Line(high, "/sampling/proportionOutside/high", a.ProportionOutside.High),
		k.Line(chance, "/sampling/chanceAboveLimit", a.ChanceAboveLimit),
	} {
		if l != nil {
			limit := certainty.SamplingInput{CatchPointsOnBoom: points, ReplaceAllAbove: k.x.ReplaceAllAbove, ReplaceAllFrom: k.x.ReplaceAllFrom}
			l.Count("x", s.Outside).Count("n", s.Caught).Count("N", points).
				With("L", k.a.ReplaceAllAbove).Number("K", float64(limit.AtLimit()))
		}
	}
}

// outliers adds the tests that found catches which stand apart.
func (k *acceptanceWork) outliers() {
	for i := range k.x.Outliers {
		o, w := &k.x.Outliers[i], k.Item("/outliers", i)
		flows := k.comparedWith(o)
		n := len(flows)
		mean, deviation := k.spreadOf(flows)
		if o.Test == certainty.GrubbsTest {
			w.Line(method.Grubbs, "/statistic", working.Dimensionless(o.Statistic)).
				With("x", wire.In(k.x.Catches[o.Value].NozzleFlowRateAtPressure, k.units.flow)).With("m", mean).With("s", deviation)
			t := k.point(method.GrubbsPoint, n, 2*n)
			w.Line(method.GrubbsCritical, "/criticalValue", working.Dimensionless(o.Critical)).Count("n", n).With("t", t)
			continue
		}
		w.Line(method.RangeOverDeviation, "/statistic", working.Dimensionless(o.Statistic)).Each("x_i", flows).With("s", deviation)
		t := k.point(method.RangePoint, n, n*(n-1))
		w.Line(method.RangeCritical, "/criticalValue", working.Dimensionless(o.Critical)).Count("n", n).With("t", t)
	}
}

// comparedWith are the flows that a test went over.
func (k *acceptanceWork) comparedWith(o *certainty.Outlier) (flows []wire.Quantity) {
	if k.MethodsOnly {
		return nil
	}
	for _, c := range k.x.Compared {
		if c != o.Without {
			flows = append(flows, wire.In(k.x.Catches[c].NozzleFlowRateAtPressure, k.units.flow))
		}
	}
	return flows
}

// point adds Student's t that a test of n values by so many comparisons rests on.
func (k *acceptanceWork) point(id method.ID, n, comparisons int) (t wire.Quantity) {
	if !k.MethodsOnly {
		t = working.Dimensionless(working.StudentQuantile(1-float64(certainty.OutlierTestSignificance)/float64(comparisons), float64(n-2)))
	}
	k.Intermediate(id, t).Count("n", n)
	return t
}

// spreadOf adds the mean and the standard deviation of some flows.
func (k *acceptanceWork) spreadOf(flows []wire.Quantity) (mean, deviation wire.Quantity) {
	if !k.MethodsOnly {
		values := make([]float64, len(flows))
		for i := range flows {
			values[i] = flows[i].Value
		}
		m, s := stat.MeanStdDev(values, nil)
		mean, deviation = wire.Quantity{Value: m, Unit: k.units.flow}, wire.Quantity{Value: s, Unit: k.units.flow}
	}
	k.Intermediate(method.MeanOfValues, mean).Each("x_i", flows).Count("n", len(flows))
	k.Intermediate(method.StandardDeviation, deviation).Each("x_i", flows).With("m", mean).Count("n", len(flows))
	return mean, deviation
}
