package calc

import (
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// CorrectionsInput is what was measured, what is wanted, and what is possible.
type CorrectionsInput struct {
	Measured              MeasuredState
	TargetApplicationRate unit.ApplicationRate
	RateTolerance         unit.Ratio           // zero stands for DefaultRateTolerance
	LabelMaximum          unit.ApplicationRate // zero when not given; it has no tolerance
	LabelMinimum          unit.ApplicationRate // likewise
	// Guard is how far within the label's maximum and minimum a rate has to be predicted,
	// as a share of them, so that it is kept when it is measured again. Zero for none.
	Guard            unit.Ratio
	BoomEven         Evenness
	Limits           CorrectionLimits
	PressureExponent float64 // that catches gave; zero stands for the chart of the nozzle, without one for SquareRoot
	// RateController tells that a controller in automatic holds the rate, so that a
	// change of speed or pressure by hand changes nothing.
	RateController bool

	Nozzle  LabeledNozzle   // the present one; its range bounds the pressure
	Nozzles []LabeledNozzle // that may take its place; they need its rating

	Gears             []Gear           // that may be used, the present one among them or not
	EngineSpeedLimits EngineSpeedRange // zero when not known
	RatedShaft        RatedShaft
	Pump              Pump // zero when not known: no plan changes the engine speed then

	DutyCycleLimits DutyCycleRange // zero when not known: no plan by duty cycle then

	DropletChart          []DropletEntry
	AllowedDropletClasses []DropletClass // by the label; empty when not known
	SprayVolumeRange      RateRange      // of the label, on the same basis as the rates
}

// MeasuredState is the state in which the rate was measured.
type MeasuredState struct {
	ApplicationRate unit.ApplicationRate
	GroundSpeed     unit.Speed
	SprayPressure   unit.Pressure        // zero when not known: no plan by pressure then
	EngineSpeed     unit.RotationalSpeed // zero when not known; gears need it
	DutyCycle       unit.Ratio           // of pulsing nozzles; zero when they do not pulse
	// Gear is the label of the present gear. Empty stands for the one of Gears that
	// comes nearest to the measured speed, when it comes within DefaultRunTolerance.
	Gear string
}

// CorrectionLimits are what tractor, ground, nozzle and label allow. Zero when not
// known.
type CorrectionLimits struct {
	GroundSpeed   SpeedRange
	SprayPressure PressureRange
}

// A SpeedRange is a lowest and a highest speed.
type SpeedRange struct{ Low, High unit.Speed }

// holds judges whether a speed lies in the range; NotJudged when the range is not known.
func (r SpeedRange) holds(v unit.Speed) finding.Verdict {
	return PressureRange{unit.Pressure(r.Low), unit.Pressure(r.High)}.holds(unit.Pressure(v))
}

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
	Deviation         unit.Ratio // of the measured rate from the target
	RateTolerance     unit.Ratio // the one applied
	Within            finding.Verdict
	OverLabelMaximum  bool
	UnderLabelMinimum bool
	SprayVolume       finding.Verdict // whether the measured rate lies in SprayVolumeRange
	// Aim is the rate that plans are solved for, and Allowed are those that one may predict:
	// within the tolerance and the range of the label, and its limits by Guard. Zero where no
	// plan was looked for.
	Aim      unit.ApplicationRate
	Allowed  RateRange
	Guard    unit.Ratio // the one that was given
	Decision CorrectionDecision
	Plans    []Plan // at most MostPlans
	Rejected []Rejection
	// PlansLeftOut and RejectedLeftOut count those that there was no room for.
	PlansLeftOut, RejectedLeftOut int
	Warnings                      []finding.Warning
}

// CorrectionDecision is what follows.
type CorrectionDecision string

const (
	NoCorrectionNeeded  CorrectionDecision = "none_needed"          // within tolerance and lawful
	ChoosePlan          CorrectionDecision = "choose_plan"          // at least one plan is inside the limits
	RepairFirst         CorrectionDecision = "repair_first"         // the boom is uneven: no rate to correct yet
	CalibrateController CorrectionDecision = "calibrate_controller" // the controller holds the rate
	OutOfReach          CorrectionDecision = "out_of_reach"         // no change inside the limits is enough
)

// Words lists every decision.
func (CorrectionDecision) Words() []string {
	return finding.WordsOf([]CorrectionDecision{NoCorrectionNeeded, ChoosePlan, RepairFirst, CalibrateController, OutOfReach})
}

// Codes of Corrections.
const (
	CodeAboveLabelMaximum  = "above_label_maximum"        // the target itself is not lawful
	CodeBelowLabelMinimum  = "below_label_minimum"        // nor is this
	CodeOutOfRange         = "out_of_range"               // an exponent that no nozzle has
	CodeOutsideSprayVolume = "outside_spray_volume_range" // the target itself is not lawful
	CodeUnknownLabel       = "unknown_label"              // no item of the list has it
	CodeDuplicateLabel     = "duplicate_label"            // two items of a list have it

	WarnSpeedLimitsNotGiven = "speed_limits_not_given" // a plan by speed stands without: a nozzle sprays alike at any speed, not at any pressure
	WarnEvennessUnknown     = "boom_evenness_unknown"
	WarnAboveRatedShaft     = "above_rated_shaft_speed" // the engine turned faster than allowed
	WarnRatedShaftNotGiven  = "rated_shaft_not_given"
	// WarnOutsideLimits: what was measured lies outside the limits given, whether or not
	// the rate is right.
	WarnOutsideLimits = "outside_limits"
	// WarnGearSpeedDiffers: the list has the present gear at another speed than measured,
	// by more than DefaultRunTolerance, so the speeds of the other gears are in doubt too.
	WarnGearSpeedDiffers = "gear_speed_differs"
)

// Corrections finds the changes that bring a rate R to its target T. The rate goes
// with 1 / speed, with pressure^n, and with the engine speed through the speed alone
// while nothing but the nozzles sets the flow:
//
//	speed        v' = v x R / T
//	pressure     p' = p x (T / R)^(1/n)
//	engine speed e' = e x R / T
//	duty cycle   d' = d x T / R
//	gear         v' = groundSpeed x e / engineSpeed of that gear
//	nozzle       R' = R x (Q2 / p2^n) / (Q1 / p1^n), Q and p the ratings
//
// A nozzle with a flow chart follows the pressure by its chart C instead: the measured
// rate times C(p') / C(p), and p' is where that comes to the target. An exponent that is
// given, since catches of the present nozzle gave it, goes before the chart of that one.
// A plan whose pressure is outside the chart says so (outside_flow_chart).
//
// A plan aims at the target exactly, unless the label's limits with Guard keep it
// away; see aim. Where a limit stops it short, it stands at the limit if the rate there is
// within the tolerance and as the label has it; else it is rejected, with the numbers.
// Where no change of one thing is enough, the one that is stopped stays at its limit and
// another is solved beside it. What is outside its limits to begin with is brought to the
// nearer one, and another is solved beside it. Gears and nozzles cannot be aimed: each
// combination of them is a plan when it lands within the tolerance, and with each
// pressure, speed and duty cycle are solved too. Whatever a plan leaves as it is must
// lie inside its limits as well, and the engine never turns faster than at rated
// shaft speed. Of the pressure limits of system and nozzle the narrower holds.
//
// The engine speed is a means only while the flow does not follow it: with a pump
// that has a relief valve or a drive of its own. An unregulated pump on the shaft,
// positive displacement or centrifugal, gives with the engine speed what the speed
// takes away, so that in one gear the rate hardly changes.
//
// What a plan sprays has to lie in the range that the label asks for, and its
// droplet class, read in the chart, among those that the label allows. A class that
// no chart gives is unknown and never allowed: a plan that changes pressure or nozzle
// then says so, so that somebody looks it up.
//
// An uneven boom gets no plan, and neither does a rate that a controller holds. A rate
// within tolerance and lawful, at a speed, a pressure and a duty cycle inside their limits
// or held by a controller, needs none, unless the boom is uneven: a mean that is right says
// nothing of its parts.
//
// A plan that leaves the rate further from its target than it is, to keep a limit, comes after
// those that do not. Plans are ranked by Plan.Size and what they leave, |ln(rate / target)|, together, the
// least first: who changes less because a limit stops the plan short has not done with
// less. Of equal ones the nearer to the target comes first. Of many the best of each kind
// of change are kept, and then the best; see MostPlans.
//
// Measured rate and speed and the target must be above zero, a target may not be
// above the label maximum (above_label_maximum), below its minimum (below_label_minimum) or
// outside the label's range
// (outside_spray_volume_range), ranges may not be inverted (range_inverted), an exponent
// lies from 0.1 to 1 (out_of_range), a duty cycle is at most 1 (over_100_percent), labels
// of gears and nozzles are unique (duplicate_label) and the present one is among them
// (unknown_label); whatever speaks of the engine needs its measured speed (required), and
// whatever is put in place of a nozzle the rating of the present one.
//
// Source: speed for another rate, Montana State University Extension MT 2000-14
// (new mph = GPM x 5940 / (GPA x W)); pressure by p2 = p1 (Q2/Q1)^2, Croatian advisory
// sheet, seen in a copy only; speed with engine speed in one gear, flow with duty cycle,
// and what pumps do, common practice, no published source.
func Corrections(in CorrectionsInput) (CorrectionsResult, error) {
	if err := in.check(); err != nil {
		return CorrectionsResult{}, err
	}
	fittedExponent := in.PressureExponent != 0
	if !fittedExponent {
		in.PressureExponent = SquareRoot
	}
	if in.RateTolerance == 0 {
		in.RateTolerance = DefaultRateTolerance
	}
	r := CorrectionsResult{RateTolerance: in.RateTolerance, Guard: in.Guard, Decision: NoCorrectionNeeded}
	rate, target := float64(in.Measured.ApplicationRate), float64(in.TargetApplicationRate)
	r.Deviation = unit.Ratio(finding.Deviation(rate, target))
	r.Within = finding.Judge(float64(r.Deviation), float64(r.RateTolerance))
	r.OverLabelMaximum = in.overLabel(in.Measured.ApplicationRate)
	r.UnderLabelMinimum = in.underLabel(in.Measured.ApplicationRate)
	r.SprayVolume = in.SprayVolumeRange.holds(in.Measured.ApplicationRate)
	x := newPlanner(in, &r)
	x.fittedExponent = fittedExponent
	outside := x.warnMeasured()
	inOrder := r.Within == finding.Within && !in.lawful().bound(rate).atLimit && r.SprayVolume != finding.Outside
	if inOrder && (!outside || in.controlled()) && in.BoomEven != BoomUneven {
		return r, nil
	}
	if reason, decision := x.hopeless(); reason != "" {
		r.Decision = decision
		for _, c := range in.means() {
			r.Rejected = append(r.Rejected, Rejection{Change: c, Changes: setOf(c), Reason: reason})
		}
		return r, nil
	}
	x.plan()
	r.keepBest(target)
	r.Decision = ChoosePlan
	if len(r.Plans) == 0 {
		r.Decision = OutOfReach
	}
	if in.BoomEven == EvennessUnknown {
		r.Warnings = append(r.Warnings, finding.Warning{Place: finding.Member("boomEven"), Code: WarnEvennessUnknown})
	}
	return r, nil
}

// warnMeasured warns of what was measured where it should not have been, and tells whether
// something that a plan can bring in lies outside its limits.
func (x *planner) warnMeasured() (outside bool) {
	measured := finding.Member("measured")
	warn := func(name, code string) {
		x.r.Warnings = append(x.r.Warnings, finding.Warning{Place: measured.Member(name), Code: code})
	}
	if shaft := x.in.RatedShaft.EngineSpeed; shaft != 0 && !finding.AtMost(float64(x.in.Measured.EngineSpeed/shaft), 1) {
		warn("engineSpeed", WarnAboveRatedShaft)
	}
	for _, l := range [...]struct {
		of   Change
		name string
	}{{ChangeSpeed, "groundSpeed"}, {ChangePressure, "sprayPressure"}, {ChangeDutyCycle, "dutyCycle"}} {
		if x.now.value(l.of) != 0 && x.limits(x.now, l.of).bound(x.now.value(l.of)).atLimit {
			warn(l.name, WarnOutsideLimits)
			outside = true
		}
	}
	x.r.Warnings = append(x.r.Warnings, x.in.warnGear()...)
	return outside
}

// hopeless tells why no plan makes sense, and what follows; empty where one may.
func (x *planner) hopeless() (RejectionReason, CorrectionDecision) {
	switch {
	case x.in.BoomEven == BoomUneven:
		return ReasonBoomUneven, RepairFirst
	case x.in.controlled():
		return ReasonRateController, CalibrateController
	}
	return x.takeAim(), OutOfReach
}

// controlled tells whether a controller holds the rate, whatever speed and pressure are.
func (in CorrectionsInput) controlled() bool {
	return in.RateController || in.Pump.Regulation == RateControllerRegulation
}

// means are the changes that the input knows something of.
func (in CorrectionsInput) means() []Change {
	all := []Change{ChangeSpeed, ChangePressure}
	if in.Measured.EngineSpeed != 0 {
		all = append(all, ChangeEngineSpeed)
	}
	if len(in.Gears) > 0 {
		all = append(all, ChangeGear)
	}
	if in.Measured.DutyCycle != 0 {
		all = append(all, ChangeDutyCycle)
	}
	if len(in.Nozzles) > 0 {
		all = append(all, ChangeNozzle)
	}
	return all
}
