package calc

import (
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// machineState is everything that the rate hangs on. Zero is not known; of the
// engine also that a plan leaves it open; of gear and nozzle that they stay.
type machineState struct {
	speed, pressure, engine, duty float64
	gear, nozzle                  int
}

// near tells that two states with the same gear and nozzles differ by no more than conversion
// leaves behind.
func (s machineState) near(other machineState) bool {
	same := func(a, b float64) bool { return finding.Difference(a, b) == 0 }
	return same(s.speed, other.speed) && same(s.pressure, other.pressure) && same(s.engine, other.engine) && same(s.duty, other.duty)
}

// planner holds what every attempt starts from.
type planner struct {
	in          CorrectionsInput
	r           *CorrectionsResult
	now         machineState
	gear        int // the number of the present gear in Gears, 0 when it is not there
	target, aim float64
	// fittedExponent tells that PressureExponent was given.
	fittedExponent bool
	tried          []outcomeOfAttempt  // in the present combination
	few            [8]outcomeOfAttempt // memory for them, enough of speed and pressure
}

// An outcomeOfAttempt tells whether some changes that lead to a state are a plan.
type outcomeOfAttempt struct {
	changes Changes
	to      machineState
	planned bool
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

// plan tries every combination of gear and nozzles, the present ones first: as it is, and
// with each thing that can be solved in it. Each is a plan or rejected, so that a crew which
// asks why not has the numbers; the lists of a request bound how many there are.
func (x *planner) plan() {
	x.warnGiven()
	nozzles := len(x.in.Nozzles)
	x.combination(0, 0)
	for _, c := range [...]Change{ChangePressure, ChangeEngineSpeed, ChangeDutyCycle} {
		if reason := x.usable(x.now, c); reason != "" && (x.now.value(c) != 0 || c == ChangePressure) {
			x.reject(x.unusable(c, reason))
		}
	}
	if x.now.pressure == 0 {
		x.byNozzle()
		nozzles = 0
	}
	for nozzle := 0; nozzle <= nozzles; nozzle++ {
		if nozzle != 0 && x.isPresent(nozzle) {
			continue
		}
		for gear := 0; gear <= len(x.in.Gears); gear++ {
			if (gear != x.gear || gear == 0) && gear+nozzle != 0 {
				x.combination(gear, nozzle)
			}
		}
	}
}

// warnGiven reports what of the input makes plans uncertain.
func (x *planner) warnGiven() {
	warn := func(place finding.Place, code string) {
		x.r.Warnings = append(x.r.Warnings, finding.Warning{Place: place, Code: code})
	}
	if x.in.Limits.GroundSpeed == (SpeedRange{}) {
		warn(limitsGroundSpeed, WarnSpeedLimitsNotGiven)
	}
	x.warnCharts()
	if x.now.engine != 0 && x.in.Pump.Drive == ShaftDrive && x.in.RatedShaft.EngineSpeed == 0 {
		warn(finding.Member("ratedShaft"), WarnRatedShaftNotGiven)
	}
}

// combination tries a gear with nozzles, 0 being the present ones.
func (x *planner) combination(gear, nozzle int) {
	base := attempt{to: x.now}
	x.tried = x.few[:0]
	if nozzle != 0 {
		base.changes |= setOf(ChangeNozzle)
		base.to.nozzle = nozzle
	}
	if gear != 0 {
		base.changes |= setOf(ChangeGear)
		base.to.gear, base.to.speed = gear, x.now.engine*x.perTurn(gear)
	}
	if base.changes != 0 && x.decide(base) && finding.Difference(x.rate(base.to), x.aim) == 0 {
		return
	}
	present, engine := base.changes == 0, x.now.engine != 0 && x.usable(base.to, ChangeEngineSpeed) == ""
	switch {
	case engine:
		if present {
			x.solveEach(base, ChangeSpeed)
		}
		x.solveEach(base, ChangeEngineSpeed)
	case present || len(x.in.Gears) == 0:
		x.solveEach(base, ChangeSpeed)
	default:
		x.solveEach(base, "")
	}
}

// solveEach solves each lever of a combination, of which the speed is changed by one
// means, if any: alone, beside what has to be brought inside its limits, and where none of
// these is a plan, beside another that is stopped at its limit.
func (x *planner) solveEach(base attempt, drive Change) {
	levers := make([]Change, 0, 3)
	if drive != "" {
		levers = append(levers, drive)
	}
	for _, c := range [...]Change{ChangePressure, ChangeDutyCycle} {
		if x.now.value(c) != 0 && x.usable(base.to, c) == "" {
			levers = append(levers, c)
		}
	}
	planned := false
	for _, by := range levers {
		planned = x.decide(x.solve(base, by)) || planned
		if from := x.inside(base, levers, by); from.changes != base.changes {
			planned = x.decide(x.solve(from, by)) || planned
		}
	}
	if planned {
		return
	}
	for _, other := range levers {
		stopped := x.solve(x.inside(base, levers, other), other)
		if !stopped.atLimit || finding.Difference(stopped.value, base.to.value(other)) == 0 {
			continue
		}
		for _, by := range levers {
			if by != other {
				x.decide(x.solve(stopped, by))
			}
		}
	}
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
	from    machineState
}

// predict is the rate of an attempt and its deviation from the target.
func (x *planner) predict(a attempt) (rate, off float64) {
	rate = x.rate(a.to)
	if a.solves && !a.atLimit {
		rate = x.aim // what it was solved for
	}
	return rate, finding.Deviation(rate, x.target)
}

// judge decides whether an attempt may be a plan; the rejection says why not.
func (x *planner) judge(a attempt) (Rejection, bool) {
	predicted, off := x.predict(a)
	lawful := x.in.lawful().bound(predicted)
	switch {
	case finding.Judge(off, float64(x.in.RateTolerance)) != finding.Within && a.atLimit:
		return x.rejection(a, beyond[limitOf{a.limited, a.end}].solved), false
	case finding.Judge(off, float64(x.in.RateTolerance)) != finding.Within:
		return x.rejection(a, ReasonOutsideTolerance), false
	case lawful.atLimit && lawful.end == maximum:
		return x.rejection(a, ReasonOverLabelMaximum), false
	case lawful.atLimit:
		return x.rejection(a, ReasonUnderLabelMinimum), false
	case x.in.SprayVolumeRange.holds(unit.ApplicationRate(predicted)) == finding.Outside:
		return x.rejection(a, ReasonOutsideSprayVolumeRange), false
	}
	if no, ok := x.insideLimits(a); !ok {
		return no, false
	}
	if a.changes.Has(ChangeSpeed) && len(x.in.Gears) > 0 && !x.reachable(a.to.speed) {
		if x.in.Pump.follows() {
			return x.rejection(a, ReasonPumpFollowsEngine), false
		}
		return x.rejection(a, ReasonNoGearReachesSpeed), false
	}
	if class, allowed := x.droplets(a.to); class != DropletClassUnknown && allowed == finding.Outside {
		return x.rejection(a, ReasonDropletClassNotAllowed), false
	}
	return Rejection{}, true
}

// insideLimits holds the whole state of an attempt to the limits, what it leaves
// as it is included.
func (x *planner) insideLimits(a attempt) (Rejection, bool) {
	for _, of := range [...]Change{ChangePressure, ChangeSpeed, ChangeEngineSpeed, ChangeDutyCycle} {
		value, limits := a.to.value(of), x.limits(a.to, of)
		if value == 0 {
			continue
		}
		if limits.apart() {
			return x.rejection(a, ReasonPressureRangesApart), false
		}
		if s := limits.bound(value); s.atLimit {
			reason := beyond[limitOf{of, s.end}].solved
			if value == x.now.value(of) {
				reason = beyond[limitOf{of, s.end}].left
			}
			no := x.rejection(a, reason)
			no.setNeeded(of, value, s.value)
			return no, false
		}
	}
	return Rejection{}, true
}

// decide adds an attempt as a plan or as a rejection, and tells which. One that was decided
// already is not added again.
func (x *planner) decide(a attempt) (planned bool) {
	for i := range x.tried {
		if t := &x.tried[i]; t.changes == a.changes && t.to.near(a.to) {
			return t.planned
		}
	}
	no, planned := x.judge(a)
	x.tried = append(x.tried, outcomeOfAttempt{a.changes, a.to, planned})
	if planned {
		x.r.Plans = append(x.r.Plans, x.planOf(a))
	} else {
		x.reject(no)
	}
	return planned
}

func (x *planner) reject(no Rejection) { x.r.Rejected = append(x.r.Rejected, no) }
