package operation

import (
	"wetrun/api/wire"
	"wetrun/api/working"
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
		c, w := &a.Catches[i], k.Item("/catches", i)
		u := c.Uncertainty
		w.Uncertain("/uncertainty/nozzleFlowRate", &u.NozzleFlowRate)
		w.Uncertain("/uncertainty/deviationFromRated", &u.DeviationFromRated)
		w.Uncertain("/uncertainty/deviationFromMean", &u.DeviationFromMean)
		d, known := k.judgedBy(c)
		w.ConformsEitherWay("", &c.ConformanceAnswer, d, known, a.Tolerance.Limit)
	}
	k.Uncertain("/uncertainty/meanNozzleFlowRate", &a.Uncertainty.MeanNozzleFlowRate)
	k.Uncertain("/uncertainty/coefficientOfVariation", &a.Uncertainty.CoefficientOfVariation)
}

// judgedBy is the deviation whose probability a catch has: with both bases that of the
// one that is the less likely to be within its limit. Where only the method is asked
// for, either of them tells it, unless one alone has degrees of freedom.
func (k *acceptanceWork) judgedBy(c *AcceptanceCatchAnswer) (wire.Quantity, *working.UncertaintyAnswer) {
	rated, mean := &c.Uncertainty.DeviationFromRated, &c.Uncertainty.DeviationFromMean
	switch tolerance := &k.a.Tolerance; {
	case tolerance.Basis == calc.MeanBasis || rated.Source() == nil:
		return c.DeviationFromMean, mean
	case tolerance.Basis == calc.RatedBasis || mean.Source() == nil:
		return c.DeviationFromRated, rated
	case k.MethodsOnly && (rated.DegreesOfFreedom == 0) == (mean.DegreesOfFreedom == 0):
		return c.DeviationFromRated, rated
	}
	limit := k.a.Tolerance.Limit.SI()
	if probabilityWithin(c.DeviationFromMean.SI(), mean, limit) < probabilityWithin(c.DeviationFromRated.SI(), rated, limit) {
		return c.DeviationFromMean, mean
	}
	return c.DeviationFromRated, rated
}

// probabilityWithin is the probability that a deviation measured as d is within its limit.
func probabilityWithin(d float64, u *working.UncertaintyAnswer, limit float64) float64 {
	return certainty.ConformanceProbability(d, u.Source(), -limit, limit)
}
