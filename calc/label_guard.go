package calc

import (
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// TypicalGuard is how far below the label's maximum a rate has to be measured to keep it with
// 95 %, when it is measured as crews do: a dozen catches, two runs. Own judgement, from sheets
// worked out with DefaultInstrument: half as much to twice as much.
const TypicalGuard = 2.5 * unit.Percent

// WarnTargetNearLabel: whoever sets a sprayer to such a target will hardly be able to show
// that it keeps the label's maximum.
const WarnTargetNearLabel = "target_near_label_maximum"

// AimBelow is what to aim at, below a target that is less than two guards from the label's
// maximum: two guards, one for what is measured and one for how it comes out. Zero where the
// target is far enough, or one of them is not given.
func AimBelow(target, labelMaximum unit.ApplicationRate) unit.ApplicationRate {
	aim := labelMaximum * (1 - 2*unit.ApplicationRate(TypicalGuard))
	if labelMaximum == 0 || finding.AtMost(float64(target/aim), 1) {
		return 0
	}
	return aim
}
