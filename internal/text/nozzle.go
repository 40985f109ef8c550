package text

// nozzle is what every operation with a nozzle may say of it.
var _ = entries{
	{"problem.not_rising", "The pressures of a flow chart must rise from line to line. Sort the lines, and leave out repeated ones.", "Las presiones de una tabla de caudales deben subir de línea en línea. Ordene las líneas y quite las repetidas."},
	{"warning.far_from_rating", "This pressure is over twice or under half the rated pressure, so the flow is less certain. Use the maker's chart, or catch new nozzles at this pressure.", "Esta presión es más del doble o menos de la mitad de la nominal. Por eso el caudal es menos seguro. Use la tabla del fabricante, o mida boquillas nuevas a esta presión."},
	{"warning.outside_flow_chart", "This pressure is outside the flow chart, so the maker's sheet does not cover it. The flow comes from the square-root law, from the nearest end of the chart.", "Esta presión está fuera de la tabla de caudales, así que la hoja del fabricante no la cubre. El caudal sale de la ley de la raíz cuadrada, desde el extremo más cercano de la tabla."},
	{"warning.flow_chart_implausible", "From the line before to this one, the flow changes with pressure as in no nozzle. Compare both lines with the maker's sheet.", "De la línea anterior a esta, el caudal cambia con la presión como en ninguna boquilla. Compare las dos líneas con la hoja del fabricante."},
}.add()
