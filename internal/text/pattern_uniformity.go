package text

var patternUniformity = []entry{
	{"warning.few_places", "So few cups leave much of the boom unseen. Set at least five, evenly under the spray of several nozzles.", ""},
	{"warning.pattern_cut_off", "An outermost cup caught more than half of the fullest one, so the spray seems to go on beyond the row. Set more cups on that side.", ""},
	{"warning.gap_between_nozzles", "At this spacing the patterns of neighboring nozzles do not meet: a stripe between them gets nothing.", ""},
	{"problem.all_empty", "Every cup of this row is empty, so there is no mean to compare with.", ""},
	{"problem.closer_than_cups", "These nozzles would be closer together than the cups were. Catch the pattern in cups that are closer.", ""},
	{"next.mend_pattern", "Before anything is sprayed, look at the places that are outside: nozzles that are blocked, worn or of another kind, that point elsewhere, or spray on a part of the machine; then the height of the boom, the pressure and the wind. Catch again after each change.", ""},
}
