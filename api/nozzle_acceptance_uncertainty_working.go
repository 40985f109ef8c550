package api

import "wetrun/calc"

func (a *NozzleAcceptanceResponse) workUncertainty(w *working) {
	if a.Uncertainty == nil {
		return
	}
	for i := range a.Catches {
		c := &a.Catches[i]
		u := c.Uncertainty
		w.uncertain(w.item("/catches", i, "/uncertainty/nozzleFlowRate"), &u.NozzleFlowRate)
		w.uncertain(w.item("/catches", i, "/uncertainty/deviationFromRated"), &u.DeviationFromRated)
		w.uncertain(w.item("/catches", i, "/uncertainty/deviationFromMean"), &u.DeviationFromMean)
		d, known := a.judgedBy(c)
		w.conformsEitherWay(w.item("/catches", i, ""), &c.ConformanceResponse, d, known, a.Tolerance.Limit)
	}
	w.uncertain("/uncertainty/meanNozzleFlowRate", &a.Uncertainty.MeanNozzleFlowRate)
	w.uncertain("/uncertainty/coefficientOfVariation", &a.Uncertainty.CoefficientOfVariation)
}

// judgedBy is the deviation whose probability a catch has: with both bases that of the
// one that is the less likely to be within its limit.
func (a *NozzleAcceptanceResponse) judgedBy(c *AcceptanceCatchResponse) (Quantity, *UncertaintyResponse) {
	rated, mean := &c.Uncertainty.DeviationFromRated, &c.Uncertainty.DeviationFromMean
	switch {
	case a.Tolerance.Basis == calc.MeanBasis || rated.of == nil:
		return c.DeviationFromMean, mean
	case a.Tolerance.Basis == calc.RatedBasis || mean.of == nil:
		return c.DeviationFromRated, rated
	}
	limit := a.Tolerance.Limit.si()
	if chance(c.DeviationFromMean.si(), mean, limit) < chance(c.DeviationFromRated.si(), rated, limit) {
		return c.DeviationFromMean, mean
	}
	return c.DeviationFromRated, rated
}

// chance is the probability that a deviation measured as d is within its limit.
func chance(d float64, u *UncertaintyResponse, limit float64) float64 {
	return calc.ConformanceProbability(d, u.of, -limit, limit)
}
