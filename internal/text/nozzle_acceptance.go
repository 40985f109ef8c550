package text

var nozzleAcceptance = []entry{
	{"decision.keep", "Everything that was caught is within the range. This says nothing of what was not caught.", ""},
	{"decision.fix_listed", "Some of what was caught is outside the range. Do what the actions say, and catch those again.", ""},
	{"decision.replace_all", "So many are outside the range that all nozzles are to be replaced with a new set, alike wherever they were meant to be alike. Catch the new set before you trust it.", ""},
	{"action.clean_and_recatch", "It gives too little. Clean the nozzle and its strainer with a soft brush, look for a kinked hose, and catch it again.", ""},
	{"action.replace", "It gives too much, so it is worn. Replace the nozzle with one of the same kind, and catch it again.", ""},
	{"action.catch_each_nozzle", "The drop gives too much, but the sum hides which nozzle is worn. Catch each of its nozzles alone before you buy parts.", ""},
	{"action.replace_all_and_recatch", "Replace all nozzles with a new set, alike wherever they were meant to be alike, and catch the new set before you trust it.", ""},
	{"warning.systematic_deviation", "All that are outside lie on the same side, and they agree with each other. Check the gauge, the pressure, the nozzle size and the jug before you buy parts.", ""},
	{"problem.nozzle_required", "The tolerance is measured from the maker's figure, so the nozzle is needed: give its rating or size, or use the basis mean.", ""},
	{"problem.mean_needs_two", "One catch has no mean to be compared with. Catch at least two, or give the nozzle and use the basis rated.", ""},
	{"problem.fewer_than_caught", "There cannot be fewer places to catch at than catches.", ""},
	{"problem.rated_basis_only", "A drop that carries different nozzles has no mean to be compared with. Use the basis rated, or leave nozzlesOnDrop to a request of its own.", ""},
	{"warning.drop_not_in_mean", "This drop carries different nozzles. It is judged by the sum of their ratings, and left out of the mean, the coefficient of variation and the sides.", ""},
}
