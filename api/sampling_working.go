package api

import (
	"strconv"

	"gonum.org/v1/gonum/stat"

	"wetrun/calc"
	"wetrun/calc/method"
	"wetrun/calc/unit"
)

func samplingMethods(x *calc.NozzleAcceptanceResult, points int) methodSet {
	s := methodsOf(method.SharePossibleLow, method.SharePossibleHigh, method.ChanceAbove)
	if points > 0 {
		s = methodsOf(method.PointsPossibleLow, method.PointsPossibleHigh, method.ChanceAbovePoints)
	}
	for _, o := range x.Outliers {
		s.add(method.MeanOfValues, method.StandardDeviation)
		if o.Test == calc.SingleOutlier {
			s.add(method.Grubbs, method.GrubbsPoint, method.GrubbsCritical)
		} else {
			s.add(method.RangeOverDeviation, method.RangePoint, method.RangeCritical)
		}
	}
	return s
}

// sampling adds what the catches tell of the whole boom.
func (k *acceptanceWork) sampling() {
	s, a, points := &k.x.Sampling, &k.a.Sampling, k.r.CatchPointsOnBoom
	low, high, chance := method.SharePossibleLow, method.SharePossibleHigh, method.ChanceAbove
	if points > 0 {
		low, high, chance = method.PointsPossibleLow, method.PointsPossibleHigh, method.ChanceAbovePoints
	}
	limit := calc.SamplingInput{CatchPointsOnBoom: points, ReplaceAllAbove: unit.Ratio(k.a.ReplaceAllAbove.si())}
	given := []operand{
		putNumber("x", s.Outside), putNumber("n", s.Caught), putNumber("N", points),
		put("L", k.a.ReplaceAllAbove), putNumber("K", limit.AtLimit()),
	}
	k.line(low, "/sampling/proportionOutside/low", a.ProportionOutside.Low, given...)
	k.line(high, "/sampling/proportionOutside/high", a.ProportionOutside.High, given...)
	k.line(chance, "/sampling/chanceAboveLimit", a.ChanceAboveLimit, given...)
}

// outliers adds the tests that found catches which stand apart.
func (k *acceptanceWork) outliers() {
	for i, o := range k.x.Outliers {
		at := "/outliers/" + strconv.Itoa(i)
		var flows []Quantity
		for _, c := range k.x.Compared {
			if c != o.Without {
				flows = append(flows, in(k.x.Catches[c].NozzleFlowRateAtPressure, k.units.flow))
			}
		}
		n := len(flows)
		mean, deviation := k.spreadOf(flows)
		statistic, critical := bare(o.Statistic), bare(o.Critical)
		if o.Test == calc.SingleOutlier {
			k.line(method.Grubbs, at+"/statistic", statistic,
				put("x", in(k.x.Catches[o.Value].NozzleFlowRateAtPressure, k.units.flow)), put("m", mean), put("s", deviation))
			t := bare(tabled["t_quantile"]([]float64{1 - float64(calc.OutlierTestSignificance)/float64(2*n), float64(n - 2)}))
			k.step(method.GrubbsPoint, t, putNumber("n", n))
			k.line(method.GrubbsCritical, at+"/criticalValue", critical, putNumber("n", n), put("t", t))
			continue
		}
		k.line(method.RangeOverDeviation, at+"/statistic", statistic, putEach("x_i", flows), put("s", deviation))
		t := bare(tabled["t_quantile"]([]float64{1 - float64(calc.OutlierTestSignificance)/float64(n*(n-1)), float64(n - 2)}))
		k.step(method.RangePoint, t, putNumber("n", n))
		k.line(method.RangeCritical, at+"/criticalValue", critical, putNumber("n", n), put("t", t))
	}
}

// spreadOf adds the mean and the standard deviation of some flows.
func (k *acceptanceWork) spreadOf(flows []Quantity) (mean, deviation Quantity) {
	values := make([]float64, len(flows))
	for i := range flows {
		values[i] = flows[i].Value
	}
	m, s := stat.MeanStdDev(values, nil)
	mean, deviation = Quantity{m, k.units.flow}, Quantity{s, k.units.flow}
	n := putNumber("n", len(flows))
	k.step(method.MeanOfValues, mean, putEach("x_i", flows), n)
	k.step(method.StandardDeviation, deviation, putEach("x_i", flows), put("m", mean), n)
	return mean, deviation
}
