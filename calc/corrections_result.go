package calc

import (
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// Change is what a plan changes.
type Change uint8

// The changes.
const (
	ChangeSpeed Change = iota
	ChangePressure
	ChangeEngineSpeed
	ChangeGear
	ChangeNozzle
	ChangeDutyCycle
	ChangeCombined // more than one of the others
)

// Changes is a set of changes.
type Changes uint8

// Has tells whether the set holds a change.
func (c Changes) Has(x Change) bool { return c&(1<<x) != 0 }

func setOf(x Change) Changes { return 1 << x }

// only is the one change of a set, or ChangeCombined.
func (c Changes) only() Change {
	for x := range ChangeCombined {
		if c == setOf(x) {
			return x
		}
	}
	return ChangeCombined
}

// A Plan is what to change, with what it should lead to. Whatever is changed, the
// rate is measured again before it is trusted.
type Plan struct {
	Change        Change
	Changes       Changes              // all of them
	GroundSpeed   unit.Speed           // of a plan that changes it, by whatever means
	SprayPressure unit.Pressure        // of a plan by pressure or nozzle
	EngineSpeed   unit.RotationalSpeed // of a plan by engine speed or gear
	DutyCycle     unit.Ratio           // of a plan that changes it
	Gear          int                  // counted from 1 in Gears; 0 for the present one
	Nozzle        int                  // counted from 1 in Nozzles; 0 for the present one

	DropletClass    DropletClass
	DropletsAllowed finding.Verdict // not judged when nothing says which classes are

	PredictedApplicationRate unit.ApplicationRate
	Deviation                unit.Ratio // of the prediction from the target
	AtLimit                  bool       // a limit stops it short of the target
	// RelativeChange is new over old less 1, of what a single change changes: of the
	// speed for engine speed and gear, of the flow for a nozzle. Zero in a combined plan.
	RelativeChange unit.Ratio
	// Size is how much is changed: the sum of |ln(new / old)| of ground speed,
	// pressure and duty cycle, GearChangeCost for another gear and NozzleChangeCost for other nozzles.
	Size     float64
	Attempt  Attempt
	Warnings []finding.Warning
}

// A MachineState is everything that the rate hangs on. Zero is not known; of gear and
// nozzle, counted from 1, that they stay.
type MachineState struct {
	GroundSpeed   unit.Speed
	SprayPressure unit.Pressure
	EngineSpeed   unit.RotationalSpeed
	DutyCycle     unit.Ratio
	Gear, Nozzle  int
}

// An Attempt is how a plan or a rejection came about: from the state before anything
// was solved in it, with gear and nozzles already chosen, to the state that it ends in.
type Attempt struct {
	From, To MachineState
	Solved   Change  // what was solved, when Solves
	Needed   float64 // in SI, by no limit stopped
	Solves   bool
	AtLimit  bool // To stands at the limit of Limited, short of Needed
	Limited  Change
}

func (s machineState) exported() MachineState {
	return MachineState{
		unit.Speed(s.speed), unit.Pressure(s.pressure), unit.RotationalSpeed(s.engine), unit.Ratio(s.duty), s.gear, s.nozzle,
	}
}

func (a attempt) exported() Attempt {
	x := Attempt{From: a.to.exported(), To: a.to.exported()}
	if a.solves {
		x = Attempt{From: a.base.exported(), To: x.To, Solved: a.by, Needed: a.needed, Solves: true, AtLimit: a.atLimit, Limited: a.limited}
	}
	return x
}

// GearChangeCost is what another gear adds to Plan.Size: as much as 10 % of speed.
// Own judgement, no published source.
const GearChangeCost = 0.1

// A Rejection is a change that was considered and cannot be made.
type Rejection struct {
	Change  Change
	Changes Changes
	Reason  Reason
	// Limited is whose limit is in the way, for the reasons that speak of one.
	Limited Change

	NeededGroundSpeed unit.Speed
	NeededPressure    unit.Pressure
	NeededEngineSpeed unit.RotationalSpeed
	NeededDutyCycle   unit.Ratio
	SpeedLimit        unit.Speed           // the limit in the way
	PressureLimit     unit.Pressure        // the limit in the way
	EngineSpeedLimit  unit.RotationalSpeed // the limit in the way
	DutyCycleLimit    unit.Ratio           // the limit in the way
	Gear              int                  // counted from 1 in Gears; 0 for the present one
	Nozzle            int                  // counted from 1 in Nozzles; 0 for the present one
	GroundSpeed       unit.Speed           // in that gear
	DropletClass      DropletClass

	ApplicationRateAtLimit unit.ApplicationRate // zero when no limit is in the way
	DeviationAtLimit       unit.Ratio
	// PredictedApplicationRate is what it would come to where no limit stops it short.
	PredictedApplicationRate unit.ApplicationRate
	Deviation                unit.Ratio
	Attempt                  Attempt // zero where nothing was tried
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
	OutsideTolerance       // nothing is solved here, and it misses the target
	PumpNotGiven           // so nobody knows what the flow does with the engine
	PumpFollowsEngine      // flow and speed change together
	EngineLimitsNotGiven
	DutyCycleLimitsNotGiven
	StaysAboveMaximum // what it leaves as it is lies outside its limits
	StaysBelowMinimum
	OutsideSprayVolume // in tolerance, but outside the range that the label asks for
	DropletsNotAllowed
	PressureRangesApart // no pressure suits both the system and the nozzle
	NoGearReaches       // no gear drives at that speed inside the limits of the engine
)

// put writes down a value that was needed and the limit in its way, zero when
// there is none.
func (n *Rejection) put(of Change, needed, limit float64) {
	switch of {
	case ChangeSpeed:
		n.NeededGroundSpeed, n.SpeedLimit = unit.Speed(needed), unit.Speed(limit)
	case ChangePressure:
		n.NeededPressure, n.PressureLimit = unit.Pressure(needed), unit.Pressure(limit)
	case ChangeEngineSpeed:
		n.NeededEngineSpeed, n.EngineSpeedLimit = unit.RotationalSpeed(needed), unit.RotationalSpeed(limit)
	case ChangeDutyCycle:
		n.NeededDutyCycle, n.DutyCycleLimit = unit.Ratio(needed), unit.Ratio(limit)
	}
}
