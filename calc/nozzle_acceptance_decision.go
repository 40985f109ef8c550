package calc

import (
	"math"
	"slices"

	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// decide turns the verdicts into a decision and actions.
func (r *NozzleAcceptanceResult) decide(in NozzleAcceptanceInput) {
	points := in.pointsCaught(r.Catches)
	r.ProportionOutside = unit.Ratio(float64(points.Outside) / float64(points.Caught))
	if !r.HasRating {
		r.warn(finding.Member("nozzle"), WarnWornAlikeUnseen)
	}
	if r.Outside == 0 {
		return
	}
	below := 0
	for i := range r.Catches {
		if r.Catches[i].Status == StatusBelow {
			below++
		}
	}
	r.Systematic = r.Basis != MeanBasis && r.Outside > 1 && (below == 0 || below == r.Outside) && r.Even
	if r.Systematic {
		r.warn(finding.Member("catches"), WarnSystematicDeviation)
	}
	r.Decision = FixListed
	typical := r.typical()
	distorted := r.distorted(typical) // such a mean condemns nobody
	worn := r.pointsWorn(in, typical, distorted)
	tooMany := !finding.AtMost(float64(worn)/float64(points.Caught), float64(r.ReplaceAllAbove))
	if r.ReplaceAllFrom != 0 {
		tooMany = worn >= r.ReplaceAllFrom
	}
	if tooMany {
		r.Decision = ReplaceAll
		r.Actions = []Action{{-1, ReplaceAllAndRecatch}}
		return
	}
	judgeAgain := r.Outside > 1 && !finding.AtMost(float64(r.ProportionOutside), float64(r.ReplaceAllAbove))
	r.Actions = make([]Action, 0, r.Outside)
	for i := range r.Catches {
		x, off := &r.Catches[i], r.gross(i, typical)
		switch {
		case x.Status == StatusWithin:
		case off > 0:
			r.Actions = append(r.Actions, Action{i, CheckAndRecatch})
		case off < 0:
			r.Actions = append(r.Actions, Action{i, CleanAndRecatch})
		case distorted && r.byMean(x): // judged again when what pulls the mean is put right
			judgeAgain = true
		case x.Status == StatusBelow:
			r.Actions = append(r.Actions, Action{i, CleanAndRecatch})
		case in.Catches[i].nozzles() > 1:
			r.Actions = append(r.Actions, Action{i, CatchEachNozzle})
		default:
			r.Actions = append(r.Actions, Action{i, ReplaceNozzle})
		}
	}
	if judgeAgain && !r.Systematic && r.boomMean > 0 {
		r.warn(finding.Member("catches"), WarnJudgeAgain)
	}
}

// distorted tells that a plugged catch or a slip is in the mean that catches are held to.
func (r *NozzleAcceptanceResult) distorted(typical float64) bool {
	if r.Basis == RatedBasis {
		return false
	}
	return slices.ContainsFunc(r.Catches, func(x CatchResult) bool {
		return finding.Difference(math.Abs(float64(x.NozzleFlowRateAtPressure)-typical), float64(MostWear)*typical) > 0
	})
}

// typical is the median flow of the catches, which a gross one does not move as it moves
// the mean; zero where no catch is held to the mean.
func (r *NozzleAcceptanceResult) typical() float64 {
	if r.Basis == RatedBasis {
		return 0
	}
	var buffer [32]float64 // of most rounds
	flows := buffer[:0]
	for i := range r.Catches {
		flows = append(flows, float64(r.Catches[i].NozzleFlowRateAtPressure))
	}
	slices.Sort(flows)
	n := len(flows)
	return (flows[(n-1)/2] + flows[n/2]) / 2
}

// gross tells of a catch whether it gave more than any wear makes, 1, or so little that
// it is plugged, -1, beside its rating; where it is held to the mean, beside typical.
func (r *NozzleAcceptanceResult) gross(i int, typical float64) int {
	x := &r.Catches[i]
	off := float64(r.offBy(x))
	if r.byMean(x) && typical > 0 {
		off = (float64(x.NozzleFlowRateAtPressure) - typical) / typical
	}
	switch {
	case x.Status == StatusWithin:
	case !finding.AtMost(off, float64(MostWear)):
		return 1
	case !finding.AtMost(-off, float64(MostWear)):
		return -1
	}
	return 0
}

// pointsWorn is how many points speak for a new set: with a catch that gives too much,
// or is apart from a sound mean either way, since worn ones raise it above the others.
func (r *NozzleAcceptanceResult) pointsWorn(in NozzleAcceptanceInput, typical float64, distorted bool) (worn int) {
	counted := false // the point at hand is among them
	for i := range r.Catches {
		if !in.Catches[i].SamePoint {
			counted = false
		}
		x, byMean := &r.Catches[i], r.byMean(&r.Catches[i])
		speaks := x.Status == StatusAbove && !byMean || x.Status != StatusWithin && byMean && !distorted
		if !counted && speaks && r.gross(i, typical) == 0 {
			counted = true
			worn++
		}
	}
	return worn
}
