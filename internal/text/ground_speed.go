package text

var groundSpeed = []entry{
	{"warning.single_run", "One run cannot show whether the speed holds. Time at least two, one in each direction."},
	{"warning.short_run", "Under 20 s, the stopwatch hand's delay weighs too much. Use a longer course."},
	{"warning.unusual_speed", "This speed is unusual for a field sprayer. Check the values that it comes from, and their units."},
}
