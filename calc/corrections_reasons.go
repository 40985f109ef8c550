package calc

import "wetrun/calc/finding"

// RejectionReason is why a change was rejected.
type RejectionReason string

const (
	ReasonBoomUneven              RejectionReason = "boom_uneven"               // repair the boom first
	ReasonRateController          RejectionReason = "rate_controller"           // it would undo the change
	ReasonPressureNotMeasured     RejectionReason = "pressure_not_measured"     // nothing to start from
	ReasonPressureLimitsNotGiven  RejectionReason = "pressure_limits_not_given" // a nozzle works in its own range only
	ReasonOverLabelMaximum        RejectionReason = "over_label_maximum"        // in tolerance at the limit, but over the label maximum
	ReasonUnderLabelMinimum       RejectionReason = "under_label_minimum"       // likewise
	ReasonOutsideTolerance        RejectionReason = "outside_tolerance"         // nothing is solved here, and it misses the target
	ReasonPumpNotGiven            RejectionReason = "pump_not_given"            // so nobody knows what the flow does with the engine
	ReasonPumpFollowsEngine       RejectionReason = "pump_follows_engine"       // flow and speed change together
	ReasonEngineLimitsNotGiven    RejectionReason = "engine_limits_not_given"
	ReasonDutyCycleLimitsNotGiven RejectionReason = "duty_cycle_limits_not_given"
	ReasonOutsideSprayVolumeRange RejectionReason = "outside_spray_volume_range" // in tolerance, but outside the range that the label asks for
	ReasonDropletClassNotAllowed  RejectionReason = "droplet_class_not_allowed"
	ReasonPressureRangesApart     RejectionReason = "pressure_ranges_apart" // no pressure suits both the system and the nozzle
	ReasonNoGearReachesSpeed      RejectionReason = "no_gear_reaches_speed" // inside the limits of the engine

	// It would take more, or less, than a limit allows.
	ReasonAboveMaximumSpeed       RejectionReason = "above_maximum_speed"
	ReasonAboveMaximumPressure    RejectionReason = "above_maximum_pressure"
	ReasonAboveMaximumEngineSpeed RejectionReason = "above_maximum_engine_speed"
	ReasonAboveMaximumDutyCycle   RejectionReason = "above_maximum_duty_cycle"
	ReasonBelowMinimumSpeed       RejectionReason = "below_minimum_speed"
	ReasonBelowMinimumPressure    RejectionReason = "below_minimum_pressure"
	ReasonBelowMinimumEngineSpeed RejectionReason = "below_minimum_engine_speed"
	ReasonBelowMinimumDutyCycle   RejectionReason = "below_minimum_duty_cycle"

	// What it leaves as it is lies outside its limits.
	ReasonStaysAboveMaximumSpeed       RejectionReason = "stays_above_maximum_speed"
	ReasonStaysAboveMaximumPressure    RejectionReason = "stays_above_maximum_pressure"
	ReasonStaysAboveMaximumEngineSpeed RejectionReason = "stays_above_maximum_engine_speed"
	ReasonStaysAboveMaximumDutyCycle   RejectionReason = "stays_above_maximum_duty_cycle"
	ReasonStaysBelowMinimumSpeed       RejectionReason = "stays_below_minimum_speed"
	ReasonStaysBelowMinimumPressure    RejectionReason = "stays_below_minimum_pressure"
	ReasonStaysBelowMinimumEngineSpeed RejectionReason = "stays_below_minimum_engine_speed"
	ReasonStaysBelowMinimumDutyCycle   RejectionReason = "stays_below_minimum_duty_cycle"
)

// Words lists every reason.
func (RejectionReason) Words() []string {
	return finding.WordsOf([]RejectionReason{
		ReasonBoomUneven, ReasonRateController, ReasonPressureNotMeasured, ReasonPressureLimitsNotGiven, ReasonOverLabelMaximum, ReasonUnderLabelMinimum,
		ReasonOutsideTolerance, ReasonPumpNotGiven, ReasonPumpFollowsEngine, ReasonEngineLimitsNotGiven, ReasonDutyCycleLimitsNotGiven,
		ReasonOutsideSprayVolumeRange, ReasonDropletClassNotAllowed, ReasonPressureRangesApart, ReasonNoGearReachesSpeed,
		ReasonAboveMaximumSpeed, ReasonAboveMaximumPressure, ReasonAboveMaximumEngineSpeed, ReasonAboveMaximumDutyCycle,
		ReasonBelowMinimumSpeed, ReasonBelowMinimumPressure, ReasonBelowMinimumEngineSpeed, ReasonBelowMinimumDutyCycle,
		ReasonStaysAboveMaximumSpeed, ReasonStaysAboveMaximumPressure, ReasonStaysAboveMaximumEngineSpeed, ReasonStaysAboveMaximumDutyCycle,
		ReasonStaysBelowMinimumSpeed, ReasonStaysBelowMinimumPressure, ReasonStaysBelowMinimumEngineSpeed, ReasonStaysBelowMinimumDutyCycle,
	})
}

// An end is one of the two of a range that limits a value.
type end uint8

const (
	neither end = iota
	minimum
	maximum
)

// A limitOf is an end of the range of what a change changes.
type limitOf struct {
	of  Change
	end end
}

// beyond are the reasons of what lies beyond a limit: of a value that was solved for,
// and of one that is left as it is.
var beyond = map[limitOf]struct{ solved, left RejectionReason }{
	{ChangeSpeed, maximum}:       {ReasonAboveMaximumSpeed, ReasonStaysAboveMaximumSpeed},
	{ChangeSpeed, minimum}:       {ReasonBelowMinimumSpeed, ReasonStaysBelowMinimumSpeed},
	{ChangePressure, maximum}:    {ReasonAboveMaximumPressure, ReasonStaysAboveMaximumPressure},
	{ChangePressure, minimum}:    {ReasonBelowMinimumPressure, ReasonStaysBelowMinimumPressure},
	{ChangeEngineSpeed, maximum}: {ReasonAboveMaximumEngineSpeed, ReasonStaysAboveMaximumEngineSpeed},
	{ChangeEngineSpeed, minimum}: {ReasonBelowMinimumEngineSpeed, ReasonStaysBelowMinimumEngineSpeed},
	{ChangeDutyCycle, maximum}:   {ReasonAboveMaximumDutyCycle, ReasonStaysAboveMaximumDutyCycle},
	{ChangeDutyCycle, minimum}:   {ReasonBelowMinimumDutyCycle, ReasonStaysBelowMinimumDutyCycle},
}
