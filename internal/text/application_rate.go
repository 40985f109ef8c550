package text

var applicationRate = []entry{
	{"problem.need_three_of_four", "Give three of nozzleFlowRate, groundSpeed, sprayedWidthPerNozzle and applicationRate; the fourth is computed. A nozzle with sprayPressure stands in for nozzleFlowRate, width with nozzles for sprayedWidthPerNozzle.", ""},
	{"problem.all_four_given", "All four of flow, speed, width and rate are given, so nothing is left to compute. Leave one out; a rate to compare with goes into targetApplicationRate.", ""},
	{"problem.rate_basis_required", "With rowSpacing the rates per treated and per field area differ. Say which one the target and the label's maximum mean: treated or field.", ""},
	{"warning.unusual_rate", "This rate is unusual for a field sprayer: it is outside 1 to 2000 L/ha, which is 0.11 to 214 gal_us/acre. Check the values that it comes from, and their units.", ""},
	{"warning.width_exceeds_row_spacing", "The treated width is wider than the row spacing, so neighboring passes overlap. Check width, nozzles and rowSpacing.", ""},
	{"warning.spray_pressure_unused", "sprayPressure changes nothing here, because no nozzle is given.", ""},
}
