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
//
// Where the mean is limited one way only, what pulls it the other way is seen to as well:
// low as far as high is limited, since to clean costs nothing, and high beyond MostWear,
// which is a slip.
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
	limits := r.Mean
	if limits.Below == 0 {
		limits.Below = limits.Above
	}
	if limits.Above == 0 && limits.given() {
		limits.Above = MostWear
	}
	all := make([]lean, len(r.Catches))
	for i := range all {
		x, l := &r.Catches[i], &all[i]
		fromMean := unit.Ratio(finding.Deviation(float64(x.NozzleFlowRateAtPressure), reference))
		*l = lean{side: r.Rated.status(x.DeviationFromRated), off: x.DeviationFromRated}
		if l.side == StatusWithin {
			l.side, l.off = limits.status(fromMean), fromMean
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
	u := &r.Uncertainty.Catches[i]
	of := CatchUncertainty{DeviationFromRated: u.DeviationFromRated, DeviationFromMean: u.DeviationFromMean.ForResult(1 + float64(fromMean)), Common: u.Common}
	of.within(r, r.Catches[i].DeviationFromRated, fromMean, true)
	return of.Within.Conformance == certainty.SurelyOutside
}

// reference is what the mean of the catches is without what pulls it: the median, those
// beyond the limit from it left out, and the median of the others. What is dry is left out
// from the first. Of two groups, which are judged with a rating alone, the one nearer to it
// is right.
func (r *NozzleAcceptanceResult) reference(in *NozzleAcceptanceInput) float64 {
	if !r.Mean.given() {
		return float64(r.MeanNozzleFlowRate)
	}
	if low, high := r.twoGroups(); high > 0 {
		if rated := float64(in.Nozzle.FlowAt(r.SprayPressure)); high-rated < rated-low {
			return high
		}
		return low
	}
	var buffer [32]float64 // of most rounds
	flows := r.sortedFlows(buffer[:0])
	for flows[0] == 0 {
		flows = flows[1:]
	}
	middle := median(flows)
	within := slices.DeleteFunc(flows, func(q float64) bool {
		return r.Mean.status(unit.Ratio(finding.Deviation(q, middle))) != StatusWithin
	})
	if len(within) == 0 {
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
// than the limit, the smaller with a quarter of the catches or more, and with two at least;
// else zero. They part at the widest gap. What is off the median by more than MostWear is
// plugged or a slip, and in neither.
func (r *NozzleAcceptanceResult) twoGroups() (low, high float64) {
	var buffer [32]float64
	flows := r.sortedFlows(buffer[:0])
	middle := median(flows)
	flows = slices.DeleteFunc(flows, func(q float64) bool {
		return finding.Difference(math.Abs(q-middle), float64(MostWear)*middle) > 0
	})
	if len(flows) < 4 {
		return 0, 0
	}
	part := 1
	for i := 2; i < len(flows); i++ {
		if flows[i]*flows[part-1] > flows[part]*flows[i-1] {
			part = i
		}
	}
	low, high = mean(flows[:part]), mean(flows[part:])
	smaller := min(part, len(flows)-part)
	if 4*smaller < len(flows) || smaller < 2 || finding.AtMost(finding.Deviation(high, low), float64(r.Limit)) {
		return 0, 0
	}
	return low, high
}

func mean(values []float64) (m float64) {
	for _, x := range values {
		m += x / float64(len(values))
	}
	return m
}
