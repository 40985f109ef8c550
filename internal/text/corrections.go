package text

var corrections = []entry{
	{"correction.none_needed", "The rate is within its tolerance. Nothing has to change."},
	{"correction.choose_plan", "The rate has to change. Choose one of the plans, set it, and measure again what the plan names before you trust it."},
	{"correction.repair_first", "The boom is not in order: its pressure or its output is uneven. Put that right first; the rate of an uneven boom cannot be corrected."},
	{"correction.calibrate_controller", "A rate controller in automatic holds the rate, so a change by hand changes nothing. Calibrate its flow meter and speed sensor instead."},
	{"correction.out_of_reach", "No single change inside the limits is enough. Look at what was rejected: another gear, another nozzle size, or both together may do it."},
	{"rejected.above_maximum_speed", "It would need a speed above the highest that is allowed, and at that limit the rate is still out of tolerance."},
	{"rejected.below_minimum_speed", "It would need a speed below the lowest that is allowed, and at that limit the rate is still out of tolerance."},
	{"rejected.above_maximum_pressure", "It would need a pressure above the highest that is allowed, and at that limit the rate is still out of tolerance."},
	{"rejected.below_minimum_pressure", "It would need a pressure below the lowest that is allowed, and at that limit the rate is still out of tolerance."},
	{"rejected.boom_uneven", "No correction is planned on an uneven boom."},
	{"rejected.rate_controller", "The rate controller would undo it."},
	{"rejected.pressure_not_measured", "The pressure at which the rate was measured is not known. Give measured.sprayPressure."},
	{"rejected.pressure_limits_not_given", "A nozzle works in its own pressure range only. Give limits.sprayPressure to have this planned."},
	{"rejected.over_label_maximum", "At the limit the rate would be within tolerance but above the label's maximum, which has none."},
	{"warning.speed_limits_not_given", "No speed limits were given. Check that the tractor, the ground and the label allow the planned speed."},
	{"warning.boom_evenness_unknown", "Nothing says that the boom is even. Check pressure and output across it first: no plan helps an uneven boom."},
	{"problem.above_label_maximum", "The target is above the label's maximum, which may not be passed. Choose a lower target."},
	{"problem.out_of_range", "This is outside what is possible for a nozzle: from 0.1 to 1."},
}
