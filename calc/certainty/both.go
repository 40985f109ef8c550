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

// Correlation is that of the errors of two values.
func (c Covariance) Correlation(u, v *Uncertainty) float64 {
	if u.Standard == 0 || v.Standard == 0 {
		return 0
	}
	r := (c.Scale + c.Reading) * u.Reference / u.Standard * v.Reference / v.Standard
	return max(-mostCorrelation, min(r, mostCorrelation))
}

// mostCorrelation is as near to 1 as the integral below is good for. Beyond it two values are
// as good as one: the probability does not change by 0.1 %.
const mostCorrelation = 0.9999

// A Tails has the probabilities that a value truly lies below its limits, and above them.
type Tails struct{ Below, Above float64 }

// Outside are the tails of a value.
func (j *Judged) Outside() Tails {
	u := j.Uncertainty
	if u.Standard == 0 {
		return Tails{Below: 1 - j.probability()}
	}
	return Tails{u.below(j.Low - j.Value), u.below(j.Value - j.High)} // its error is as likely either way
}

// BothWithin is the probability that two values lie within their limits at once: what is left
// of 1 without those of either being outside, what they have in common counted once,
//
//	p = 1 - P(x outside) - P(y outside) + P(both outside)
//
// How each is distributed is kept, by its tails; that they are outside together is as for two
// normal errors that are outside as often and correlated alike (A. Nataf, 1962, from memory,
// not read).
func BothWithin(x, y Tails, correlation float64) float64 {
	p := 1 - x.Below - x.Above - y.Below - y.Above
	p += bothBelow(x.Below, y.Below, correlation) + bothBelow(x.Above, y.Above, correlation)
	p += bothBelow(x.Below, y.Above, -correlation) + bothBelow(x.Above, y.Below, -correlation)
	return max(0, p)
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
	p := BothWithin(a.Outside(), b.Outside(), common.Correlation(a.Uncertainty, b.Uncertainty))
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
		return conformanceOf(BothWithin(after.Outside(), other.Outside(), left.Correlation(&x, &y))) != TooClose
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
