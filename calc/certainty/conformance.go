package certainty

import (
	"math"

	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// Conformance tells how surely a verdict holds. It never changes the verdict.
type Conformance string

const (
	ConformanceUnknown Conformance = ""          // no uncertainty was asked for, or nothing was judged
	SurelyWithin       Conformance = "within"    // with a probability of SureEnough or more
	SurelyOutside      Conformance = "outside"   // within with 1 - SureEnough or less
	TooClose           Conformance = "too_close" // neither
)

// Words lists what is known of a conformance.
func (Conformance) Words() []string {
	return finding.WordsOf([]Conformance{SurelyWithin, SurelyOutside, TooClose})
}

// SureEnough is the probability from which something counts as certain: the usual
// 95 % of an expanded uncertainty.
const SureEnough = 95 * unit.Percent

// Conformity is the probability that what was judged truly lies within its limits.
type Conformity struct {
	Conformance Conformance
	Probability unit.Ratio
	// MeasureAgain is what would settle it; only with TooClose.
	MeasureAgain MeasureAgain
}

// Unlimited is the low end of what is judged on one side only; its negative is a high end.
var Unlimited = math.Inf(-1)

// ConformanceProbability is the probability that a value lies from low to high, having
// been measured as x with uncertainty u: that of the distribution of its error,
//
//	p = F(high - x) - F(low - x)
//
// (JCGM 106, 7.2 and A.3). Without any uncertainty it is 1 or 0.
func ConformanceProbability(x float64, u *Uncertainty, low, high float64) float64 {
	switch {
	case u.Standard > 0:
		return u.below(high-x) - u.below(low-x)
	case finding.AtMost(x, high) && finding.AtMost(low, x):
		return 1
	}
	return 0
}

// Judge tells how surely a value lies from low to high, and where that is too close to
// say, what would settle it.
func (c *Conformity) Judge(x float64, u *Uncertainty, low, high float64, n Repeats) {
	p := ConformanceProbability(x, u, low, high)
	*c = Conformity{Conformance: conformanceOf(p), Probability: unit.Ratio(p)}
	if c.Conformance == TooClose {
		c.MeasureAgain = u.whatToMeasureAgain(n, func(again func(*Uncertainty) Uncertainty) bool {
			after := again(u)
			return conformanceOf(ConformanceProbability(x, &after, low, high)) != TooClose
		})
	}
}

// conformanceOf is what a probability of lying within the limits says.
func conformanceOf(p float64) Conformance {
	switch {
	case finding.AtMost(float64(SureEnough), p):
		return SurelyWithin
	case finding.AtMost(p, 1-float64(SureEnough)):
		return SurelyOutside
	}
	return TooClose
}

// below is the probability that the true value exceeds the measured one by less than d.
func (u *Uncertainty) below(d float64) float64 {
	if math.IsInf(d, 0) {
		return max(math.Copysign(1, d), 0)
	}
	return u.Error.Below(d / u.Reference)
}
