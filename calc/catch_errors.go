package calc

import (
	"math"

	"wetrun/calc/certainty"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// names checks the instruments that a catch names: jug and stopwatch, and the gauge
// where it has a pressure of its own.
func (c *Catch) names(v *finding.Invalid, m *certainty.Measuring, list string, i int) {
	m.CheckInstrument(v, certainty.Jug, c.Jug, func() finding.Place { return finding.Item(list, i).Member("jug") })
	m.CheckInstrument(v, certainty.Stopwatch, c.Stopwatch, func() finding.Place { return finding.Item(list, i).Member("stopwatch") })
	if c.SprayPressure != 0 || c.Gauge != "" {
		m.CheckInstrument(v, certainty.Gauge, c.Gauge, func() finding.Place { return finding.Item(list, i).Member("gauge") })
	}
}

// flowErrors is how the flow of a catch, V / t, follows its jug and its stopwatch.
func (c *Catch) flowErrors(x *certainty.Errors) (p certainty.Propagation) {
	p.Add(x, 1, x.Slot(certainty.Jug, c.Jug), float64(c.Volume))
	p.Add(x, -1, x.Slot(certainty.Stopwatch, c.Stopwatch), float64(c.Time))
	return p
}

// unseen is what the jug of a dry catch could not show, as a share of a flow for each of
// its nozzles.
func (c *AcceptanceCatch) unseen(x *certainty.Errors, of unit.FlowRate) (p certainty.Propagation) {
	slot, whole := x.Slot(certainty.Jug, c.Jug), float64(of)*c.nozzles()*float64(c.Time)
	p.Reading[certainty.Jug] = x.Relative(slot, whole)
	if x.Explain {
		p.Parts = append(p.Parts, x.Part(1, slot, whole))
	}
	return p
}

// pressureErrors adds what the pressure of a catch does, times c: its own gauge, or
// the common pressure.
func (c *Catch) pressureErrors(p *certainty.Propagation, x *certainty.Errors, times float64, common *certainty.Propagation) {
	if c.SprayPressure != 0 {
		p.Add(x, times, x.Slot(certainty.Gauge, c.Gauge), float64(c.SprayPressure))
	} else {
		p.Plus(times, common)
	}
}

// readPressure is how one pressure follows the gauge that it was read from; nothing
// where there is none.
func readPressure(x *certainty.Errors, gauge string, p unit.Pressure) (e certainty.Propagation) {
	if p != 0 {
		e.Add(x, 1, x.Slot(certainty.Gauge, gauge), float64(p))
	}
	return e
}

// A catchMean is how a mean flow follows the catches in it, each by its share of the
// flow. errors has the scales, and the readings of the catches by kind.
type catchMean struct {
	errors   certainty.Propagation
	squares  float64 // sum of squared shares
	readings float64 // what readings add to one catch, as a mean
	n        int
	part     *certainty.ScatterPart // of the scatter, when it is to be explained
}

// add takes in a catch with its share of the flow. by is the share of the flow that own
// tells shares of; it differs for a dry catch, which has no share.
func (m *catchMean) add(share, by float64, own *certainty.Propagation) {
	m.errors.Gather(by, own)
	m.squares += share * share
	for _, r := range own.Reading {
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
func (m *catchMean) budget(prior certainty.Prior, seen float64, n int, f float64) (b certainty.Budget) {
	s := prior.Pooled(m.readings/float64(m.n), seen*seen, n)
	if len(m.errors.Parts) > 0 {
		m.part = s.Part(m.squares, f)
	}
	if v := (1 - f) * s.Variance * m.squares; v > 0 {
		b[certainty.SourceCatches] = certainty.Component{Standard: math.Sqrt(v), DegreesOfFreedom: s.Freedom}
	}
	return b
}

// left is what is left of the readings of the catches when f of the boom was caught.
func (m *catchMean) left(f float64) certainty.Propagation {
	p := m.errors
	for k := range p.Reading {
		p.Reading[k] *= f
	}
	p.Parts = certainty.Weighed(p.Parts, f)
	return p
}
