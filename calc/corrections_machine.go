package calc

import (
	"math"

	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// A Gear is how fast the tractor drives in it at an engine speed; at another the
// speed is in proportion.
type Gear struct {
	Label       string
	GroundSpeed unit.Speed
	EngineSpeed unit.RotationalSpeed
}

// An EngineSpeedRange is a lowest and a highest engine speed; both zero when not
// known.
type EngineSpeedRange struct{ Low, High unit.RotationalSpeed }

// RatedShaft is the engine speed at which the shaft turns at its rated speed. The
// engine is never to turn faster. Zero when not known.
type RatedShaft struct{ EngineSpeed unit.RotationalSpeed }

// A Pump is what feeds the boom. Either all of it is given or nothing.
type Pump struct {
	Type       PumpType
	Drive      PumpDrive
	Regulation PumpRegulation
}

// PumpType is how a pump moves liquid.
type PumpType string

// The types of pumps.
const (
	PositiveDisplacement PumpType = "positive_displacement"
	Centrifugal          PumpType = "centrifugal"
)

var pumpTypes = []PumpType{PositiveDisplacement, Centrifugal}

// Words lists the types.
func (PumpType) Words() []string { return finding.WordsOf(pumpTypes) }

// PumpDrive is what turns a pump.
type PumpDrive string

// The drives of pumps.
const (
	ShaftDrive       PumpDrive = "shaft"       // it turns with the engine
	IndependentDrive PumpDrive = "independent" // a motor of its own
)

var pumpDrives = []PumpDrive{ShaftDrive, IndependentDrive}

// Words lists the drives.
func (PumpDrive) Words() []string { return finding.WordsOf(pumpDrives) }

// PumpRegulation is what holds the pressure or the rate.
type PumpRegulation string

// The regulations. RateControllerRegulation is what CorrectionsInput.RateController
// says in another place.
const (
	ReliefValve              PumpRegulation = "relief_valve"
	NoRegulation             PumpRegulation = "none"
	RateControllerRegulation PumpRegulation = "rate_controller"
)

var pumpRegulations = []PumpRegulation{ReliefValve, NoRegulation, RateControllerRegulation}

// Words lists the regulations.
func (PumpRegulation) Words() []string { return finding.WordsOf(pumpRegulations) }

// follows tells that the flow follows the engine: an unregulated pump of either
// type on the shaft.
func (p Pump) follows() bool { return p.Drive == ShaftDrive && p.Regulation == NoRegulation }

// perTurn is the way driven per turn of the engine in a gear, from 1; in the present one,
// 0, it is as measured. What was timed knows the slip of the wheels, a list does not.
func (x *planner) perTurn(gear int) float64 {
	if gear == 0 {
		return float64(x.in.Measured.GroundSpeed) / float64(x.in.Measured.EngineSpeed)
	}
	g := x.in.Gears[gear-1]
	return float64(g.GroundSpeed) / float64(g.EngineSpeed)
}

// presentGear is the number of the present gear in Gears, from 1; 0 when it is not
// among them.
func (in CorrectionsInput) presentGear() (found int) {
	nearest := math.Inf(1)
	for i, g := range in.Gears {
		if g.Label == in.Measured.Gear {
			return i + 1
		}
		if off := math.Abs(finding.Deviation(in.listed(g), float64(in.Measured.GroundSpeed))); off < nearest {
			nearest, found = off, i+1
		}
	}
	if !finding.AtMost(nearest, float64(DefaultRunTolerance)) {
		return 0
	}
	return found
}

// listed is what the list says of a gear at the measured engine speed.
func (in CorrectionsInput) listed(g Gear) float64 {
	return float64(g.GroundSpeed) * float64(in.Measured.EngineSpeed/g.EngineSpeed)
}

// warnGear holds the listed speed of the present gear against the measured one.
func (in CorrectionsInput) warnGear() []finding.Warning {
	n := in.presentGear()
	if n == 0 {
		return nil
	}
	if finding.Judge(finding.Deviation(in.listed(in.Gears[n-1]), float64(in.Measured.GroundSpeed)), float64(DefaultRunTolerance)) == finding.Within {
		return nil
	}
	return []finding.Warning{{Place: finding.Item("gears", n-1).Member("groundSpeed"), Code: WarnGearSpeedDiffers}}
}

// reachable tells whether a listed gear, or the present one, drives at a speed
// inside the limits of the engine.
func (x *planner) reachable(speed float64) bool {
	limits := x.limits(x.now, ChangeEngineSpeed)
	for g := 0; g <= len(x.in.Gears); g++ {
		e := speed / x.perTurn(g)
		if x.in.Pump.follows() && finding.Difference(e, x.now.engine) != 0 {
			continue
		}
		if !limits.bound(e).atLimit {
			return true
		}
	}
	return false
}
