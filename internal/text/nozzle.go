package text

// nozzle is what every operation with a nozzle may say of it.
var _ = entries{
	{"problem.not_rising", "The pressures of a flow chart must rise from line to line. Sort the lines, and leave out repeated ones.", "Las presiones de una tabla de caudales deben subir de línea en línea. Ordene las líneas y quite las repetidas."},
	{"warning.far_from_rating", "This pressure is more than twice or less than half of the one that the nozzle is rated at, so its flow there is less sure. Use the chart of the maker's sheet, or catch there with new nozzles.", "Esta presión es más del doble o menos de la mitad de aquella para la que se da el caudal nominal, así que el caudal a esta es menos seguro. Use la tabla de la hoja del fabricante, o afore ahí con boquillas nuevas."},
	{"warning.outside_flow_chart", "This pressure is outside the flow chart. The square-root law from the nearest end of the chart was used; the maker's sheet says nothing of it.", "Esta presión está fuera de la tabla de caudales. Se usó la ley de la raíz cuadrada desde el extremo más cercano de la tabla; la hoja del fabricante no dice nada de ella."},
	{"warning.flow_chart_implausible", "From the line before to this one the flow changes with pressure as it does for no nozzle. Compare both lines with the maker's sheet.", "De la línea anterior a esta, el caudal cambia con la presión como no lo hace ninguna boquilla. Compare ambas líneas con la hoja del fabricante."},
}.add()
