package calc

import (
	"math"

	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// bounded is a solved value within two limits.
type bounded struct {
	value   float64
	atLimit bool
	end     end // that it stands at, when atLimit
}

// bound puts a solved value into limits, inclusive like every limit here. Limits
// of zero do not stop it.
func bound(solved, low, high float64) bounded {
	switch {
	case high != 0 && !finding.AtMost(solved/high, 1):
		return bounded{high, true, maximum}
	case low != 0 && !finding.AtMost(low/solved, 1):
		return bounded{low, true, minimum}
	}
	return bounded{value: solved}
}

// machineState is everything that the rate hangs on. Zero is not known; of the
// engine also that a plan leaves it open; of gear and nozzle that they stay.
type machineState struct {
	speed, pressure, engine, duty float64
	gear, nozzle                  int
}

// planner holds what every attempt starts from.
type planner struct {
	in     CorrectionsInput
	r      *CorrectionsResult
	now    machineState
	gear   int // the number of the present gear in Gears, 0 when it is not there
	target float64
	// fittedExponent tells that PressureExponent was given.
	fittedExponent bool
}

func newPlanner(in CorrectionsInput, r *CorrectionsResult) *planner {
	return &planner{
		in: in, r: r, target: float64(in.TargetApplicationRate), gear: in.presentGear(),
		now: machineState{
			speed: float64(in.Measured.GroundSpeed), pressure: float64(in.Measured.SprayPressure), engine: float64(in.Measured.EngineSpeed),
			duty: float64(in.Measured.DutyCycle),
		},
	}
}

// plan tries every change.
func (x *planner) plan() {
	x.bySpeed()
	x.byPressure()
	if x.in.SpeedAndPressureOnly {
		return
	}
	x.warnCharts()
	if x.now.engine != 0 {
		x.byEngine()
		if x.in.Pump.Drive == ShaftDrive && x.in.RatedShaft.EngineSpeed == 0 {
			x.r.Warnings = append(x.r.Warnings, finding.Warning{Place: finding.Member("ratedShaft"), Code: WarnRatedShaftNotGiven})
		}
	}
	if x.now.duty != 0 {
		x.byDuty()
	}
	x.combine()
}

// rate is what the model says of a state.
func (x *planner) rate(s machineState) float64 {
	rate := float64(x.in.Measured.ApplicationRate)
	if s.speed != x.now.speed {
		rate *= x.now.speed / s.speed
	}
	if s.pressure != x.now.pressure {
		rate *= x.pressureFactor(s.nozzle, s.pressure)
	}
	if s.duty != x.now.duty {
		rate *= s.duty / x.now.duty
	}
	if s.nozzle != 0 {
		rate *= x.flowRatio(s.nozzle)
	}
	return rate
}

// An attempt is a state to go to, and how it was found.
type attempt struct {
	to      machineState
	changes Changes
	bounded
	needed  float64
	by      Change // what was solved, when solves
	solves  bool
	limited Change // whose limit it stands at, when atLimit
	base    machineState
}

func (a attempt) solved(by Change, needed float64, s bounded, limited Change) attempt {
	a.changes |= setOf(by)
	a.base = a.to
	a.by, a.needed, a.bounded, a.solves, a.limited = by, needed, s, true, limited
	return a
}

// bySpeed adds the plan or the rejection of a change of speed by whatever means.
func (x *planner) bySpeed() {
	limits := x.in.Limits.GroundSpeed
	if limits == (SpeedRange{}) {
		x.r.Warnings = append(x.r.Warnings, finding.Warning{Place: limitsGroundSpeed, Code: WarnSpeedLimitsNotGiven})
	}
	a := x.solveSpeed(attempt{to: x.now})
	if no, ok := x.judge(a); ok && len(x.in.Gears) > 0 && !x.in.SpeedAndPressureOnly && !x.reachable(a.to.speed) {
		no = x.rejection(a, ReasonNoGearReachesSpeed)
		if x.in.Pump.follows() {
			no.Reason = ReasonPumpFollowsEngine
		}
		x.r.Rejected = append(x.r.Rejected, no)
		return
	}
	x.decide(a)
}

// solveSpeed solves the ground speed. How it is reached is left open, except that
// an engine that the pump follows has to stay as it is.
func (x *planner) solveSpeed(a attempt) attempt {
	needed := a.to.speed * x.rate(a.to) / x.target
	s := bound(needed, float64(x.in.Limits.GroundSpeed.Low), float64(x.in.Limits.GroundSpeed.High))
	a = a.solved(ChangeSpeed, needed, s, ChangeSpeed)
	a.to.speed = s.value
	if !x.in.Pump.follows() {
		a.to.engine = 0
	}
	return a
}

// byPressure adds the plan or the rejection of a change of pressure.
func (x *planner) byPressure() {
	if x.now.pressure == 0 {
		x.r.Rejected = append(x.r.Rejected, Rejection{Change: ChangePressure, Changes: setOf(ChangePressure), Reason: ReasonPressureNotMeasured})
		return
	}
	a := x.solvePressure(attempt{to: x.now})
	if limits, apart := x.pressureRange(0); limits == (PressureRange{}) || apart {
		no := x.rejection(a, ReasonPressureLimitsNotGiven)
		no.ApplicationRateAtLimit, no.DeviationAtLimit, no.PressureLimit = 0, 0, 0
		if apart {
			no.Reason = ReasonPressureRangesApart
		}
		no.PredictedApplicationRate, no.Deviation = 0, 0
		x.r.Rejected = append(x.r.Rejected, no)
		return
	}
	x.decide(a)
}

func (x *planner) solvePressure(a attempt) attempt {
	needed := x.pressureFor(a.to.nozzle, x.rate(a.to), x.target)
	limits, _ := x.pressureRange(a.to.nozzle)
	s := bound(needed, float64(limits.Low), float64(limits.High))
	a = a.solved(ChangePressure, needed, s, ChangePressure)
	a.to.pressure = s.value
	return a
}

// predict is the rate of an attempt and its deviation from the target.
func (x *planner) predict(a attempt) (rate, off float64) {
	rate = x.rate(a.to)
	if a.solves && !a.atLimit {
		rate = x.target // what it was solved for
	}
	off = finding.Deviation(rate, x.target)
	if math.Abs(off) < finding.Slack {
		off = 0
	}
	return rate, off
}

// judge decides whether an attempt may be a plan; the rejection says why not.
func (x *planner) judge(a attempt) (Rejection, bool) {
	predicted, off := x.predict(a)
	switch {
	case finding.Judge(off, float64(x.r.RateTolerance)) != finding.Within && a.atLimit:
		return x.rejection(a, beyond[limitOf{a.limited, a.end}].solved), false
	case finding.Judge(off, float64(x.r.RateTolerance)) != finding.Within:
		return x.rejection(a, ReasonOutsideTolerance), false
	case x.in.overLabel(unit.ApplicationRate(predicted)):
		return x.rejection(a, ReasonOverLabelMaximum), false
	case x.in.SpeedAndPressureOnly:
		return Rejection{}, true
	case x.in.SprayVolumeRange.holds(unit.ApplicationRate(predicted)) == finding.Outside:
		return x.rejection(a, ReasonOutsideSprayVolumeRange), false
	}
	if no, ok := x.insideLimits(a); !ok {
		return no, false
	}
	if class, allowed := x.droplets(a.to); class != DropletClassUnknown && allowed == finding.Outside {
		return x.rejection(a, ReasonDropletClassNotAllowed), false
	}
	return Rejection{}, true
}

// insideLimits holds the whole state of an attempt to the limits, what it leaves
// as it is included.
func (x *planner) insideLimits(a attempt) (Rejection, bool) {
	engineLow, engineHigh := x.in.engineRange()
	pressure, apart := x.pressureRange(a.to.nozzle)
	if apart && a.to.pressure != 0 {
		return x.rejection(a, ReasonPressureRangesApart), false
	}
	for _, l := range [...]struct {
		of                    Change
		now, value, low, high float64
	}{
		{ChangeSpeed, x.now.speed, a.to.speed, float64(x.in.Limits.GroundSpeed.Low), float64(x.in.Limits.GroundSpeed.High)},
		{ChangePressure, x.now.pressure, a.to.pressure, float64(pressure.Low), float64(pressure.High)},
		{ChangeEngineSpeed, x.now.engine, a.to.engine, engineLow, engineHigh},
		{ChangeDutyCycle, x.now.duty, a.to.duty, float64(x.in.DutyCycleLimits.Low), float64(x.in.DutyCycleLimits.High)},
	} {
		if l.value == 0 {
			continue
		}
		if s := bound(l.value, l.low, l.high); s.atLimit {
			reasons := beyond[limitOf{l.of, s.end}]
			reason := reasons.solved
			if l.value == l.now {
				reason = reasons.left
			}
			no := x.rejection(a, reason)
			no.setNeeded(l.of, l.value, s.value)
			return no, false
		}
	}
	return Rejection{}, true
}

// rejection writes an attempt down as rejected.
func (x *planner) rejection(a attempt, reason RejectionReason) Rejection {
	no := Rejection{Change: a.changes.only(), Changes: a.changes, Reason: reason, Gear: a.to.gear, Nozzle: a.to.nozzle}
	no.DropletClass, _ = x.droplets(a.to)
	no.Attempt = a.exported()
	if a.changes.Has(ChangeGear) {
		no.GroundSpeed = unit.Speed(a.to.speed)
	}
	if a.solves {
		if a.by == ChangeEngineSpeed { // the limit of the speed may be the narrower one
			no.setNeeded(ChangeSpeed, a.needed*x.perTurn(a.to.gear), 0)
		}
		no.setNeeded(a.by, a.needed, 0)
	}
	rate, off := x.predict(a)
	if !a.atLimit {
		no.PredictedApplicationRate, no.Deviation = unit.ApplicationRate(rate), unit.Ratio(off)
		return no
	}
	no.ApplicationRateAtLimit, no.DeviationAtLimit = unit.ApplicationRate(rate), unit.Ratio(off)
	switch a.limited {
	case ChangeSpeed:
		no.SpeedLimit = unit.Speed(a.to.speed)
	case ChangePressure:
		no.PressureLimit = unit.Pressure(a.to.pressure)
	case ChangeEngineSpeed:
		no.EngineSpeedLimit = unit.RotationalSpeed(a.to.engine)
	case ChangeDutyCycle:
		no.DutyCycleLimit = unit.Ratio(a.to.duty)
	}
	return no
}

// decide adds an attempt as a plan or as a rejection.
func (x *planner) decide(a attempt) {
	if no, ok := x.judge(a); !ok {
		x.r.Rejected = append(x.r.Rejected, no)
		return
	}
	x.r.Plans = append(x.r.Plans, x.planOf(a))
}
