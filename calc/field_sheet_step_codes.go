package calc

import (
	"wetrun/calc/certainty"
	"wetrun/calc/finding"
)

// A Step is one thing to do next.
type Step struct {
	Code StepCode
	// Catch is the catch it speaks of, Bed the bed, Doubt the one of Doubts, Reading the lowest
	// of an uneven boom; -1 for none.
	Catch, Bed, Doubt, Reading int
	More                       int                    // of a step for more catches
	Again                      certainty.MeasureAgain // what would settle it, of a step to be sure
	On                         []certainty.Position   // the sides where nothing was measured
	// Rule is the row of the order that it follows from, and Because the entries and results
	// that this step rests on beside those that the rule asks about; see SheetRules.
	Rule    RuleID
	Because []finding.Place
}

// StepCode names a step, in the order of the job.
type StepCode string

const (
	StepCheckEntry              StepCode = "check_entry"                  // that nobody would believe
	StepUnderLabelMinimum       StepCode = "under_label_minimum"          // the rate, by however little
	StepAimLower                StepCode = "aim_lower"                    // the target is near the label's maximum
	StepCatchLonger             StepCode = "catch_longer"                 // the marks are too coarse
	StepRunLonger               StepCode = "run_longer"                   // the marks of the stopwatch are
	StepFinerGauge              StepCode = "finer_gauge"                  // its marks are too coarse
	StepCleanByEye              StepCode = "clean_by_eye"                 // one bed
	StepReplaceByEye            StepCode = "replace_by_eye"               // one bed
	StepReplaceAllByEye         StepCode = "replace_all_by_eye"           // more than three of a bed were rejected
	StepReadPressure            StepCode = "read_pressure"                // at three places or more
	StepRepairBoom              StepCode = "repair_boom"                  // by a qualified mechanic, before any use
	StepSetPressureInRange      StepCode = "set_pressure_in_range"        // the nozzle's own
	StepSetPressureWithinLimits StepCode = "set_pressure_within_limits"   // those given
	StepSettlePressure          StepCode = "settle_pressure"              // too close to its limit to be sure
	StepCheckCabGauge           StepCode = "check_cab_gauge"              // no flow, or a reference gauge
	StepCatchOutput             StepCode = "catch_output"                 // a dozen drops
	StepCatchAfterRepair        StepCode = "catch_after_repair"           // what was caught on an uneven boom tells nothing
	StepMatchPressures          StepCode = "match_pressures"              // catches and readings were at different pressures
	StepCheckSupply             StepCode = StepCode(CheckSupply)          // all catches were dry
	StepCatchNewNozzle          StepCode = StepCode(CatchNewNozzle)       // two groups of catches, and no rating
	StepCheckReference          StepCode = StepCode(CheckReference)       // all are off alike: the gauge, the size, the jug
	StepCheckSize               StepCode = StepCode(CheckSize)            // a bed or a side is off alike, by about a size
	StepCheckSooner             StepCode = "check_sooner"                 // in order, but near the limit
	StepCleanAndRecatch         StepCode = StepCode(CleanAndRecatch)      // one catch
	StepCheckAndRecatch         StepCode = StepCode(CheckAndRecatch)      // one catch
	StepReplace                 StepCode = StepCode(ReplaceNozzle)        // one catch
	StepCatchEachNozzle         StepCode = StepCode(CatchEachNozzle)      // one catch
	StepStillLow                StepCode = StepCode(StillLow)             // one catch, cleaned before
	StepStillHigh               StepCode = StepCode(StillHigh)            // one catch, replaced before
	StepCatchAgain              StepCode = StepCode(CatchAgain)           // one catch: it is too close to call, or stands apart from the others
	StepCatchMore               StepCode = StepCode(CatchMore)            // before a new set: whether it is needed is still open
	StepReplaceAllAndRecatch    StepCode = StepCode(ReplaceAllAndRecatch) // the whole set
	StepTimeRuns                StepCode = "time_runs"                    // at least two
	StepRepeatRuns              StepCode = "repeat_runs"                  // they differ too much
	StepDriveWithinLimits       StepCode = "drive_within_limits"          // those given
	StepTankOverLabelMaximum    StepCode = "tank_over_label_maximum"      // the rate that the tank says
	StepFindDisagreement        StepCode = "find_disagreement"            // the tank says another rate
	StepOverLabelMaximum        StepCode = "over_label_maximum"           // the rate, by however little
	StepGiveWidth               StepCode = "give_width"                   // width per nozzle, or of a bed and its nozzles
	StepSetTarget               StepCode = "set_target"                   // from the label
	StepSettleRate              StepCode = "settle_rate"                  // too close to its limits to be sure
	StepRepairBeforeRate        StepCode = "repair_before_rate"           // the rate of a boom not in order cannot be corrected
	StepChoosePlan              StepCode = "choose_plan"                  // from the correction
	StepCalibrateController     StepCode = "calibrate_controller"         // it holds the rate
	StepChangeNozzleOrGear      StepCode = "change_nozzle_or_gear"        // no single change is enough
	StepMeasureAgain            StepCode = "measure_again"                // after any change
	StepFileRecord              StepCode = "file_record"                  // keep it
	StepCalibrateAgain          StepCode = "calibrate_again"              // at least once a season
)

// Words lists every step.
func (StepCode) Words() []string {
	return finding.WordsOf([]StepCode{
		StepCheckEntry, StepUnderLabelMinimum, StepAimLower, StepCatchLonger, StepRunLonger, StepFinerGauge,
		StepCleanByEye, StepReplaceByEye, StepReplaceAllByEye, StepReadPressure, StepRepairBoom, StepSetPressureInRange,
		StepSetPressureWithinLimits, StepSettlePressure, StepCheckCabGauge, StepCatchOutput, StepCatchAfterRepair,
		StepMatchPressures, StepCheckSupply, StepCatchNewNozzle, StepCheckReference, StepCheckSize, StepCheckSooner, StepCleanAndRecatch,
		StepCheckAndRecatch, StepReplace, StepCatchEachNozzle, StepStillLow, StepStillHigh, StepCatchAgain, StepCatchMore, StepReplaceAllAndRecatch, StepTimeRuns, StepRepeatRuns,
		StepDriveWithinLimits, StepTankOverLabelMaximum, StepFindDisagreement, StepOverLabelMaximum, StepGiveWidth,
		StepSetTarget, StepSettleRate, StepRepairBeforeRate, StepChoosePlan, StepCalibrateController, StepChangeNozzleOrGear,
		StepMeasureAgain, StepFileRecord, StepCalibrateAgain,
	})
}
