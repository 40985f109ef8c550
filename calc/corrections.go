package calc

import (
	"cmp"
	"math"
	"slices"

	"wetrun/calc/unit"
)

// CorrectionsInput is what was measured, what is wanted, and what is possible.
type CorrectionsInput struct {
	Measured              MeasuredState
	TargetApplicationRate unit.ApplicationRate
	RateTolerance         unit.Ratio           // zero stands for DefaultRateTolerance
	LabelMaximum          unit.ApplicationRate // zero when not given; it has no tolerance
	BoomEven              Evenness
	Limits                CorrectionLimits
	PressureExponent      float64 // zero stands for SquareRoot
	// RateController tells that a controller in automatic holds the rate, so that a
	// change of speed or pressure by hand changes nothing.
	RateController bool
}

// MeasuredState is the state in which the rate was measured.
type MeasuredState struct {
	ApplicationRate unit.ApplicationRate
	GroundSpeed     unit.Speed
	SprayPressure   unit.Pressure // zero when not known: no plan by pressure then
}

// CorrectionLimits are what tractor, ground, nozzle and label allow. Zero when not
// known.
type CorrectionLimits struct {
	GroundSpeed   SpeedRange
	SprayPressure PressureRange
}

// A SpeedRange is a lowest and a highest speed.
type SpeedRange struct{ Low, High unit.Speed }

// Evenness tells whether the boom was found in order.
type Evenness uint8

// What is known of the boom.
const (
	EvennessUnknown Evenness = iota
	BoomEven
	BoomUneven
)

// CorrectionsResult holds the plans, least change first, and what was rejected.
type CorrectionsResult struct {
	Deviation        unit.Ratio // of the measured rate from the target
	RateTolerance    unit.Ratio // the one applied
	Within           Verdict
	OverLabelMaximum bool
	Decision         CorrectionDecision
	Plans            []Plan
	Rejected         []Rejection
	Warnings         []Warning
}

// CorrectionDecision is what follows.
type CorrectionDecision uint8

// The decisions.
const (
	NoCorrection        CorrectionDecision = iota // within tolerance and lawful
	ChoosePlan                                    // at least one plan is inside the limits
	RepairFirst                                   // the boom is uneven: no rate to correct yet
	CalibrateController                           // the controller holds the rate
	OutOfReach                                    // no single change inside the limits is enough
)

// Change is what a plan changes.
type Change uint8

// The changes.
const (
	ChangeSpeed Change = iota
	ChangePressure
)

// A Plan is one change, with what it should lead to. Whatever is changed, the rate
// is measured again before it is trusted.
type Plan struct {
	Change                   Change
	GroundSpeed              unit.Speed    // of a speed plan
	SprayPressure            unit.Pressure // of a pressure plan
	PredictedApplicationRate unit.ApplicationRate
	Deviation                unit.Ratio // of the prediction from the target
	AtLimit                  bool       // a limit stops it short of the target
	RelativeChange           unit.Ratio // new over old less 1
}

// A Rejection is a change that was considered and cannot be made.
type Rejection struct {
	Change                 Change
	Reason                 Reason
	NeededGroundSpeed      unit.Speed
	NeededPressure         unit.Pressure
	SpeedLimit             unit.Speed           // the limit in the way
	PressureLimit          unit.Pressure        // the limit in the way
	ApplicationRateAtLimit unit.ApplicationRate // zero when no limit is in the way
	DeviationAtLimit       unit.Ratio
}

// Reason is why a change was rejected.
type Reason uint8

// The reasons.
const (
	AboveMaximum Reason = iota
	BelowMinimum
	Uneven                 // repair the boom first
	Controlled             // the rate controller would undo it
	PressureNotMeasured    // nothing to start from
	PressureLimitsNotGiven // a nozzle works in its own range only
	AtLimitOverLabel       // in tolerance at the limit, but over the label maximum
)

// Codes of Corrections.
const (
	CodeAboveLabelMaximum = "above_label_maximum" // the target itself is not lawful
	CodeOutOfRange        = "out_of_range"        // an exponent that no nozzle has

	WarnSpeedLimitsNotGiven = "speed_limits_not_given"
	WarnEvennessUnknown     = "boom_evenness_unknown"
)

// Corrections finds the single changes that bring a rate R to its target T:
//
//	speed     v' = v x R / T        (the rate goes with 1 / speed)
//	pressure  p' = p x (T / R)^(1/n) (the flow goes with pressure^n)
//
// A plan aims at the target exactly. Where a limit stops it short, it stands at
// the limit if the rate there is within the tolerance and not over the label
// maximum; else it is rejected, with the numbers. An uneven boom gets no plan, and
// neither does a rate that a controller holds. A rate within tolerance and not over
// the label maximum needs none, unless the boom is uneven: a mean that is right says
// nothing of its parts.
//
// Measured rate and speed and the target must be above zero, a target may not be
// above the label maximum (above_label_maximum), ranges may not be inverted
// (range_inverted), an exponent lies from 0.1 to 1 (out_of_range).
//
// Source: speed for another rate, Montana State University Extension MT 2000-14
// (new mph = GPM x 5940 / (GPA x W)); pressure by p2 = p1 (Q2/Q1)^2, Croatian
// advisory sheet https://dokumen.tips/documents/izracun-doze-koncentracije.html
func Corrections(in CorrectionsInput) (CorrectionsResult, error) {
	if err := in.check(); err != nil {
		return CorrectionsResult{}, err
	}
	if in.PressureExponent == 0 {
		in.PressureExponent = SquareRoot
	}
	r := CorrectionsResult{RateTolerance: in.RateTolerance}
	if r.RateTolerance == 0 {
		r.RateTolerance = DefaultRateTolerance
	}
	rate, target := float64(in.Measured.ApplicationRate), float64(in.TargetApplicationRate)
	r.Deviation = unit.Ratio(deviation(rate, target))
	r.Within = judge(float64(r.Deviation), float64(r.RateTolerance))
	r.OverLabelMaximum = in.overLabel(in.Measured.ApplicationRate)
	if r.Within == Within && !r.OverLabelMaximum && in.BoomEven != BoomUneven {
		return r, nil
	}
	if reason, stop := in.hopeless(); stop {
		r.Decision = RepairFirst
		if reason == Controlled {
			r.Decision = CalibrateController
		}
		r.Rejected = []Rejection{{Change: ChangeSpeed, Reason: reason}, {Change: ChangePressure, Reason: reason}}
		return r, nil
	}
	r.bySpeed(in)
	r.byPressure(in)
	slices.SortStableFunc(r.Plans, func(a, b Plan) int {
		return cmp.Compare(math.Abs(math.Log1p(float64(a.RelativeChange))), math.Abs(math.Log1p(float64(b.RelativeChange))))
	})
	r.Decision = ChoosePlan
	if len(r.Plans) == 0 {
		r.Decision = OutOfReach
	}
	if in.BoomEven == EvennessUnknown {
		r.Warnings = append(r.Warnings, Warning{"BoomEven", WarnEvennessUnknown})
	}
	return r, nil
}

// hopeless tells whether no plan makes sense, and why.
func (in CorrectionsInput) hopeless() (Reason, bool) {
	switch {
	case in.BoomEven == BoomUneven:
		return Uneven, true
	case in.RateController:
		return Controlled, true
	}
	return 0, false
}

func (in CorrectionsInput) overLabel(rate unit.ApplicationRate) bool {
	return in.LabelMaximum != 0 && !atMost(float64(rate/in.LabelMaximum), 1)
}

func (in CorrectionsInput) check() error {
	var v Invalid
	v.positive(float64(in.Measured.ApplicationRate), "Measured.ApplicationRate")
	v.positive(float64(in.Measured.GroundSpeed), "Measured.GroundSpeed")
	v.optional(float64(in.Measured.SprayPressure), "Measured.SprayPressure")
	v.positive(float64(in.TargetApplicationRate), "TargetApplicationRate")
	v.optional(float64(in.RateTolerance), "RateTolerance")
	v.optional(float64(in.LabelMaximum), "LabelMaximum")
	if sound(float64(in.TargetApplicationRate)) && sound(float64(in.LabelMaximum)) && in.overLabel(in.TargetApplicationRate) {
		v.add("TargetApplicationRate", CodeAboveLabelMaximum)
	}
	if in.BoomEven > BoomUneven {
		v.add("BoomEven", CodeNotAllowed)
	}
	if n := in.PressureExponent; n != 0 && !(n >= plausibleLow && n <= plausibleHigh) {
		v.add("PressureExponent", CodeOutOfRange)
	}
	v = append(v, in.Limits.GroundSpeed.check("Limits.GroundSpeed")...)
	return append(v, in.Limits.SprayPressure.check("Limits.SprayPressure")...).err()
}

// check holds a range of speeds to the rules of a range of pressures.
func (s SpeedRange) check(field string) Invalid {
	return PressureRange{unit.Pressure(s.Low), unit.Pressure(s.High)}.check(field)
}
