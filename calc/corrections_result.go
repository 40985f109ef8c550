package calc

import (
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// Change is what a plan changes.
type Change string

const (
	ChangeSpeed       Change = "speed"
	ChangePressure    Change = "pressure"
	ChangeEngineSpeed Change = "engine_speed"
	ChangeGear        Change = "gear"
	ChangeNozzle      Change = "nozzle"
	ChangeDutyCycle   Change = "duty_cycle"
	ChangeCombined    Change = "combined" // more than one of the others
)

// Words lists every change.
func (Change) Words() []string { return finding.WordsOf(append(singleChanges[:], ChangeCombined)) }

// singleChanges are those that a set can hold, in the order in which All lists them.
var singleChanges = [...]Change{ChangeSpeed, ChangePressure, ChangeEngineSpeed, ChangeGear, ChangeNozzle, ChangeDutyCycle}

// Changes is a set of single changes.
type Changes uint8

// setOf is the set of one change, the empty one for ChangeCombined.
func setOf(x Change) Changes {
	for i, c := range singleChanges {
		if c == x {
			return 1 << i
		}
	}
	return 0
}

// Has tells whether the set holds a change.
func (c Changes) Has(x Change) bool { return c&setOf(x) != 0 }

// any tells whether the set holds one of some changes.
func (c Changes) any(some ...Change) bool {
	for _, x := range some {
		if c.Has(x) {
			return true
		}
	}
	return false
}

// All lists the changes of the set.
func (c Changes) All() (all []Change) {
	for i, x := range singleChanges {
		if c&(1<<i) != 0 {
			all = append(all, x)
		}
	}
	return all
}

// only is the one change of a set, or ChangeCombined.
func (c Changes) only() Change {
	for i, x := range singleChanges {
		if c == 1<<i {
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
	// Aim is the rate that it was solved for, where that is not the target; see Guard.
	Aim     unit.ApplicationRate
	AtLimit bool // a limit stops it short of the target
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
		x = Attempt{From: a.from.exported(), To: x.To, Solved: a.by, Needed: a.needed, Solves: true, AtLimit: a.atLimit, Limited: a.limited}
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
	Reason  RejectionReason

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
	// GroundSpeed and the others are what stands at a limit, or in that gear, beside what is needed.
	GroundSpeed   unit.Speed
	SprayPressure unit.Pressure
	EngineSpeed   unit.RotationalSpeed
	DutyCycle     unit.Ratio
	DropletClass  DropletClass

	ApplicationRateAtLimit unit.ApplicationRate // zero when no limit is in the way
	DeviationAtLimit       unit.Ratio
	// PredictedApplicationRate is what it would come to where no limit stops it short.
	PredictedApplicationRate unit.ApplicationRate
	Deviation                unit.Ratio
	Attempt                  Attempt // zero where nothing was tried
}

// setNeeded writes down a value that was needed and the limit in its way, zero when
// there is none.
func (n *Rejection) setNeeded(of Change, needed, limit float64) {
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
