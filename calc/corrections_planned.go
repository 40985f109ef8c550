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
	if a.changes.any(ChangeSpeed, ChangeEngineSpeed, ChangeGear) {
		p.GroundSpeed = unit.Speed(a.to.speed)
	}
	if a.changes.any(ChangePressure, ChangeNozzle) {
		p.SprayPressure = unit.Pressure(a.to.pressure)
	}
	if a.changes.Has(ChangeDutyCycle) {
		p.DutyCycle = unit.Ratio(a.to.duty)
	}
	if a.changes.any(ChangeEngineSpeed, ChangeGear) {
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
	p.DropletClass, p.DropletsAllowed = x.droplets(a.to)
	x.warn(&p, a.to)
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

// warn says what a plan, and the state that it leads to, take for granted.
func (x *planner) warn(p *Plan, s machineState) {
	add := func(place finding.Place, code string) {
		p.Warnings = append(p.Warnings, finding.Warning{Place: place, Code: code})
	}
	pump := finding.Member("pump")
	if p.GroundSpeed != 0 && x.in.Limits.GroundSpeed == (SpeedRange{}) && unusualSpeed(p.GroundSpeed) {
		add(limitsGroundSpeed, WarnUnusualSpeed)
	}
	if p.DropletClass == DropletClassUnknown && p.SprayPressure != 0 {
		add(finding.Member("dropletChart"), WarnDropletsUnknown)
	}
	if p.Changes.Has(ChangeSpeed) && x.in.Pump.follows() {
		add(pump, WarnHoldEngineSpeed)
	}
	if p.Changes.any(ChangePressure, ChangeNozzle, ChangeDutyCycle) && x.in.Pump.Regulation == NoRegulation {
		add(pump.Member("regulation"), WarnSetPressure)
	}
	if s.engine != 0 && s.engine < x.now.engine && x.in.Pump.Drive == ShaftDrive {
		add(pump, WarnPumpMargin)
	}
	if s.nozzle != 0 && x.in.nozzle(s.nozzle).PressureRange == (PressureRange{}) {
		add(finding.Item("nozzles", s.nozzle-1).Member("pressureRange"), WarnNozzleRangeNotGiven)
	}
	if p.SprayPressure != 0 {
		p.Warnings = append(p.Warnings, x.warnOutsideChart(s)...)
	}
}
