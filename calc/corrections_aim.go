package calc

import (
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// lawful are the rates that the label lets a plan predict, so that they are kept when they
// are measured again: within its maximum and its minimum by Guard.
func (in CorrectionsInput) lawful() span {
	return span{low: float64(in.LabelMinimum * unit.ApplicationRate(1+in.Guard)), high: float64(in.LabelMaximum * unit.ApplicationRate(1-in.Guard))}
}

// aim is the rate that plans are solved for: the target, where the label with Guard lets
// it be predicted. Else it is twice the guard within the label's limit, and where that is
// out of tolerance the middle of what is left. Where nothing is left the reason says so.
//
// Own judgement, no published source: at twice the guard a plan that misses its aim by as
// much again is still lawful, and the middle is furthest from either end.
func (in CorrectionsInput) aim() (unit.ApplicationRate, RejectionReason) {
	target, off := in.TargetApplicationRate, unit.ApplicationRate(in.RateTolerance)
	within := span{low: float64(target * (1 - off)), high: float64(target * (1 + off))}
	within = within.narrowed(in.lawful()).narrowed(span{low: float64(in.SprayVolumeRange.Low), high: float64(in.SprayVolumeRange.High)})
	aim, reason := target, ReasonOverLabelMaximum
	switch in.lawful().bound(float64(target)).end {
	case maximum:
		aim = in.LabelMaximum * unit.ApplicationRate(1-2*in.Guard)
	case minimum:
		aim, reason = in.LabelMinimum*unit.ApplicationRate(1+2*in.Guard), ReasonUnderLabelMinimum
	}
	if within.apart() {
		return 0, reason
	}
	if aim != target && within.bound(float64(aim)).atLimit {
		aim = unit.ApplicationRate(within.low+within.high) / 2
	}
	return aim, ""
}

func (in CorrectionsInput) overLabel(rate unit.ApplicationRate) bool {
	return in.LabelMaximum != 0 && !finding.AtMost(float64(rate/in.LabelMaximum), 1)
}

func (in CorrectionsInput) underLabel(rate unit.ApplicationRate) bool {
	return in.LabelMinimum != 0 && !finding.AtMost(float64(in.LabelMinimum/rate), 1)
}
