package calc

import (
	"math"

	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// names checks the instruments that a catch names: jug and stopwatch, and the gauge
// where it has a pressure of its own.
func (c *Catch) names(v *finding.Invalid, m *Measuring, list string, i int) {
	m.names(v, Jug, c.Jug, func() finding.Place { return finding.Item(list, i).Member("jug") })
	m.names(v, Stopwatch, c.Stopwatch, func() finding.Place { return finding.Item(list, i).Member("stopwatch") })
	if c.SprayPressure != 0 || c.Gauge != "" {
		m.names(v, Gauge, c.Gauge, func() finding.Place { return finding.Item(list, i).Member("gauge") })
	}
}

// flowErrors is how the flow of a catch, V / t, follows its jug and its stopwatch.
func (c *Catch) flowErrors(x *instruments) (p propagation) {
	p.add(x, 1, x.slot(Jug, c.Jug), float64(c.Volume))
	p.add(x, -1, x.slot(Stopwatch, c.Stopwatch), float64(c.Time))
	return p
}

// unseen is what the jug of a dry catch could not show, as a share of a flow for each of
// its nozzles.
func (c *AcceptanceCatch) unseen(x *instruments, of unit.FlowRate) (p propagation) {
	slot, whole := x.slot(Jug, c.Jug), float64(of)*c.nozzles()*float64(c.Time)
	p.reading[Jug] = x.relative(slot, whole)
	if x.explain {
		p.parts = append(p.parts, x.part(1, slot, whole))
	}
	return p
}

// pressureErrors adds what the pressure of a catch does, times c: its own gauge, or
// the common pressure.
func (c *Catch) pressureErrors(p *propagation, x *instruments, times float64, common *propagation) {
	if c.SprayPressure != 0 {
		p.add(x, times, x.slot(Gauge, c.Gauge), float64(c.SprayPressure))
	} else {
		p.plus(times, common)
	}
}

// readPressure is how one pressure follows the gauge that it was read from; nothing
// where there is none.
func readPressure(x *instruments, gauge string, p unit.Pressure) (e propagation) {
	if p != 0 {
		e.add(x, 1, x.slot(Gauge, gauge), float64(p))
	}
	return e
}

// A catchMean is how a mean flow follows the catches in it, each by its share of the
// flow. errors has the scales, and the readings of the catches by kind.
type catchMean struct {
	errors   propagation
	squares  float64 // sum of squared shares
	readings float64 // what readings add to one catch, as a mean
	n        int
	part     *ScatterPart // of the scatter, when it is to be explained
}

// add takes in a catch with its share of the flow. by is the share of the flow that own
// tells shares of; it differs for a dry catch, which has no share.
func (m *catchMean) add(share, by float64, own *propagation) {
	m.errors.gather(by, own)
	m.squares += share * share
	for _, r := range own.reading {
		m.readings += r
	}
	m.n++
}

// budget is that of the mean as the flow of the whole boom, of which the share f was
// caught. What was caught is a sample of the rest, and known up to its readings:
//
//	u^2 = (1 - f) s_p^2 x sum of w_i^2 + f x sum of w_i^2 u_i^2 + scales
//
// s_p being the pooled scatter of the catches, which has the readings in it, u_i the
// readings of one catch and w_i its share of the flow. That is the variance of the
// mean of a sample without replacement (finite population correction, 1 - n / N).
// seen is the coefficient of variation of n catches; 0 of one.
func (m *catchMean) budget(prior Prior, seen float64, n int, f float64) (b Budget) {
	s := prior.pooled(m.readings/float64(m.n), seen*seen, n)
	if len(m.errors.parts) > 0 {
		m.part = s.part(m.squares, f)
	}
	if v := (1 - f) * s.variance * m.squares; v > 0 {
		b[SourceCatches] = Component{math.Sqrt(v), s.freedom}
	}
	return b
}

// left is what is left of the readings of the catches when f of the boom was caught.
func (m *catchMean) left(f float64) propagation {
	p := m.errors
	for k := range p.reading {
		p.reading[k] *= f
	}
	p.parts = weighed(p.parts, f)
	return p
}
