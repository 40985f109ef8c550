package calc

import (
	"math"

	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// planOf writes an attempt down as a plan.
func (x *planner) planOf(a attempt) Plan {
	rate, off := x.predict(a)
	p := Plan{
		Change: a.changes.only(), Changes: a.changes, Gear: a.to.gear, Nozzle: a.to.nozzle,
		PredictedApplicationRate: unit.ApplicationRate(rate), Deviation: unit.Ratio(off), AtLimit: a.atLimit,
		Size: size(x.now, a.to), Attempt: a.exported(),
	}
	if a.solves && x.aim != x.target {
		p.Aim = unit.ApplicationRate(x.aim)
	}
	if a.changes&(setOf(ChangeSpeed)|setOf(ChangeEngineSpeed)|setOf(ChangeGear)) != 0 {
		p.GroundSpeed = unit.Speed(a.to.speed)
	}
	if a.changes.Has(ChangePressure) || a.changes.Has(ChangeNozzle) {
		p.SprayPressure = unit.Pressure(a.to.pressure)
	}
	if a.changes.Has(ChangeDutyCycle) {
		p.DutyCycle = unit.Ratio(a.to.duty)
	}
	if a.changes.Has(ChangeEngineSpeed) || a.changes.Has(ChangeGear) {
		p.EngineSpeed = unit.RotationalSpeed(a.to.engine)
	}
	switch p.Change {
	case ChangeCombined:
	case ChangePressure:
		p.RelativeChange = unit.Ratio(finding.Difference(a.to.pressure/x.now.pressure, 1))
	case ChangeDutyCycle:
		p.RelativeChange = unit.Ratio(finding.Difference(a.to.duty/x.now.duty, 1))
	case ChangeNozzle:
		p.RelativeChange = x.flowOf(a.to.nozzle)
	default:
		p.RelativeChange = unit.Ratio(finding.Difference(a.to.speed/x.now.speed, 1))
	}
	if p.GroundSpeed != 0 && x.in.Limits.GroundSpeed == (SpeedRange{}) && unusualSpeed(p.GroundSpeed) {
		p.Warnings = []finding.Warning{{Place: limitsGroundSpeed, Code: WarnUnusualSpeed}}
	}
	p.DropletClass, p.DropletsAllowed = x.droplets(a.to)
	p.Warnings = append(p.Warnings, x.warnings(a)...)
	if p.SprayPressure != 0 {
		p.Warnings = append(p.Warnings, x.warnOutsideChart(a.to)...)
	}
	return p
}

// size is Plan.Size of going from one state to another.
func size(from, to machineState) float64 {
	sum := math.Abs(math.Log(to.speed / from.speed))
	if from.pressure != 0 {
		sum += math.Abs(math.Log(to.pressure / from.pressure))
	}
	if from.duty != 0 {
		sum += math.Abs(math.Log(to.duty / from.duty))
	}
	if to.gear != 0 {
		sum += GearChangeCost
	}
	if to.nozzle != 0 {
		sum += NozzleChangeCost
	}
	return sum
}

// Warnings of a plan.
const (
	WarnHoldEngineSpeed     = "hold_engine_speed"    // the pump follows the engine: change the speed by the gear
	WarnSetPressure         = "set_pressure_by_hand" // a valve can be set, but does not follow the engine
	WarnPumpMargin          = "pump_flow_margin"     // it turns slower: is it still enough
	WarnNozzleRangeNotGiven = "nozzle_range_not_given"
	WarnDropletsUnknown     = "droplet_class_unknown"
)

// warnings says what a plan takes for granted.
func (x *planner) warnings(a attempt) (all []finding.Warning) {
	if class, _ := x.droplets(a.to); class == DropletClassUnknown && (a.changes.Has(ChangePressure) || a.changes.Has(ChangeNozzle)) {
		all = append(all, finding.Warning{Place: finding.Member("dropletChart"), Code: WarnDropletsUnknown})
	}
	if a.changes.Has(ChangeSpeed) && x.in.Pump.follows() {
		all = append(all, finding.Warning{Place: finding.Member("pump"), Code: WarnHoldEngineSpeed})
	}
	if a.changes&(setOf(ChangePressure)|setOf(ChangeNozzle)|setOf(ChangeDutyCycle)) != 0 && x.in.Pump.Regulation == NoRegulation {
		all = append(all, finding.Warning{Place: finding.Member("pump").Member("regulation"), Code: WarnSetPressure})
	}
	if a.to.engine != 0 && a.to.engine < x.now.engine && x.in.Pump.Drive == ShaftDrive {
		all = append(all, finding.Warning{Place: finding.Member("pump"), Code: WarnPumpMargin})
	}
	if n := a.to.nozzle; n != 0 && x.in.nozzle(n).PressureRange == (PressureRange{}) {
		all = append(all, finding.Warning{Place: finding.Item("nozzles", n-1).Member("pressureRange"), Code: WarnNozzleRangeNotGiven})
	}
	return all
}
