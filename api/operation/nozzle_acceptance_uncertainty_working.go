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
		d, known, limits := k.judgedBy(c)
		conforms(w, &c.ConformanceAnswer, d, known, limits)
	}
	k.Uncertain("/uncertainty/meanNozzleFlowRate", &a.Uncertainty.MeanNozzleFlowRate)
	k.Uncertain("/uncertainty/coefficientOfVariation", &a.Uncertainty.CoefficientOfVariation)
}

// conforms adds how surely a deviation is within its limits; one that is limited below
// alone is turned round.
func conforms(w working.Working, c *working.ConformanceAnswer, d wire.Quantity, u *working.UncertaintyAnswer, limits calc.Limits) {
	switch {
	case limits.Above == 0:
		w.Conforms("", c, d, u, percent(-limits.Below), wire.Quantity{})
	case limits.Below == 0:
		w.Conforms("", c, d, u, wire.Quantity{}, percent(limits.Above))
	default:
		w.Conforms("", c, d, u, percent(-limits.Below), percent(limits.Above))
	}
}

// judgedBy is the deviation whose probability a catch has, with its limits: with both bases
// that of the one that is the less likely to be within them. Where only the method is asked
// for, either of them tells it, unless the two have different ones.
func (k *acceptanceWork) judgedBy(c *AcceptanceCatchAnswer) (wire.Quantity, *working.UncertaintyAnswer, calc.Limits) {
	rated, mean := &c.Uncertainty.DeviationFromRated, &c.Uncertainty.DeviationFromMean
	switch ofRated, ofMean := k.x.Rated, k.x.Mean; {
	case ofRated == (calc.Limits{}) || rated.Source() == nil:
		return c.DeviationFromMean, mean, ofMean
	case ofMean == (calc.Limits{}) || mean.Source() == nil:
		return c.DeviationFromRated, rated, ofRated
	case k.MethodsOnly && ofRated == ofMean && (rated.DegreesOfFreedom == 0) == (mean.DegreesOfFreedom == 0):
		return c.DeviationFromRated, rated, ofRated
	case probabilityWithin(c.DeviationFromMean.SI(), mean, ofMean) < probabilityWithin(c.DeviationFromRated.SI(), rated, ofRated):
		return c.DeviationFromMean, mean, ofMean
	default:
		return c.DeviationFromRated, rated, ofRated
	}
}

// probabilityWithin is the probability that a deviation measured as d is within its limits.
func probabilityWithin(d float64, u *working.UncertaintyAnswer, limits calc.Limits) float64 {
	low, high := limits.Ends()
	return certainty.ConformanceProbability(d, u.Source(), low, high)
}
