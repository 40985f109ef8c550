package calc

import (
	"wetrun/calc/certainty"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// checkInstruments checks those that a catch names: jug and stopwatch, and the gauge
// where it has a pressure of its own.
func (c *Catch) checkInstruments(v *finding.Invalid, m *certainty.Measuring, list string, i int) {
	m.CheckInstrument(v, certainty.Jug, c.Jug, func() finding.Place { return finding.Item(list, i).Member("jug") })
	m.CheckInstrument(v, certainty.Stopwatch, c.Stopwatch, func() finding.Place { return finding.Item(list, i).Member("stopwatch") })
	if c.SprayPressure != 0 || c.Gauge != "" {
		m.CheckInstrument(v, certainty.Gauge, c.Gauge, func() finding.Place { return finding.Item(list, i).Member("gauge") })
	}
}

// flowErrors is how the flow of a catch, V / t, follows its jug and its stopwatch.
func (c *Catch) flowErrors(e *certainty.Evaluation) (p certainty.Propagation) {
	p.AddMeasured(e.Instrument(certainty.Jug, c.Jug), 1, float64(c.Volume))
	p.AddMeasured(e.Instrument(certainty.Stopwatch, c.Stopwatch), -1, float64(c.Time))
	return p
}

// dryErrors is what the jug of a dry catch could not show, as a share of a flow for each of
// its nozzles.
func (c *AcceptanceCatch) dryErrors(e *certainty.Evaluation, of unit.FlowRate) (p certainty.Propagation) {
	p.AddReading(e.Instrument(certainty.Jug, c.Jug), 1, float64(of)*c.nozzles()*float64(c.Time))
	return p
}

// addPressure adds what the pressure of a catch does, with the sensitivity to it: its own
// gauge, or the common pressure.
func (c *Catch) addPressure(p *certainty.Propagation, e *certainty.Evaluation, sensitivity float64, common *certainty.Propagation) {
	if c.SprayPressure != 0 {
		p.AddMeasured(e.Instrument(certainty.Gauge, c.Gauge), sensitivity, float64(c.SprayPressure))
	} else {
		p.Add(sensitivity, common)
	}
}

// gaugeErrors is how one pressure follows the gauge that it was read from; nothing
// where there is none.
func gaugeErrors(e *certainty.Evaluation, gauge string, pressure unit.Pressure) (p certainty.Propagation) {
	if pressure != 0 {
		p.AddMeasured(e.Instrument(certainty.Gauge, gauge), 1, float64(pressure))
	}
	return p
}

// A catchMean is how a mean flow follows the catches in it, each by its share of the
// flow. errors has the scales, and the readings of the catches by kind.
type catchMean struct {
	errors  certainty.Propagation
	squares float64 // sum of squared shares
	n       int
}

// add takes in a catch with its share of the flow. sensitivity is the share of the flow
// that own tells shares of; it differs for a dry catch, which has no share.
func (m *catchMean) add(share, sensitivity float64, own *certainty.Propagation) {
	m.errors.Accumulate(sensitivity, own)
	m.squares += share * share
	m.n++
}

// scatter is that of the mean as the flow of the whole boom, of which the share f was
// caught. What was caught is a sample of the rest, and known up to its readings:
//
//	u^2 = (1 - f) s_p^2 x sum of w_i^2 + f x sum of w_i^2 u_i^2 + scales
//
// s_p being the pooled scatter of the catches, which has the readings in it, u_i the
// readings of one catch and w_i its share of the flow. That is the variance of the
// mean of a sample without replacement (finite population correction, 1 - n / N).
// cv is the coefficient of variation of n catches; 0 of one. point is the share of the boom
// that one more catch is; 0 where it is not known.
//
// What is pooled is what the readings add to the mean, sum of w_i^2 u_i^2 over the sum of
// w_i^2: of a catch that is nearly dry u_i has no bound, w_i u_i has.
func (m *catchMean) scatter(prior certainty.Prior, cv float64, n int, f, point float64) certainty.Scatter {
	return prior.Pool(m.errors.ReadingVariance()/m.squares, cv*cv, n, m.squares, f, point)
}
