package api

import (
	"wetrun/calc"
	"wetrun/calc/certainty"
)

// uncertainties adds how well the members are known, and how surely the verdicts hold.
func (k *acceptanceWork) uncertainties() {
	a := k.a
	if a.Uncertainty == nil {
		return
	}
	for i := range a.Catches {
		c, w := &a.Catches[i], k.item("/catches", i)
		u := c.Uncertainty
		w.uncertain("/uncertainty/nozzleFlowRate", &u.NozzleFlowRate)
		w.uncertain("/uncertainty/deviationFromRated", &u.DeviationFromRated)
		w.uncertain("/uncertainty/deviationFromMean", &u.DeviationFromMean)
		d, known := k.judgedBy(c)
		w.conformsEitherWay("", &c.ConformanceAnswer, d, known, a.Tolerance.Limit)
	}
	k.uncertain("/uncertainty/meanNozzleFlowRate", &a.Uncertainty.MeanNozzleFlowRate)
	k.uncertain("/uncertainty/coefficientOfVariation", &a.Uncertainty.CoefficientOfVariation)
}

// judgedBy is the deviation whose probability a catch has: with both bases that of the
// one that is the less likely to be within its limit. Where only the method is asked
// for, either of them tells it, unless one alone has degrees of freedom.
func (k *acceptanceWork) judgedBy(c *AcceptanceCatchAnswer) (Quantity, *UncertaintyAnswer) {
	rated, mean := &c.Uncertainty.DeviationFromRated, &c.Uncertainty.DeviationFromMean
	switch tolerance := &k.a.Tolerance; {
	case tolerance.Basis == calc.MeanBasis || rated.of == nil:
		return c.DeviationFromMean, mean
	case tolerance.Basis == calc.RatedBasis || mean.of == nil:
		return c.DeviationFromRated, rated
	case k.methodsOnly && (rated.DegreesOfFreedom == 0) == (mean.DegreesOfFreedom == 0):
		return c.DeviationFromRated, rated
	}
	limit := k.a.Tolerance.Limit.si()
	if chance(c.DeviationFromMean.si(), mean, limit) < chance(c.DeviationFromRated.si(), rated, limit) {
		return c.DeviationFromMean, mean
	}
	return c.DeviationFromRated, rated
}

// chance is the probability that a deviation measured as d is within its limit.
func chance(d float64, u *UncertaintyAnswer, limit float64) float64 {
	return certainty.ConformanceProbability(d, u.of, -limit, limit)
}
