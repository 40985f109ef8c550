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

// leans of all catches, when the mean is taken to be reference.
func (r *NozzleAcceptanceResult) leans(reference float64) []lean {
	all := make([]lean, len(r.Catches))
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
		l.sure = l.side != StatusWithin && r.surely(i, fromMean)
	}
	return all
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
	var of CatchUncertainty
	of.within(float64(x.DeviationFromRated), r.Rated, &u.DeviationFromRated)
	byMean := u.DeviationFromMean.ForResult(1 + float64(fromMean))
	of.within(float64(fromMean), r.Mean, &byMean)
	return of.Within.Conformance == certainty.SurelyOutside
}

// reference is what the mean of the catches is without what pulls it: the median, those
// beyond the limit from it left out, and the median of the others. What is dry is left out
// from the first. Where nothing is left out, nothing pulls the mean, and it is the mean itself.
// Of two groups the one nearer to the rating is right.
func (r *NozzleAcceptanceResult) reference(in *NozzleAcceptanceInput) float64 {
	mean := float64(r.MeanNozzleFlowRate)
	if !r.Mean.given() || !r.HasMean {
		return mean
	}
	if low, high, two := r.twoGroups(); two && r.HasRating {
		if rated := float64(in.Nozzle.FlowAt(r.SprayPressure)); high-rated < rated-low {
			return high
		}
		return low
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

// twoGroups are the means of two groups that the catches fall into, if they are further apart
// than the limit, the smaller with a quarter of the catches or more, and with two at least.
// They part at the widest gap. What is off the median by more than MostWear is plugged or a
// slip, and in neither.
func (r *NozzleAcceptanceResult) twoGroups() (low, high float64, two bool) {
	if !r.HasMean {
		return 0, 0, false
	}
	var buffer [32]float64
	flows := r.sortedFlows(buffer[:0])
	middle := median(flows)
	flows = slices.DeleteFunc(flows, func(q float64) bool {
		return finding.Difference(math.Abs(q-middle), float64(MostWear)*middle) > 0
	})
	if len(flows) < 4 || middle == 0 {
		return 0, 0, false
	}
	part := 1
	for i := 2; i < len(flows); i++ {
		if flows[i]*flows[part-1] > flows[part]*flows[i-1] {
			part = i
		}
	}
	low, high = mean(flows[:part]), mean(flows[part:])
	smaller := min(part, len(flows)-part)
	return low, high, 4*smaller >= len(flows) && smaller > 1 && !finding.AtMost(finding.Deviation(high, low), float64(r.Limit))
}

func mean(values []float64) (m float64) {
	for _, x := range values {
		m += x / float64(len(values))
	}
	return m
}
