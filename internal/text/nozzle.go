package text

// nozzle is what every operation with a nozzle may say of it.
var nozzle = []entry{
	{"problem.not_rising", "The pressures of a flow chart must rise from each line to the next. Sort the lines, and leave out any that stands twice.", ""},
	{"warning.outside_flow_chart", "This pressure is outside the flow chart. The square-root law from the nearest end of the chart was used; the maker's sheet says nothing of it.", ""},
	{"warning.flow_chart_implausible", "From the line before to this one the flow changes with pressure as it does for no nozzle. Compare both lines with the maker's sheet.", ""},
}
