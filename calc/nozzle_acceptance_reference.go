package calc

import (
	"math"
	"slices"

	"wetrun/calc/certainty"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// A lean is how a catch truly lies: what is done about it goes by that. From its rating it
// lies as its status says. From the mean it lies as it does without what pulls the mean:
// a plugged drop condemns nobody, and two worn ones do not make the others dirty.
type lean struct {
	side  Status
	off   unit.Ratio // from what side goes by
	sure  bool       // beyond the limit as surely as was asked for; only of what is outside
	sized bool       // one of a group that another size explains
}

// gross tells that a catch gave more than any wear makes.
func (l *lean) gross() bool {
	return l.side == StatusAbove && !finding.AtMost(float64(l.off), float64(MostWear))
}

// leans of all catches. Where nothing but the mean of all puts a catch outside, it goes by
// that.
func (r *NozzleAcceptanceResult) leans(in *NozzleAcceptanceInput) []lean {
	all := make([]lean, len(in.Catches))
	reference := r.reference()
	if outside := r.lean(all, reference); outside == 0 {
		r.lean(all, float64(r.MeanNozzleFlowRate))
	}
	return all
}

// lean fills in how catches lie when the mean is taken to be reference, and counts those
// outside.
func (r *NozzleAcceptanceResult) lean(all []lean, reference float64) (outside int) {
	for i := range all {
		x, l := &r.Catches[i], &all[i]
		fromMean := unit.Ratio(0)
		if x.InMean {
			fromMean = unit.Ratio(finding.Deviation(float64(x.NozzleFlowRateAtPressure), reference))
		}
		*l = lean{side: r.Rated.status(x.DeviationFromRated), off: x.DeviationFromRated}
		if byMean := r.Mean.status(fromMean); l.side == StatusWithin && byMean != StatusWithin {
			l.side, l.off = byMean, fromMean
		}
		if l.side != StatusWithin {
			outside++
			l.sure = r.surely(i, fromMean)
		}
	}
	return outside
}

// surely tells that a catch is outside as surely as was asked for: without uncertainties
// what is outside is.
func (r *NozzleAcceptanceResult) surely(i int, fromMean unit.Ratio) bool {
	if r.Uncertainty == nil {
		return true
	}
	x, u := &r.Catches[i], &r.Uncertainty.Catches[i]
	if x.FlowRate == 0 || !x.InMean || !r.Mean.given() || fromMean == x.DeviationFromMean {
		return u.Within.Conformance == certainty.SurelyOutside
	}
	of := CatchUncertainty{DeviationFromRated: u.DeviationFromRated, DeviationFromMean: u.DeviationFromMean.ForResult(1 + float64(fromMean)), Common: u.Common}
	of.within(r, x.DeviationFromRated, fromMean, true)
	return of.Within.Conformance == certainty.SurelyOutside
}

// reference is what the mean of the catches is without what pulls it: the median, those
// beyond the limit from it left out, and the median of the others. What is dry is left out
// from the first. Where nothing is left out, nothing pulls the mean, and it is the mean itself.
func (r *NozzleAcceptanceResult) reference() float64 {
	mean := float64(r.MeanNozzleFlowRate)
	if !r.Mean.given() || !r.HasMean {
		return mean
	}
	var buffer [32]float64 // of most rounds
	flows := r.sortedFlows(buffer[:0])
	all := len(flows)
	for flows[0] == 0 {
		flows = flows[1:]
	}
	middle := median(flows)
	either := r.Mean // a way that is not limited is as wide as the other
	if either.Below == 0 {
		either.Below = either.Above
	}
	if either.Above == 0 {
		either.Above = either.Below
	}
	within := slices.DeleteFunc(flows, func(q float64) bool {
		return either.status(unit.Ratio(finding.Deviation(q, middle))) != StatusWithin
	})
	switch len(within) {
	case all:
		return mean
	case 0:
		return middle
	}
	return median(within)
}

// sortedFlows are those in the mean, at the working pressure, from the lowest up.
func (r *NozzleAcceptanceResult) sortedFlows(flows []float64) []float64 {
	for i := range r.Catches {
		if x := &r.Catches[i]; x.InMean {
			flows = append(flows, float64(x.NozzleFlowRateAtPressure))
		}
	}
	slices.Sort(flows)
	return flows
}

// median of sorted values.
func median(sorted []float64) float64 {
	n := len(sorted)
	return (sorted[(n-1)/2] + sorted[n/2]) / 2
}

// twoGroups tells that the catches fall into two groups whose means are further apart than
// the limit, the smaller with a quarter of them or more, and with two at least. They part
// at the widest gap. What is off the median by more than MostWear is plugged or a slip, and
// in neither.
func (r *NozzleAcceptanceResult) twoGroups() bool {
	if !r.HasMean {
		return false
	}
	var buffer [32]float64
	flows := r.sortedFlows(buffer[:0])
	middle := median(flows)
	flows = slices.DeleteFunc(flows, func(q float64) bool {
		return finding.Difference(math.Abs(q-middle), float64(MostWear)*middle) > 0
	})
	if len(flows) < 4 {
		return false
	}
	part := 1
	for i := 2; i < len(flows); i++ {
		if flows[i]*flows[part-1] > flows[part]*flows[i-1] {
			part = i
		}
	}
	smaller := min(part, len(flows)-part)
	if 4*smaller < len(flows) || smaller < 2 {
		return false
	}
	return !finding.AtMost(finding.Deviation(mean(flows[part:]), mean(flows[:part])), float64(r.Limit))
}

func mean(values []float64) (m float64) {
	for _, x := range values {
		m += x / float64(len(values))
	}
	return m
}
