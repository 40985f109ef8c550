package text

var nozzleSelection = []entry{
	{"selection.choose", "The first candidate fits best: its pressure is nearest the middle of the range. Set its pressure, catch its output, and only then trust the rate.", ""},
	{"selection.none_within_range", "None of these nozzles reaches the rate inside the pressure range. Drive at another speed, use another size, or allow another pressure where nozzle and label leave it.", ""},
	{"selection.none_allowed", "Some of these nozzles reach the rate inside the pressure range, but of none is it known that its droplet class is allowed. Look for their makers' droplet charts, for another kind of nozzle, or for another pressure.", ""},
	{"selection.would_fit", "The nearest nozzle keeps the rate at groundSpeed with sprayPressure, the end of the range. At the speed that was asked for it would need neededPressure; of a range of speeds, at the end where it is further outside.", ""},

	{"note.from_memory", "The rating of this size is from memory, not from a source that was read. Compare it with the maker's sheet.", ""},
	{"note.pressure_above_range", "It would need more than the highest pressure of the range: the nozzle is too small.", ""},
	{"note.pressure_below_range", "It would need less than the lowest pressure of the range: the nozzle is too large.", ""},
	{"note.ranges_do_not_meet", "The nozzle's own pressure range and the one asked for have no pressure in common.", ""},
	{"note.droplet_class_unknown", "The droplet chart does not say what drops this nozzle makes at all of these pressures, so they are not known to be allowed.", ""},
	{"note.droplet_class_not_allowed", "The droplet chart names a class here that is not among those allowed.", ""},

	{"warning.droplet_entry_unused", "This line of the droplet chart is of none of the nozzles to choose from. Check its size or label.", ""},

	{"caution.iso_10625_scope", "Sizes and colors of ISO 10625 are for nozzles whose flow one part sets. They are not meant for nozzles whose flow several parts set, and may not fit liquid fertilizer.", ""},
	{"caution.droplet_chart", "A droplet class is of one kind of nozzle at one pressure, and comes from its maker's chart. The color of a size says nothing of it.", ""},
	{"caution.catch_before_use", "A rating is not a measurement. Catch the output of the new nozzles at the working pressure before you spray.", ""},

	{"nozzle_sizes.detail", "The sizes of ISO 10625 with their colors. A size means a flow of water at a pressure: iso_3_bar and us_40_psi differ by 1.3 % at every size, so they are never treated as one.", ""},
	{"nozzle_sizes.us_40_psi", "Colors and US gal/min at 40 psi, sizes 01 to 08.", ""},
	{"nozzle_sizes.iso_3_bar", "Printed L/min at 2 bar, which are those at 3 bar times the square root of 2/3, sizes 01 to 08.", ""},
	{"nozzle_sizes.scope", "What the standard is for. Its text was not read.", ""},
}
