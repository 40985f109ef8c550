package calc

import (
	"math"

	"wetrun/calc/certainty"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// OutputTolerance is how far a nozzle may be from what it is compared with: by Limit either
// way from Basis, or by limits of their own for each reference and each way. The zero value
// stands for DefaultOutputTolerance and DefaultBasis.
type OutputTolerance struct {
	Limit unit.Ratio // zero stands for DefaultOutputTolerance
	Basis Basis
	Rated Limits // from the maker's flow at the working pressure
	Mean  Limits // from the mean of the catches
}

// Limits are how far something may lie below and above what it is compared with. Zero:
// that way it may lie anywhere.
type Limits struct{ Below, Above unit.Ratio }

// Basis is what a nozzle's flow is compared with.
type Basis string

// The bases of an output tolerance.
const (
	DefaultBasis Basis = ""      // the rating when the nozzle is given, else the mean
	RatedBasis   Basis = "rated" // the maker's flow at the working pressure
	MeanBasis    Basis = "mean"  // the mean of the catches
	BothBases    Basis = "both"  // outside if outside either
)

var bases = []Basis{RatedBasis, MeanBasis, BothBases}

// Words lists the bases.
func (Basis) Words() []string { return finding.WordsOf(bases) }

// own tells that each reference has limits of its own.
func (t *OutputTolerance) own() bool { return t.Rated.given() || t.Mean.given() }

// basis is what the tolerance compares with.
func (t *OutputTolerance) basis(hasRating bool) Basis {
	switch {
	case t.Rated.given() && t.Mean.given():
		return BothBases
	case t.Rated.given():
		return RatedBasis
	case t.Mean.given():
		return MeanBasis
	case t.Basis != DefaultBasis:
		return t.Basis
	case hasRating:
		return RatedBasis
	}
	return MeanBasis
}

// apply fills in the limits of each reference.
func (r *NozzleAcceptanceResult) apply(t *OutputTolerance) {
	r.Basis, r.Rated, r.Mean = t.basis(r.HasRating), t.Rated, t.Mean
	if !t.own() {
		limit := t.Limit
		if limit == 0 {
			limit = DefaultOutputTolerance
		}
		if r.Basis != MeanBasis {
			r.Rated = Limits{limit, limit}
		}
		if r.Basis != RatedBasis {
			r.Mean = Limits{limit, limit}
		}
	}
	for _, x := range [...]unit.Ratio{r.Rated.Below, r.Rated.Above, r.Mean.Below, r.Mean.Above} {
		if x != 0 && (r.Limit == 0 || x < r.Limit) {
			r.Limit = x
		}
	}
}

// check looks at one form or the other: both at once contradict each other.
func (t *OutputTolerance) check(v *finding.Invalid) {
	tolerance := finding.Member("tolerance")
	v.Optional(float64(t.Limit), toleranceLimit)
	if finding.NotAmong(t.Basis, bases) {
		v.Add(toleranceBasis, finding.CodeNotAllowed)
	}
	for _, part := range [...]struct {
		name   string
		limits Limits
	}{{"rated", t.Rated}, {"mean", t.Mean}} {
		if part.limits == (Limits{}) {
			continue
		}
		place := tolerance.Member(part.name)
		v.Optional(float64(part.limits.Below), place.Member("below"))
		v.Optional(float64(part.limits.Above), place.Member("above"))
		switch {
		case t.Limit != 0:
			v.Conflict(place, toleranceLimit)
		case t.Basis != DefaultBasis:
			v.Conflict(place, toleranceBasis)
		}
	}
}

var (
	toleranceLimit = finding.Member("tolerance").Member("limit")
	toleranceBasis = finding.Member("tolerance").Member("basis")
	toleranceMean  = finding.Member("tolerance").Member("mean")
)

func (l Limits) given() bool { return l != Limits{} }

// status tells where a deviation lies.
func (l Limits) status(d unit.Ratio) Status {
	switch {
	case l.Above != 0 && !finding.AtMost(float64(d), float64(l.Above)):
		return StatusAbove
	case l.Below != 0 && !finding.AtMost(-float64(d), float64(l.Below)):
		return StatusBelow
	}
	return StatusWithin
}

// Ends are the least and the greatest deviation that is within.
func (l Limits) Ends() (low, high float64) {
	low, high = certainty.Unlimited, -certainty.Unlimited
	if l.Below != 0 {
		low = -float64(l.Below)
	}
	if l.Above != 0 {
		high = float64(l.Above)
	}
	return low, high
}

// leans tells that a deviation is more than half of its limit: N d exceeds that of one
// nozzle for any N of two or more then.
func (l Limits) leans(d unit.Ratio) bool {
	return (Limits{l.Below / 2, l.Above / 2}).status(d) != StatusWithin
}

// hidden is how far one of n nozzles could be from the reference when their mean is off by
// d and each other lies within the limits. No nozzle can give less than nothing, so the low
// side ends at 1. Where one way is not limited, the others bound nothing: 0.
func (l Limits) hidden(n, d float64) float64 {
	if n < 2 || l.Below == 0 || l.Above == 0 {
		return 0
	}
	return math.Max(n*d+math.Min((n-1)*float64(l.Below), n-1), math.Min((n-1)*float64(l.Above)-n*d, 1))
}

// acceptable is what the ranges about the rated flow and about the mean share; a zero
// reference has none. Two that only touch share the point where they do. An end that
// nothing limits is zero.
func (r *NozzleAcceptanceResult) acceptable(rated, mean unit.FlowRate) (f FlowRange) {
	for _, about := range [...]struct {
		flow   unit.FlowRate
		limits Limits
	}{{rated, r.Rated}, {mean, r.Mean}} {
		if about.limits.Below != 0 {
			f.Low = max(f.Low, about.flow*max(1-unit.FlowRate(about.limits.Below), 0))
		}
		if high := about.flow * unit.FlowRate(1+about.limits.Above); about.limits.Above != 0 && high != 0 && (f.High == 0 || high < f.High) {
			f.High = high
		}
	}
	switch {
	case f.High == 0:
	case finding.Difference(float64(f.Low), float64(f.High)) > 0:
		return FlowRange{}
	default:
		f.High = max(f.Low, f.High)
	}
	return f
}
