package text

var wearForecast = []entry{
	{"verdict.no_wear", "The flow does not rise from catch to catch: no wear can be seen.", ""},
	{"verdict.will_reach", "The set wears and is not above its limit yet. If it goes on like this it will be when the answer says.", ""},
	{"verdict.worn_now", "At the last catch the set was above its limit: it is worn.", ""},
	{"next.catch_again", "Catch the same nozzles again at the same pressure, at least once a season, and before the earliest time that the forecast names.", ""},
	{"next.replace_worn_set", "Replace all nozzles of the set with new ones of one kind. Catch the new set before you trust it, write down its flow, and work out the rate again.", ""},
	{"warning.wear_uncertain", "The catches scatter so much about their line that nothing bounds the time. Catch more often, for longer, and at one pressure.", ""},
	{"warning.far_forecast", "The forecast reaches farther ahead than the catches reach back. Catch again on the way.", ""},
	{"warning.latest_over_limit", "The last catch is above the limit, although the line through all is not. Catch again at once; if it stays above, the set is worn.", ""},
	{"warning.below_new", "This catch is far below the new flow. That is dirt, not wear, and it bends the line. Clean the nozzles and strainers and catch again.", ""},
	{"warning.far_pressure", "This catch stands at more than twice or less than half of the common pressure, so its flow at that one is less sure. Catch at one pressure each time.", ""},
	{"problem.needs_two_times", "All catches are of the same time, so they show no wear. Give catches of at least two times.", ""},
	{"problem.not_a_date", "This must be a day of the calendar, written YYYY-MM-DD, in the years from 1900 to 2199.", ""},
}
