package calc

import (
	"wetrun/calc/certainty"
	"wetrun/calc/unit"
)

// AcceptanceUncertainty is how well a round of catches is known.
type AcceptanceUncertainty struct {
	// MeanNozzleFlowRate is of the mean flow as that of the boom: with
	// CatchPointsOnBoom the part that was not caught is what is not known.
	MeanNozzleFlowRate     certainty.Uncertainty
	CoefficientOfVariation certainty.Uncertainty // zero for one catch, and for catches all alike
	Catches                []CatchUncertainty

	boom    certainty.Propagation // of the boom's mean
	scatter certainty.Scatter     // of the boom's catches about it
}

// CatchUncertainty is how well one catch is known, by its instruments alone.
type CatchUncertainty struct {
	NozzleFlowRate     certainty.Uncertainty
	DeviationFromRated certainty.Uncertainty // zero without a rating
	DeviationFromMean  certainty.Uncertainty // zero when it is not in the mean
	Within             certainty.Conformity  // with both bases of lying within both limits at once
	Common             certainty.Covariance  // of the two deviations, where there are both

	first certainty.Conformity // of the first catch that it stands in for
}

// A catchRound is what the uncertainties of a round are worked out with.
type catchRound struct {
	in      *NozzleAcceptanceInput
	r       *NozzleAcceptanceResult
	e       *certainty.Evaluation
	common  certainty.Propagation // of the common pressure
	working certainty.Propagation // of the pressure that flows are brought to
	mean    catchMean             // of the catches in the mean
	grouped certainty.Propagation // its errors, each kind of readings as one part, or each catch would list all the others
	moved   float64               // how it follows the working pressure
	total   float64               // the flow of all of them
	point   float64               // the share of the boom that one catch is; 0 where it is not known
}

// uncertainty works out how well the round is known. A catch follows its jug and its
// stopwatch; its rated flow follows the gauge by the exponent n of pressure:
//
//	flow          jug - stopwatch
//	from rated    jug - stopwatch - n gauge
//	from mean     (jug - stopwatch)_i - sum of w_j (jug - stopwatch)_j
//
// so a scale error of the one jug of a round is in none of the deviations from the
// mean, and neither is scatter: they are of what was caught. Catches with pressures of their own follow their gauges too, since they are
// brought to one pressure.
//
// Source: GUM 4.3.7, 5.1.2, 5.2.2; see catchMean for the mean.
func (r *NozzleAcceptanceResult) uncertainty(in *NozzleAcceptanceInput) *AcceptanceUncertainty {
	c := catchRound{in: in, r: r, e: in.Measuring.Evaluate()}
	if in.pressureErrors != nil {
		c.common = in.pressureErrors.Grouped() // or each catch would list all the readings along the boom
	} else {
		c.common = gaugeErrors(c.e, in.Gauge, in.SprayPressure)
	}
	c.working = c.common
	if in.SprayPressure == 0 {
		c.working = c.lowestGauge()
	}
	u := &AcceptanceUncertainty{Catches: make([]CatchUncertainty, len(in.Catches))}
	prior := in.Measuring.Repeatability.Catches.OrDefault(certainty.DefaultCatchesPrior)
	var f float64
	if in.CatchPointsOnBoom != 0 {
		c.point = 1 / float64(in.CatchPointsOnBoom)
		f = float64(in.pointsCaught(nil).Caught) / float64(in.CatchPointsOnBoom)
	}
	mixed := in.mixedDrops()
	c.mean, c.moved, c.total = c.add(false)
	c.grouped = c.mean.errors.Grouped()
	if c.total > 0 {
		u.boom, u.MeanNozzleFlowRate = c.boom(&c.mean, c.moved, prior, f, u)
	}
	if mixed > 0 && r.boomMean > 0 {
		all, moved, _ := c.add(true)
		u.boom, _ = c.boom(&all, moved, prior, f, u)
	}
	if r.CoefficientOfVariation > 0 {
		u.CoefficientOfVariation = c.variation()
	}
	for i := range in.Catches {
		x, known := &in.Catches[i], &u.Catches[i]
		c.judge(x, &r.Catches[i], c.flow(i)/c.total, known)
		if x.First != nil {
			first, q := r.first(in, x)
			var of CatchUncertainty
			c.judge(&first, &q, 0, &of)
			known.first = of.Within
		}
	}
	return u
}

// lowestGauge is the scale of the gauge at the catch whose pressure is the working one. Where
// none is known, no flow follows it.
func (c *catchRound) lowestGauge() (p certainty.Propagation) {
	for i := range c.in.Catches {
		if x := &c.in.Catches[i]; x.SprayPressure == c.r.SprayPressure {
			p.AddScale(c.e.Instrument(certainty.Gauge, x.Gauge), 1)
			break
		}
	}
	return p
}

// own is how the flow of a catch at the working pressure follows what measured it,
// but for the working pressure itself, which it follows by moved.
//
// A dry catch has no share of itself to be off by. What its jug could not show is a
// share of the catch that it would be with the mean flow of the boom; its scales and
// its stopwatch do nothing.
func (c *catchRound) own(x *AcceptanceCatch, q *CatchResult) (p certainty.Propagation, moved float64) {
	if x.Volume == 0 {
		return x.dryErrors(c.e, c.atCatch(x, q, c.r.boomMean)), 0
	}
	p = x.flowErrors(c.e)
	if x.SprayPressure != 0 {
		x.addPressure(&p, c.e, -x.exponent(c.in.Nozzle, x.SprayPressure), nil)
		moved = x.exponent(c.in.Nozzle, c.r.SprayPressure)
	}
	return p, moved
}

// add takes in the catches of the mean, or all of the boom.
func (c *catchRound) add(all bool) (m catchMean, moved, flow float64) {
	for i := range c.in.Catches {
		if all || !c.in.Catches[i].mixed() {
			flow += c.flow(i)
		}
	}
	for i := range c.in.Catches {
		if all || !c.in.Catches[i].mixed() {
			own, by := c.own(&c.in.Catches[i], &c.r.Catches[i])
			m.add(c.flow(i)/flow, c.reference(i)/flow, &own)
			moved += c.flow(i) / flow * by
		}
	}
	return m, moved, flow
}

// flow is that of a catch at the working pressure, of all its nozzles.
func (c *catchRound) flow(i int) float64 {
	return float64(c.r.Catches[i].NozzleFlowRateAtPressure) * c.in.Catches[i].nozzles()
}

// atCatch brings a flow from the working pressure to that of a catch.
func (c *catchRound) atCatch(x *AcceptanceCatch, q *CatchResult, flow unit.FlowRate) unit.FlowRate {
	if p := q.SprayPressure; p != 0 {
		return x.move(c.in.Nozzle, flow, c.r.SprayPressure, p)
	}
	return flow
}

// reference is the flow of which own tells shares: that of the catch, and of a dry one
// that of the boom's mean.
func (c *catchRound) reference(i int) float64 {
	if c.in.Catches[i].Volume == 0 {
		return float64(c.r.boomMean) * c.in.Catches[i].nozzles()
	}
	return c.flow(i)
}

// boom is the mean as the flow of the whole boom.
func (c *catchRound) boom(m *catchMean, moved float64, prior certainty.Prior, f float64, u *AcceptanceUncertainty) (certainty.Propagation, certainty.Uncertainty) {
	u.scatter = m.scatter(prior, float64(c.r.CoefficientOfVariation), max(c.mean.n, 1), f, c.point)
	p := m.errors.WeighReadings(f)
	p.Add(moved, &c.working)
	b := certainty.Budget{certainty.SourceCatches: u.scatter.Component()}
	widest := p.AddTo(&b, c.e)
	return p, b.Combine(float64(c.r.MeanNozzleFlowRate), widest).WithParts(c.e, &p, nil, &u.scatter)
}

// variation is the uncertainty of the coefficient of variation: it follows catch i by
// r_i ((r_i - 1) / ((n - 1) CV) - CV / n), r_i being its flow over the plain mean.
func (c *catchRound) variation() certainty.Uncertainty {
	var sum, n, moved float64
	for i := range c.r.Catches {
		if c.r.Catches[i].InMean {
			n++
			sum += float64(c.r.Catches[i].NozzleFlowRateAtPressure)
		}
	}
	cv := float64(c.r.CoefficientOfVariation)
	var p certainty.Propagation
	for i := range c.r.Catches {
		if !c.r.Catches[i].InMean {
			continue
		}
		ratio := float64(c.r.Catches[i].NozzleFlowRateAtPressure) / sum * n
		follows := c.reference(i) / c.in.Catches[i].nozzles() / sum * n
		by := follows * ((ratio-1)/((n-1)*cv) - cv/n)
		own, m := c.own(&c.in.Catches[i], &c.r.Catches[i])
		p.Accumulate(by, &own)
		moved += by * m
	}
	p.Add(moved, &c.working)
	p.DropCancelled()
	return p.Uncertainty(c.e, 1)
}

// judge works out one catch that has a share of the mean, or none.
func (c *catchRound) judge(x *AcceptanceCatch, q *CatchResult, share float64, u *CatchUncertainty) {
	if x.Volume == 0 {
		c.judgeDry(x, q, u)
		return
	}
	p := x.flowErrors(c.e)
	u.NozzleFlowRate = p.Uncertainty(c.e, float64(q.NozzleFlowRate))
	n := 0.0
	if c.r.HasRating {
		n = x.exponent(c.in.Nozzle, q.SprayPressure)
		x.addPressure(&p, c.e, -n, &c.common)
		u.DeviationFromRated = p.Uncertainty(c.e, 1+float64(q.DeviationFromRated))
	}
	if !q.InMean {
		u.within(c.r, q.DeviationFromRated, 0, false)
		return
	}
	m, moved := c.own(x, q)
	own := m.ReadingVariance()
	m.RelateTo(&c.grouped, share)
	m.Add(moved-c.moved, &c.working)
	m.DropCancelled()
	u.DeviationFromMean = m.Uncertainty(c.e, 1+float64(q.DeviationFromMean))
	u.Common = certainty.Covariance{Scale: p.ScaleCovariance(&m, c.e), Reading: (1 - share) * own}
	if x.SprayPressure == 0 {
		u.Common.Reading += n * c.moved * c.common.ReadingVariance()
	}
	u.within(c.r, q.DeviationFromRated, q.DeviationFromMean, true)
}

// judgeDry works out one catch of nothing. Each of its figures follows its jug alone, by
// what the jug could not show as a share of what the figure is held against.
func (c *catchRound) judgeDry(x *AcceptanceCatch, q *CatchResult, u *CatchUncertainty) {
	against := func(of unit.FlowRate, reference float64) certainty.Uncertainty {
		p := x.dryErrors(c.e, of)
		return p.Uncertainty(c.e, reference)
	}
	u.NozzleFlowRate = against(1, 1) // any flow does: its share of it, times it
	if c.r.HasRating {
		sum, _ := x.ratedFlow(c.in.Nozzle, q.SprayPressure)
		u.DeviationFromRated = against(sum/unit.FlowRate(x.nozzles()), 1)
	}
	if q.InMean {
		u.DeviationFromMean = against(c.atCatch(x, q, c.r.MeanNozzleFlowRate), 1)
	}
	// One reading of one jug is all of both.
	u.Common.Reading = u.DeviationFromRated.Standard * u.DeviationFromMean.Standard
	u.within(c.r, q.DeviationFromRated, q.DeviationFromMean, q.InMean)
}

// within judges the deviations of a catch by their limits, where they have any: with both, by
// what the two have in common, that it lies within both limits at once.
func (u *CatchUncertainty) within(r *NozzleAcceptanceResult, fromRated, fromMean unit.Ratio, inMean bool) {
	rated, mean := r.Rated.Judged(fromRated, &u.DeviationFromRated), r.Mean.Judged(fromMean, &u.DeviationFromMean)
	n := certainty.Repeats{Readings: certainty.MeasureCatches}
	switch byRated, byMean := r.Rated.given(), r.Mean.given() && inMean; {
	case byRated && byMean:
		u.Within.JudgeBoth(rated, mean, u.Common, n)
	case byRated:
		u.Within.Judge(rated.Value, rated.Uncertainty, rated.Low, rated.High, n)
	case byMean:
		u.Within.Judge(mean.Value, mean.Uncertainty, mean.Low, mean.High, n)
	}
}

// Judged is a deviation with these limits.
func (l Limits) Judged(d unit.Ratio, of *certainty.Uncertainty) certainty.Judged {
	low, high := l.Ends()
	return certainty.Judged{Value: float64(d), Uncertainty: of, Low: low, High: high}
}

// exponent is the n of q = k p^n of the nozzles of a catch, about p.
func (c *AcceptanceCatch) exponent(common Nozzle, p unit.Pressure) float64 {
	if !c.mixed() {
		return common.exponent(p)
	}
	var flow, by float64
	for i := range c.NozzlesOnDrop {
		d := &c.NozzlesOnDrop[i]
		q := float64(d.Nozzle.FlowAt(p)) * d.count()
		flow += q
		by += q * d.Nozzle.exponent(p)
	}
	return by / flow
}
