package operation

import (
	"wetrun/api/wire"
	"wetrun/api/working"
	"wetrun/calc"
	"wetrun/calc/method"
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
		switch rated, mean := &u.DeviationFromRated, &u.DeviationFromMean; {
		case k.x.Rated == (calc.Limits{}) || rated.Source() == nil:
			conforms(w, &c.ConformanceAnswer, c.DeviationFromMean, mean, k.x.Mean)
		case k.x.Mean == (calc.Limits{}) || mean.Source() == nil:
			conforms(w, &c.ConformanceAnswer, c.DeviationFromRated, rated, k.x.Rated)
		default:
			k.conformsToBoth(w, &c.ConformanceAnswer, i)
		}
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

// conformsToBoth adds how surely a catch is within the limits of both bases at once.
func (k *acceptanceWork) conformsToBoth(w working.Working, c *working.ConformanceAnswer, i int) {
	if !c.ConformanceProbability.Given() {
		return
	}
	l := w.Line(method.WithinBoth, "/conformanceProbability", c.ConformanceProbability)
	if l == nil {
		return
	}
	x, u := &k.x.Catches[i], &k.x.Uncertainty.Catches[i]
	rated, mean := k.x.Rated.Judged(x.DeviationFromRated, &u.DeviationFromRated), k.x.Mean.Judged(x.DeviationFromMean, &u.DeviationFromMean)
	f, g := rated.Outside(), mean.Outside()
	l.Number("f_1", f.Below).Number("f_2", f.Above).Number("g_1", g.Below).Number("g_2", g.Above).
		Number("r", u.Common.Correlation(&u.DeviationFromRated, &u.DeviationFromMean))
}
