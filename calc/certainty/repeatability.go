package certainty

import (
	"math"

	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// Repeatability is what is known beforehand of how far measurements repeat. A zero
// Prior stands for the default one.
type Repeatability struct {
	Runs    Prior // the speed of one run about the mean
	Catches Prior // the flow of one catch about the mean of the boom
}

// A Prior is a standard deviation as a share, without what the instruments add to it,
// and how many degrees of freedom it is worth.
type Prior struct {
	StandardDeviation unit.Ratio
	DegreesOfFreedom  int
}

// What is expected before anything was measured. Own judgement, no published source.
var (
	// DefaultRunsPrior is of a tractor that holds its throttle on level ground.
	DefaultRunsPrior = Prior{1.5 * unit.Percent, 10}
	// DefaultCatchesPrior is of nozzles in use, from one to the next.
	DefaultCatchesPrior = Prior{4 * unit.Percent, 5}
)

// OrDefault is p, or what stands in for it where it is not given.
func (p Prior) OrDefault(d Prior) Prior {
	if p == (Prior{}) {
		return d
	}
	return p
}

func (r Repeatability) check() finding.Invalid {
	return append(r.Runs.check().Under(finding.Member("runs")), r.Catches.check().Under(finding.Member("catches"))...)
}

func (p Prior) check() (v finding.Invalid) {
	if p == (Prior{}) {
		return nil
	}
	v.PositiveFor(float64(p.StandardDeviation), finding.Member("standardDeviation"), finding.Member("degreesOfFreedom"))
	switch {
	case p.DegreesOfFreedom == 0:
		v.RequiredBy(finding.Member("degreesOfFreedom"), finding.Member("standardDeviation"))
	case p.DegreesOfFreedom < 0:
		v.Add(finding.Member("degreesOfFreedom"), finding.CodeNotPositive)
	}
	return v
}

// A Scatter is how far single measurements lie about a mean of them, and what that makes
// of the mean.
type Scatter struct {
	pooled, freedom    float64 // variance of one measurement, as a share squared
	prior              Prior
	readings, observed float64
	n                  int
	squares            float64
	caught, point      float64 // the share of all that was measured, and what one more is of it
}

// Pool is the scatter to go by after n measurements, of which readings is the variance that
// independent errors of instruments add to one, as the mean has them (what they add to it
// over squares), and observed the variance among them (n - 1), all as shares squared:
//
//	s_p^2 = (nu0 (s0^2 + readings) + (n - 1) observed) / (nu0 + n - 1)
//
// What is observed has the errors of the instruments in it already, so the prior gets them
// too before the two are pooled (GUM 4.2.4), and nothing counts them a second time.
//
// squares is the sum of the squared weights that the measurements have in their mean, caught
// how much of all that it is the mean of was measured, and point what one more is of that: 0
// of what has no end.
func (p Prior) Pool(readings, observed float64, n int, squares, caught, point float64) Scatter {
	nu0, s0 := float64(p.DegreesOfFreedom), float64(p.StandardDeviation)
	nu := nu0 + float64(n-1)
	pooled := (nu0*(s0*s0+readings) + float64(n-1)*observed) / nu
	return Scatter{pooled, nu, p, readings, observed, n, squares, caught, point}
}

// Component is what the scatter adds to the uncertainty of the mean, s_p sqrt(squares
// (1 - caught)): nothing where all was measured (finite population correction).
func (s *Scatter) Component() Component {
	if v := (1 - s.caught) * s.pooled * s.squares; v > 0 {
		return Component{Standard: math.Sqrt(v), DegreesOfFreedom: s.freedom}
	}
	return Component{}
}

// after is the Component after so many more measurements that came out alike: with the same
// mean, and the same mean square of what they differ from it by.
func (s *Scatter) after(more float64) Component {
	if math.IsInf(more, 1) {
		return Component{}
	}
	n := float64(s.n)
	by := (n + more) / n
	observed := s.observed * (n - 1) * by / (n + more - 1)
	all := s.prior.Pool(s.readings, observed, s.n+int(more), s.squares/by, s.caught+more*s.point, s.point)
	return all.Component()
}

// number is how often it was measured.
func (s *Scatter) number() int {
	if s == nil {
		return 0
	}
	return s.n
}
