package calc

import (
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// lawful are the rates that the label lets a plan predict, so that they are kept when they
// are measured again: within its maximum and its minimum by Guard.
func (in CorrectionsInput) lawful() span {
	guard := unit.ApplicationRate(min(in.Guard, mostGuard))
	return span{low: float64(in.LabelMinimum * (1 + guard)), high: float64(in.LabelMaximum * (1 - guard))}
}

// mostGuard leaves a maximum, however badly the rate is known: zero would be none.
const mostGuard = 99 * unit.Percent

// takeAim finds the rate that plans are solved for: the target, where the label with Guard
// lets it be predicted. Else it is twice the guard within the label's limit, and where that
// is out of tolerance the middle of what is left. Where nothing is left the reason says so.
//
// Own judgement, no published source: at twice the guard a plan that misses its aim by as
// much again is still lawful, and the middle is furthest from either end.
func (x *planner) takeAim() RejectionReason {
	target, off := x.in.TargetApplicationRate, unit.ApplicationRate(x.in.RateTolerance)
	allowed := span{low: float64(target * (1 - off)), high: float64(target * (1 + off))}
	allowed = allowed.narrowed(x.in.lawful()).narrowed(span{low: float64(x.in.SprayVolumeRange.Low), high: float64(x.in.SprayVolumeRange.High)})
	aim, reason := target, ReasonOverLabelMaximum
	switch x.in.lawful().bound(float64(target)).end {
	case maximum:
		aim = x.in.LabelMaximum * unit.ApplicationRate(1-2*x.in.Guard)
	case minimum:
		aim, reason = x.in.LabelMinimum*unit.ApplicationRate(1+2*x.in.Guard), ReasonUnderLabelMinimum
	}
	if allowed.apart() {
		return reason
	}
	if aim != target && allowed.bound(float64(aim)).atLimit {
		aim = unit.ApplicationRate(allowed.low+allowed.high) / 2
	}
	x.aim, x.r.Aim = float64(aim), aim
	x.r.Allowed = RateRange{unit.ApplicationRate(allowed.low), unit.ApplicationRate(allowed.high)}
	return ""
}

func (in CorrectionsInput) overLabel(rate unit.ApplicationRate) bool {
	return in.LabelMaximum != 0 && !finding.AtMost(float64(rate/in.LabelMaximum), 1)
}

func (in CorrectionsInput) underLabel(rate unit.ApplicationRate) bool {
	return in.LabelMinimum != 0 && !finding.AtMost(float64(in.LabelMinimum/rate), 1)
}
