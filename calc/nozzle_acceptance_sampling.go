package calc

import (
	"math"

	"wetrun/calc/certainty"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// reactionTime is what a hand on a stopwatch may be late by, the half second of
// ShortCatch. What is no further from the other catches than that is not worth
// another catch, whatever the statistics say: readings that all fall on one mark of
// the jug make an outlier of any that falls on the next.
const reactionTime = 0.5 * unit.Second

// pointsCaught is how many points were caught, and outside those of them with a
// catch that speaks. Catches of one drop, each of its nozzles alone, are one point.
func (in *NozzleAcceptanceInput) pointsCaught(speaks func(i int) bool) (s certainty.SamplingInput) {
	s.CatchPointsOnBoom, s.ReplaceAllAbove, s.ReplaceAllFrom = in.CatchPointsOnBoom, in.ReplaceAllAbove, in.ReplaceAllFrom
	counted := false // the point at hand is among those outside
	for i := range in.Catches {
		if !in.Catches[i].SamePoint || i == 0 {
			counted = false
			s.Caught++
			if p := in.Catches[i].Position.Index(); p >= 0 {
				s.CaughtOn[p]++
			}
		}
		if speaks != nil && !counted && speaks(i) {
			counted = true
			s.Outside++
		}
	}
	return s
}

// sample says what the catches tell of the boom, and which of them to catch again.
func (r *NozzleAcceptanceResult) sample(in NozzleAcceptanceInput) error {
	var err error
	r.points = in.pointsCaught(func(i int) bool {
		first := r.Catches[i].FirstStatus
		return r.Catches[i].Status != StatusWithin || first != "" && first != StatusWithin
	})
	r.Sampling, err = certainty.Sampling(r.points)
	r.Outliers = r.outliers(in)
	return err
}

// outliers looks among the catches of as many nozzles as most of them have: a drop
// of three scatters less than a nozzle alone. Drops of different nozzles are left
// out. The values are the flows at the working pressure.
func (r *NozzleAcceptanceResult) outliers(in NozzleAcceptanceInput) []certainty.Outlier {
	if len(in.Catches) < certainty.FewestForOutliers {
		return nil
	}
	usual := r.usualNozzles(in)
	flows, others, inMean := make([]float64, 0, len(in.Catches)), 0.0, 0
	for i := range r.Catches {
		if r.Catches[i].InMean {
			inMean++
		}
		if flow := float64(r.Catches[i].NozzleFlowRateAtPressure); r.comparable(in, i, usual) {
			flows = append(flows, flow)
			others += flow
		}
	}
	found := certainty.Outliers(flows)
	if 2*len(flows) <= inMean || len(found) == 0 {
		return nil
	}
	for _, x := range found {
		others -= flows[x.Value]
	}
	others /= float64(len(flows) - len(found)) // the mean of those that do not stand apart
	compared := make([]int, 0, len(flows))
	for i := range r.Catches {
		if r.comparable(in, i, usual) {
			compared = append(compared, i)
		}
	}
	kept := found[:0]
	for _, x := range found {
		i := compared[x.Value]
		late := float64(reactionTime / in.Catches[i].Time)
		if !finding.AtMost(math.Abs(finding.Deviation(flows[x.Value], others)), late) { // anything is far from nothing
			x.Value = i
			if x.Without >= 0 {
				x.Without = compared[x.Without]
			}
			r.Compared = compared
			kept = append(kept, x)
		}
	}
	return kept
}

// comparable tells whether a catch is one of those that outliers looks among.
func (r *NozzleAcceptanceResult) comparable(in NozzleAcceptanceInput, i int, usual float64) bool {
	return r.Catches[i].InMean && in.Catches[i].nozzles() == usual
}

// usualNozzles is how many nozzles more than half of the catches have, if any
// number is: the one that is left when every other number takes one away from it.
func (r *NozzleAcceptanceResult) usualNozzles(in NozzleAcceptanceInput) (usual float64) {
	lead := 0
	for i := range in.Catches {
		switch n := in.Catches[i].nozzles(); {
		case !r.Catches[i].InMean:
		case lead == 0:
			usual, lead = n, 1
		case n == usual:
			lead++
		default:
			lead--
		}
	}
	return usual
}
