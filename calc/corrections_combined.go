package calc

import (
	"math"

	"wetrun/calc/unit"
)

// combine tries every other gear: as it is, and with whatever else can be solved
// in it. Of the solved ones the least change stays, or the nearest miss.
func (x *planner) combine() {
	for gear := 1; gear <= len(x.in.Gears); gear++ {
		if gear == x.gear {
			continue
		}
		base := attempt{to: x.now, changes: setOf(ChangeGear)}
		base.to.gear, base.to.speed = gear, x.now.engine*x.perTurn(gear)
		x.choice(base)
	}
}

// choice tries one combination of discrete choices.
func (x *planner) choice(base attempt) {
	no, ok := x.judge(base)
	single := base.changes.only() != ChangeCombined
	var exact bool
	if ok {
		plan := x.planOf(base)
		exact = plan.Deviation == 0
		x.r.Plans = append(x.r.Plans, plan)
	} else if single {
		x.r.Rejected = append(x.r.Rejected, no)
	}
	if exact {
		return
	}
	var best *Plan
	var miss *Rejection
	if !single {
		miss = &no
	}
	for _, a := range x.solutions(base) {
		no, fits := x.judge(a)
		if !fits {
			if miss == nil || no.off() < miss.off() {
				miss = &no
			}
			continue
		}
		if p := x.planOf(a); best == nil || p.Size < best.Size {
			best = &p
		}
	}
	switch {
	case best != nil:
		x.r.Plans = append(x.r.Plans, *best)
	case !ok && miss != nil:
		x.r.Rejected = append(x.r.Rejected, *miss)
	}
}

// off is how far a rejected change misses the target.
func (n *Rejection) off() float64 {
	return math.Max(math.Abs(float64(n.Deviation)), math.Abs(float64(n.DeviationAtLimit)))
}

// solutions are a choice with each thing that can be solved in it.
func (x *planner) solutions(base attempt) (all []attempt) {
	if x.now.pressure != 0 && x.in.Limits.SprayPressure != (PressureRange{}) {
		all = append(all, x.solvePressure(base))
	}
	if _, ok := x.engineMeans(); ok && x.now.engine != 0 {
		all = append(all, x.solveEngine(base))
	}
	return all
}

// planOf writes an attempt down as a plan.
func (x *planner) planOf(a attempt) Plan {
	rate, off := x.predict(a)
	p := Plan{
		Change: a.changes.only(), Changes: a.changes, Gear: a.to.gear,
		PredictedApplicationRate: unit.ApplicationRate(rate), Deviation: unit.Ratio(off), AtLimit: a.atLimit,
		Size: size(x.now, a.to),
	}
	if a.changes&(setOf(ChangeSpeed)|setOf(ChangeEngineSpeed)|setOf(ChangeGear)) != 0 {
		p.GroundSpeed = unit.Speed(a.to.speed)
	}
	if a.changes.Has(ChangePressure) {
		p.SprayPressure = unit.Pressure(a.to.pressure)
	}
	if a.changes.Has(ChangeEngineSpeed) || a.changes.Has(ChangeGear) {
		p.EngineSpeed = unit.RotationalSpeed(a.to.engine)
	}
	switch p.Change {
	case ChangeCombined:
	case ChangePressure:
		p.RelativeChange = unit.Ratio(difference(a.to.pressure/x.now.pressure, 1))
	default:
		p.RelativeChange = unit.Ratio(difference(a.to.speed/x.now.speed, 1))
	}
	if !x.in.SpeedAndPressureOnly {
		p.Warnings = x.warnings(a)
	}
	return p
}

// Warnings of a plan.
const (
	WarnHoldEngineSpeed = "hold_engine_speed" // the pump follows the engine: change the speed by the gear
	WarnSetPressure     = "set_pressure_by_hand"
	WarnPumpMargin      = "pump_flow_margin" // it turns slower: is it still enough
)

// warnings says what a plan takes for granted.
func (x *planner) warnings(a attempt) (all []Warning) {
	if a.changes.Has(ChangeSpeed) && x.in.Pump.follows() {
		all = append(all, Warning{"Pump", WarnHoldEngineSpeed})
	}
	if a.changes.Has(ChangePressure) && x.in.Pump.Regulation == NoRegulation {
		all = append(all, Warning{"Pump.Regulation", WarnSetPressure})
	}
	if a.to.engine != 0 && a.to.engine < x.now.engine && x.in.Pump.Drive == ShaftDrive {
		all = append(all, Warning{"Pump", WarnPumpMargin})
	}
	return all
}
