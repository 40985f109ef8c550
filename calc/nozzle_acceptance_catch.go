package calc

import (
	"math"

	"wetrun/calc/unit"
)

// measure fills in the flows and the statistics.
func (r *NozzleAcceptanceResult) measure(in NozzleAcceptanceInput) {
	r.Catches = make([]CatchResult, len(in.Catches))
	var flows, nozzles float64
	for i := range in.Catches {
		c, x := &in.Catches[i], &r.Catches[i]
		x.FlowRate = c.FlowRate()
		x.NozzleFlowRate = c.NozzleFlowRate()
		x.SprayPressure = c.pressure(in.SprayPressure)
		x.NozzleFlowRateAtPressure = x.NozzleFlowRate
		if r.SprayPressure != 0 && x.SprayPressure != 0 {
			x.NozzleFlowRateAtPressure = FlowAtPressure(x.NozzleFlowRate, x.SprayPressure, r.SprayPressure, SquareRoot)
		}
		flows += float64(x.NozzleFlowRateAtPressure) * c.nozzles()
		nozzles += c.nozzles()
		if c.short() {
			r.Warnings = append(r.Warnings, Warning{at("Catches", i, "Time"), WarnShortCatch})
		}
		if c.SprayPressure != 0 && in.Nozzle.PressureRange.holds(c.SprayPressure) == Outside {
			r.Warnings = append(r.Warnings, Warning{at("Catches", i, "SprayPressure"), WarnPressureOutsideRange})
		}
	}
	if in.SprayPressure != 0 && in.Nozzle.PressureRange.holds(in.SprayPressure) == Outside {
		r.Warnings = append(r.Warnings, Warning{"SprayPressure", WarnPressureOutsideRange})
	}
	r.MeanNozzleFlowRate = unit.FlowRate(flows / nozzles)
	if r.HasMean {
		r.CoefficientOfVariation = unit.Ratio(spread(r.Catches))
		r.Even = atMost(float64(r.CoefficientOfVariation), float64(r.Limit)/2)
		r.sides(in)
	}
}

// sides are the means of the left, the centre and the right, where caught.
func (r *NozzleAcceptanceResult) sides(in NozzleAcceptanceInput) {
	var flows, nozzles [Right + 1]float64
	var caught [Right + 1]int
	for i := range in.Catches {
		p := in.Catches[i].Position
		flows[p] += float64(r.Catches[i].NozzleFlowRateAtPressure) * in.Catches[i].nozzles()
		nozzles[p] += in.Catches[i].nozzles()
		caught[p]++
	}
	for p := Left; p <= Right; p++ {
		if caught[p] == 0 {
			continue
		}
		mean := flows[p] / nozzles[p]
		r.Sides = append(r.Sides, SideMean{p, caught[p], unit.FlowRate(mean), unit.Ratio(deviation(mean, float64(r.MeanNozzleFlowRate)))})
	}
}

// judgeCatch compares one catch with what it should be.
func (r *NozzleAcceptanceResult) judgeCatch(in NozzleAcceptanceInput, i int) {
	c, x := &in.Catches[i], &r.Catches[i]
	limit := float64(r.Limit)
	low, high := 0.0, math.Inf(1)
	var d float64 // from the reference that the status goes by
	if r.HasMean {
		x.DeviationFromMean = unit.Ratio(deviation(float64(x.NozzleFlowRateAtPressure), float64(r.MeanNozzleFlowRate)))
	}
	if r.HasRating {
		rated := float64(in.Nozzle.FlowAt(x.SprayPressure))
		x.DeviationFromRated = unit.Ratio(deviation(float64(x.NozzleFlowRate), rated))
		if r.Basis != MeanBasis {
			low, high = rated*(1-limit), rated*(1+limit)
			d = float64(x.DeviationFromRated)
		}
	}
	if r.Basis != RatedBasis {
		mean := float64(r.MeanNozzleFlowRate)
		if r.SprayPressure != 0 && x.SprayPressure != 0 {
			mean = float64(FlowAtPressure(r.MeanNozzleFlowRate, r.SprayPressure, x.SprayPressure, SquareRoot))
		}
		low, high = math.Max(low, mean*(1-limit)), math.Min(high, mean*(1+limit))
		if r.Basis == MeanBasis || judge(d, limit) == Within && judge(float64(x.DeviationFromMean), limit) == Outside {
			d = float64(x.DeviationFromMean)
		}
	}
	low = math.Max(low, 0)
	high = math.Max(high, low) // bases that do not meet leave no room at all
	x.AcceptableFlowRate = FlowRange{unit.FlowRate(low), unit.FlowRate(high)}
	all := c.nozzles() * float64(c.Time)
	x.AcceptableVolume = VolumeRange{unit.Volume(low * all), unit.Volume(high * all)}
	switch {
	case judge(d, limit) == Within:
		x.LargestHiddenDeviation = unit.Ratio(hidden(c.nozzles(), d, limit))
		r.LargestHiddenDeviation = max(r.LargestHiddenDeviation, x.LargestHiddenDeviation)
	case d < 0:
		x.Status = StatusBelow
	default:
		x.Status = StatusAbove
	}
	if x.Status != StatusWithin {
		r.Outside++
	}
}

// hidden is how far one of n nozzles could be from the reference when their mean
// is off by d and each other lies within limit. A nozzle cannot give less than
// nothing, so the low side ends at 1.
func hidden(n, d, limit float64) float64 {
	if n < 2 {
		return 0
	}
	return math.Max(n*d+(n-1)*limit, math.Min((n-1)*limit-n*d, 1))
}

// decide turns the verdicts into a decision and actions.
func (r *NozzleAcceptanceResult) decide(in NozzleAcceptanceInput) {
	r.ProportionOutside = unit.Ratio(float64(r.Outside) / float64(r.Tested))
	if r.Outside == 0 {
		return
	}
	below := 0
	for i := range r.Catches {
		if r.Catches[i].Status == StatusBelow {
			below++
		}
	}
	if r.Basis != MeanBasis && r.Outside > 1 && (below == 0 || below == r.Outside) && r.Even {
		r.Warnings = append(r.Warnings, Warning{"Catches", WarnSystematicDeviation})
	}
	if !atMost(float64(r.ProportionOutside), float64(r.ReplaceAllAbove)) {
		r.Decision = ReplaceAll
		r.Actions = []Action{{-1, ReplaceAllAndRecatch}}
		return
	}
	r.Decision = FixListed
	r.Actions = make([]Action, 0, r.Outside)
	for i := range r.Catches {
		switch {
		case r.Catches[i].Status == StatusBelow:
			r.Actions = append(r.Actions, Action{i, CleanAndRecatch})
		case r.Catches[i].Status == StatusAbove && in.Catches[i].nozzles() > 1:
			r.Actions = append(r.Actions, Action{i, CatchEachNozzle})
		case r.Catches[i].Status == StatusAbove:
			r.Actions = append(r.Actions, Action{i, ReplaceNozzle})
		}
	}
}

// ranges gives the one acceptable flow where the catches share a pressure.
func (r *NozzleAcceptanceResult) ranges(in NozzleAcceptanceInput) {
	if r.HasRating && r.SprayPressure != 0 {
		r.RatedFlowRateAtPressure = in.Nozzle.FlowAt(r.SprayPressure)
	}
	if r.SprayPressure == 0 && r.HasRating {
		return
	}
	low, high, limit := 0.0, math.Inf(1), float64(r.Limit)
	if r.Basis != MeanBasis {
		low, high = float64(r.RatedFlowRateAtPressure)*(1-limit), float64(r.RatedFlowRateAtPressure)*(1+limit)
	}
	if r.Basis != RatedBasis {
		low = math.Max(low, float64(r.MeanNozzleFlowRate)*(1-limit))
		high = math.Min(high, float64(r.MeanNozzleFlowRate)*(1+limit))
	}
	low = math.Max(low, 0)
	r.AcceptableFlowRate = FlowRange{unit.FlowRate(low), unit.FlowRate(math.Max(high, low))}
}
