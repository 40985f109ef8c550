package calc

import (
	"math"

	"wetrun/calc/certainty"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// measure fills in the flows and the statistics.
func (r *NozzleAcceptanceResult) measure(in NozzleAcceptanceInput) {
	r.Catches = make([]CatchResult, len(in.Catches))
	var flows, nozzles, mixedFlows, mixedNozzles float64
	for i := range in.Catches {
		c, x := &in.Catches[i], &r.Catches[i]
		r.flow(&in, c, x)
		if c.short() {
			r.warn(finding.Item("catches", i).Member("time"), WarnShortCatch)
		}
		if c.mixed() {
			mixedFlows += float64(x.NozzleFlowRateAtPressure) * c.nozzles()
			mixedNozzles += c.nozzles()
			r.warnDrop(c, i)
			continue
		}
		x.InMean = r.HasMean
		flows += float64(x.NozzleFlowRateAtPressure) * c.nozzles()
		nozzles += c.nozzles()
		if c.SprayPressure != 0 {
			r.warnPressure(in, finding.Item("catches", i).Member("sprayPressure"), c.SprayPressure)
		}
	}
	if in.SprayPressure != 0 {
		r.warnPressure(in, finding.Member("sprayPressure"), in.SprayPressure)
	}
	r.Warnings = append(r.Warnings, in.Nozzle.warnChart(finding.Member("nozzle"))...)
	if nozzles > 0 {
		r.MeanNozzleFlowRate = unit.FlowRate(flows / nozzles)
	}
	if flows+mixedFlows == 0 {
		r.warn(finding.Member("catches"), WarnAllDry)
	}
	r.boomMean = unit.FlowRate((flows + mixedFlows) / (nozzles + mixedNozzles))
	if r.HasMean {
		r.CoefficientOfVariation = unit.Ratio(coefficientOfVariation(r.Catches))
		r.Even = mixedNozzles == 0 && finding.AtMost(float64(r.CoefficientOfVariation), r.alike())
		r.sides(in)
	}
}

// flow fills in the flows of a catch.
func (r *NozzleAcceptanceResult) flow(in *NozzleAcceptanceInput, c *AcceptanceCatch, x *CatchResult) {
	x.FlowRate = c.FlowRate()
	x.NozzleFlowRate = x.FlowRate / unit.FlowRate(c.nozzles())
	x.SprayPressure = c.pressure(in.SprayPressure)
	x.NozzleFlowRateAtPressure = x.NozzleFlowRate
	if x.SprayPressure != 0 {
		x.NozzleFlowRateAtPressure = c.move(in.Nozzle, x.NozzleFlowRate, x.SprayPressure, r.SprayPressure)
	}
}

// warnPressure reports what is unusual of the common pressure, or of a catch's own.
func (r *NozzleAcceptanceResult) warnPressure(in NozzleAcceptanceInput, place finding.Place, p unit.Pressure) {
	n := in.Nozzle
	if unusualPressure(p) {
		r.warn(place, WarnUnusualPressure)
	}
	if n.PressureRange.holds(p) == finding.Outside {
		r.warn(place, WarnPressureOutsideRange)
	}
	if n.chartHolds(p) == finding.Outside {
		r.warn(place, WarnOutsideFlowChart)
	}
	if n.farFromRating(p) {
		r.warn(place, WarnFarFromRating)
	}
	if len(in.Catches) > 1 && len(n.FlowChart) == 0 && farApart(p, r.SprayPressure) {
		r.warn(place, WarnFarPressure)
	}
}

// sides are the means of the left, the centre and the right, where caught.
func (r *NozzleAcceptanceResult) sides(in NozzleAcceptanceInput) {
	var flows, nozzles [len(certainty.Positions)]float64
	var caught [len(certainty.Positions)]int
	for i := range in.Catches {
		p := in.Catches[i].Position.Index()
		if in.Catches[i].mixed() {
			continue
		}
		flows[p] += float64(r.Catches[i].NozzleFlowRateAtPressure) * in.Catches[i].nozzles()
		nozzles[p] += in.Catches[i].nozzles()
		caught[p]++
	}
	r.Sides = make([]SideMean, 0, len(certainty.Sides))
	for p, side := range certainty.Positions {
		if side == certainty.Unplaced || caught[p] == 0 {
			continue
		}
		mean := flows[p] / nozzles[p]
		r.Sides = append(r.Sides, SideMean{side, caught[p], unit.FlowRate(mean), unit.Ratio(finding.Deviation(mean, float64(r.MeanNozzleFlowRate)))})
	}
}

// judgeCatch compares one catch with what it should be.
func (r *NozzleAcceptanceResult) judgeCatch(in *NozzleAcceptanceInput, i int) {
	c, x := &in.Catches[i], &r.Catches[i]
	rated, mean, alike := r.compare(in, c, x)
	x.AcceptableFlowRate = r.acceptable(rated, mean)
	all := c.nozzles() * float64(c.Time)
	x.AcceptableVolume = VolumeRange{
		unit.Volume(float64(x.AcceptableFlowRate.Low) * all), unit.Volume(float64(x.AcceptableFlowRate.High) * all),
	}
	if c.First != nil {
		_, first := r.first(in, c)
		x.FirstStatus = first.Status
	}
	if x.Status != StatusWithin {
		r.Outside++
		return
	}
	x.LargestHiddenDeviation, x.HiddenFrom = unit.Ratio(r.Rated.hidden(alike, float64(x.DeviationFromRated))), RatedBasis
	if byMean := unit.Ratio(r.Mean.hidden(alike, float64(x.DeviationFromMean))); byMean > x.LargestHiddenDeviation {
		x.LargestHiddenDeviation, x.HiddenFrom = byMean, MeanBasis
	}
	r.LargestHiddenDeviation = max(r.LargestHiddenDeviation, x.LargestHiddenDeviation)
}

// compare fills in how far a catch is from its references, and where it lies. The references
// are of one nozzle, at the pressure of the catch; so many of its smallest nozzle as alike
// says would give as much.
func (r *NozzleAcceptanceResult) compare(in *NozzleAcceptanceInput, c *AcceptanceCatch, x *CatchResult) (rated, mean unit.FlowRate, alike float64) {
	alike = c.nozzles()
	if r.HasRating {
		sum, least := c.ratedFlow(in.Nozzle, x.SprayPressure)
		rated = least
		if c.mixed() {
			rated = sum / unit.FlowRate(c.nozzles())
			x.RatedFlowRateAtPressure, alike = sum, float64(sum/least)
		}
		x.DeviationFromRated = unit.Ratio(finding.Deviation(float64(x.NozzleFlowRate), float64(rated)))
	}
	fromMean := unit.Ratio(-1) // of a dry catch among dry ones, which have no mean
	if x.InMean {
		mean = r.MeanNozzleFlowRate
		if x.SprayPressure != 0 {
			mean = in.Nozzle.move(mean, r.SprayPressure, x.SprayPressure)
		}
		x.DeviationFromMean = unit.Ratio(finding.Deviation(float64(x.NozzleFlowRateAtPressure), float64(r.MeanNozzleFlowRate)))
		fromMean = x.DeviationFromMean
	}
	if x.Status = r.Rated.status(x.DeviationFromRated); x.Status == StatusWithin {
		x.Status = r.Mean.status(fromMean)
	}
	return rated, mean, alike
}

// first is the catch of the first round that a catch stands in for, held against what the
// round is held against now. One that was read without a pressure had that of the follow-up.
func (r *NozzleAcceptanceResult) first(in *NozzleAcceptanceInput, c *AcceptanceCatch) (first AcceptanceCatch, x CatchResult) {
	first = *c.First
	if first.SprayPressure == 0 && in.SprayPressure == 0 {
		first.SprayPressure, first.Gauge = c.SprayPressure, c.Gauge
	}
	r.flow(in, &first, &x)
	x.InMean = r.HasMean
	r.compare(in, &first, &x)
	return first, x
}

// checkFirst looks at such a catch.
func (in *NozzleAcceptanceInput) checkFirst(i int) (v finding.Invalid) {
	first := in.Catches[i].First
	first.checkDry(&v, "catches", i)
	first.checkInstruments(&v, &in.Measuring, "catches", i)
	at := finding.Item("catches", i)
	return v.Moved([]finding.Move{{From: at, To: at.Member("first")}})
}

// warnHidden warns of the drop that can hide the most, among those that lean. A new set
// leaves nothing to look into.
func (r *NozzleAcceptanceResult) warnHidden() {
	r.Hides = -1
	if r.Decision == ReplaceAll || r.Decision == NotJudged {
		return
	}
	var most unit.Ratio
	for i := range r.Catches {
		x := &r.Catches[i]
		leans := r.Rated.leans(x.DeviationFromRated) || r.Mean.leans(x.DeviationFromMean)
		if leans && x.LargestHiddenDeviation > most {
			r.Hides, most = i, x.LargestHiddenDeviation
		}
	}
	if r.Hides >= 0 {
		r.warn(finding.Item("catches", r.Hides).Member("volume"), WarnHiddenDeviation)
	}
}

// coefficientOfVariation is the coefficient of variation of per-nozzle flows with n - 1, in two
// passes, the second corrected for the rounding of the first.
func coefficientOfVariation(catches []CatchResult) float64 {
	var n, sum float64
	for i := range catches {
		if catches[i].InMean {
			n++
			sum += float64(catches[i].NozzleFlowRateAtPressure)
		}
	}
	mean := sum / n
	var squares, rest float64
	for i := range catches {
		if catches[i].InMean {
			d := float64(catches[i].NozzleFlowRateAtPressure) - mean
			squares += d * d
			rest += d
		}
	}
	sd := math.Sqrt(math.Max(0, squares-rest*rest/n) / (n - 1))
	if sd < finding.Slack*mean {
		return 0
	}
	return sd / mean
}

// common gives the one rated and the one acceptable flow, where the catches share a
// pressure or there is a common one.
func (r *NozzleAcceptanceResult) common(in NozzleAcceptanceInput) {
	if r.HasRating {
		r.RatedFlowRateAtPressure = in.Nozzle.FlowAt(r.SprayPressure)
	}
	r.AcceptableFlowRate = r.acceptable(r.RatedFlowRateAtPressure, r.MeanNozzleFlowRate)
}
