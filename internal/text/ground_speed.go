package text

var groundSpeed = []entry{
	{"warning.single_run", "One run cannot show whether the speed holds. Time at least two, one in each direction.", ""},
	{"warning.one_direction", "All runs went the same way, so slope and wind stay in the speed. Time one run back as well.", ""},
	{"warning.short_run", "Under 20 s, the stopwatch hand's delay weighs too much. Use a longer course.", ""},
	{"warning.unusual_speed", "This speed is unusual for a field sprayer. Check the values that it comes from, and their units.", ""},
}
