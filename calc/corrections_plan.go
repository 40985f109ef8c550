package calc

import (
	"math"

	"wetrun/calc/unit"
)

// stand is where a solved value comes to stand between two limits.
type stand struct {
	value   float64
	atLimit bool
	reason  Reason // when atLimit
}

// place puts a solved value into limits, inclusive like every limit here. Limits
// of zero do not stop it.
func place(solved, low, high float64) stand {
	switch {
	case high != 0 && !atMost(solved/high, 1):
		return stand{high, true, AboveMaximum}
	case low != 0 && !atMost(low/solved, 1):
		return stand{low, true, BelowMinimum}
	}
	return stand{value: solved}
}

// bySpeed adds the plan or the rejection of a change of speed.
func (r *CorrectionsResult) bySpeed(in CorrectionsInput) {
	v, rate, target := float64(in.Measured.GroundSpeed), float64(in.Measured.ApplicationRate), float64(in.TargetApplicationRate)
	limits := in.Limits.GroundSpeed
	if limits == (SpeedRange{}) {
		r.Warnings = append(r.Warnings, Warning{"Limits.GroundSpeed", WarnSpeedLimitsNotGiven})
	}
	solved := v * rate / target
	s := place(solved, float64(limits.Low), float64(limits.High))
	p := Plan{Change: ChangeSpeed, GroundSpeed: unit.Speed(s.value)}
	no := Rejection{Change: ChangeSpeed, NeededGroundSpeed: unit.Speed(solved), SpeedLimit: unit.Speed(s.value)}
	r.settle(in, s, s.value/v, rate*v/s.value, p, no)
}

// byPressure adds the plan or the rejection of a change of pressure.
func (r *CorrectionsResult) byPressure(in CorrectionsInput) {
	p, rate, target := float64(in.Measured.SprayPressure), float64(in.Measured.ApplicationRate), float64(in.TargetApplicationRate)
	if p == 0 {
		r.Rejected = append(r.Rejected, Rejection{Change: ChangePressure, Reason: PressureNotMeasured})
		return
	}
	n := in.PressureExponent
	// The rate is to the flow as a constant, so the flow law serves for it.
	solved := float64(PressureForFlow(unit.FlowRate(rate), in.Measured.SprayPressure, unit.FlowRate(target), n))
	limits := in.Limits.SprayPressure
	if limits == (PressureRange{}) {
		r.Rejected = append(r.Rejected, Rejection{Change: ChangePressure, Reason: PressureLimitsNotGiven, NeededPressure: unit.Pressure(solved)})
		return
	}
	s := place(solved, float64(limits.Low), float64(limits.High))
	plan := Plan{Change: ChangePressure, SprayPressure: unit.Pressure(s.value)}
	no := Rejection{Change: ChangePressure, NeededPressure: unit.Pressure(solved), PressureLimit: unit.Pressure(s.value)}
	r.settle(in, s, s.value/p, rate*power(s.value/p, n), plan, no)
}

// settle decides between the plan and its rejection. change is new over old.
func (r *CorrectionsResult) settle(in CorrectionsInput, s stand, change, predicted float64, p Plan, no Rejection) {
	if !s.atLimit {
		predicted = float64(in.TargetApplicationRate) // what it was solved for
	}
	off := deviation(predicted, float64(in.TargetApplicationRate))
	if math.Abs(off) < slack {
		off = 0
	}
	inside := judge(off, float64(r.RateTolerance)) == Within
	over := in.overLabel(unit.ApplicationRate(predicted))
	if inside && !over {
		p.PredictedApplicationRate, p.Deviation, p.AtLimit = unit.ApplicationRate(predicted), unit.Ratio(off), s.atLimit
		p.RelativeChange = unit.Ratio(difference(change, 1))
		r.Plans = append(r.Plans, p)
		return
	}
	no.Reason = s.reason
	if inside && over {
		no.Reason = AtLimitOverLabel
	}
	no.ApplicationRateAtLimit, no.DeviationAtLimit = unit.ApplicationRate(predicted), unit.Ratio(off)
	r.Rejected = append(r.Rejected, no)
}
