package certainty

import (
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

func (p Prior) Or(standard Prior) Prior {
	if p == (Prior{}) {
		return standard
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
		v.Needed(finding.Member("degreesOfFreedom"), finding.Member("standardDeviation"))
	case p.DegreesOfFreedom < 0:
		v.Add(finding.Member("degreesOfFreedom"), finding.CodeNotPositive)
	}
	return v
}

// A Scatter is the variance of one measurement about the mean, as a share squared.
type Scatter struct {
	Variance, Freedom float64
	prior             Prior
	readings, seen    float64
	n                 int
}

// Pooled is the scatter to go by after n measurements, of which readings is the mean
// variance that independent errors of instruments add to one, and seen the variance
// that was seen among them (n - 1):
//
//	s_p^2 = (nu0 (s0^2 + readings) + (n - 1) seen) / (nu0 + n - 1)
//
// What is seen has the errors of the instruments in it already, so the prior gets them
// too before the two are pooled (GUM 4.2.4), and nothing counts them a second time.
func (p Prior) Pooled(readings, seen float64, n int) Scatter {
	nu0, s0 := float64(p.DegreesOfFreedom), float64(p.StandardDeviation)
	nu := nu0 + float64(n-1)
	return Scatter{(nu0*(s0*s0+readings) + float64(n-1)*seen) / nu, nu, p, readings, seen, n}
}
