package certainty

import (
	"math"

	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/mathext"

	"wetrun/calc/unit"
)

// A Judged is a value that was measured, with the limits that it has to lie within.
type Judged struct {
	Value       float64
	Uncertainty *Uncertainty
	Low, High   float64
}

// A Covariance is what two values have in common of the variance that scales make of them, and
// of that of readings, as shares squared.
type Covariance struct{ Scale, Reading float64 }

// correlation is that of two uncertainties.
func (c Covariance) correlation(u, v *Uncertainty) float64 {
	if u.Standard == 0 || v.Standard == 0 {
		return 0
	}
	r := (c.Scale + c.Reading) * u.Reference / u.Standard * v.Reference / v.Standard
	return max(-mostCorrelation, min(r, mostCorrelation))
}

// mostCorrelation is as near to 1 as the integral below is good for. Beyond it two values are
// as good as one: the probability does not change by 0.1 %.
const mostCorrelation = 0.9999

// outside are the probabilities that a value is truly below its limits, and above them.
func (j *Judged) outside() (below, above float64) {
	u := j.Uncertainty
	if u.Standard == 0 {
		p := 1 - ConformanceProbability(j.Value, u, j.Low, j.High)
		return p, 0
	}
	if !math.IsInf(j.Low, 0) {
		below = u.below(j.Low - j.Value)
	}
	if !math.IsInf(j.High, 0) {
		above = u.below(j.Value - j.High) // its error is as likely either way
	}
	return below, above
}

// BothWithin is the probability that two values lie within their limits at once: what is left
// of 1 without those of either being outside, what they have in common counted once,
//
//	p = 1 - P(a outside) - P(b outside) + P(both outside)
//
// How each is distributed is kept; that they are outside together is as for two normal errors
// that are outside as often and correlated alike (A. Nataf, 1962, from memory, not read).
func BothWithin(a, b *Judged, correlation float64) float64 {
	var x, y [2]float64
	x[0], x[1] = a.outside()
	y[0], y[1] = b.outside()
	p := 1 - x[0] - x[1] - y[0] - y[1]
	for i := range x {
		for j := range y {
			r := correlation
			if i != j {
				r = -r
			}
			p += bothBelow(x[i], y[j], r)
		}
	}
	return max(0, min(p, 1))
}

// bothBelow is the probability that two normal errors with a correlation both lie below what
// each lies below with p and with q.
//
//	p q + 1 / (2 pi) x integral of exp(-(x^2 + y^2 - 2 x y sin t) / (2 cos^2 t)) dt, from 0 to arcsin r
//
// Source: Z. Drezner and G. Wesolowsky, On the computation of the bivariate normal integral,
// Journal of Statistical Computation and Simulation 35, 1990; from memory, not read.
func bothBelow(p, q, r float64) float64 {
	switch least, most := min(p, q), max(p, q); {
	case least < 1e-12:
		return 0
	case most > 1-1e-12:
		return least
	}
	x, y := mathext.NormalQuantile(p), mathext.NormalQuantile(q)
	end, sum := math.Asin(r), 0.0
	for i, at := range legendre.at {
		sin, cos := math.Sincos(at * end)
		sum += legendre.weight[i] * math.Exp(-(x*x+y*y-2*x*y*sin)/(2*cos*cos))
	}
	return p*q + sum*end/(2*math.Pi)
}

// legendre are the points of a Gauss-Legendre quadrature from 0 to 1.
var legendre = func() (q struct{ at, weight [32]float64 }) {
	quad.Legendre{}.FixedLocations(q.at[:], q.weight[:], 0, 1)
	return q
}()

// JudgeBoth is Judge for two values that both have to lie within their limits.
func (c *Conformity) JudgeBoth(a, b Judged, common Covariance, n Repeats) {
	p := BothWithin(&a, &b, common.correlation(a.Uncertainty, b.Uncertainty))
	*c = Conformity{Conformance: conformanceOf(p), Probability: unit.Ratio(p)}
	if c.Conformance != TooClose {
		return
	}
	worse := a.Uncertainty
	if b.probability() < a.probability() {
		worse = b.Uncertainty
	}
	c.MeasureAgain = worse.whatToMeasureAgain(n, func(again func(*Uncertainty) Uncertainty) bool {
		x, y, left := again(a.Uncertainty), again(b.Uncertainty), common
		if before := a.Uncertainty.readings(); before > 0 {
			left.Reading *= x.readings() / before
		}
		after, other := a, b
		after.Uncertainty, other.Uncertainty = &x, &y
		return conformanceOf(BothWithin(&after, &other, left.correlation(&x, &y))) != TooClose
	})
}

func (j *Judged) probability() float64 {
	return ConformanceProbability(j.Value, j.Uncertainty, j.Low, j.High)
}

// readings is what all readings add to the variance, as a share squared.
func (u *Uncertainty) readings() (sum float64) {
	for k := range InstrumentKinds {
		sum += u.Budget[readingOf(k)].Standard * u.Budget[readingOf(k)].Standard
	}
	return sum
}
