package text

var _ = entries{
	{"warning.single_run", "One run cannot show whether the speed holds. Time at least two, one in each direction.", "Un solo recorrido no puede mostrar si la velocidad se mantiene. Cronometre al menos dos, uno en cada sentido."},
	{"warning.one_direction", "All runs went the same way, so slope and wind stay in the speed. Time one run back as well.", "Todos los recorridos fueron en el mismo sentido, así que la pendiente y el viento quedan dentro de la velocidad. Cronometre también un recorrido de vuelta."},
	{"warning.short_run", "Under 20 s, the stopwatch hand's delay weighs too much. Use a longer course.", "Por debajo de 20 s, el retraso de la mano en el cronómetro pesa demasiado. Use un tramo más largo."},
	{"warning.short_course", "So short a course is driven in a few seconds, and what it catches cannot be measured well. Give a larger multiple, or the width of one nozzle or one bed instead of the whole boom.", "Un tramo tan corto se recorre en pocos segundos, y lo que se afora en él no se puede medir bien. Dé un multiple mayor, o el ancho de una boquilla o de una cama en lugar del aguilón entero."},
	{"warning.unusual_flow", "Hardly any nozzle gives so little or so much. Check the volume, the time and the count of nozzles that it comes from, and their units.", "Casi ninguna boquilla da tan poco o tanto. Revise el volumen, el tiempo y el número de boquillas de los que proviene, y sus unidades."},
	{"warning.unusual_density", "Hardly any liquid that is sprayed is so light or so heavy. Relative density is that of the liquid over that of water, 1 for water. Check it and its unit.", "Casi ningún líquido que se aplica es tan liviano o tan pesado. La densidad relativa es la del líquido sobre la del agua, 1 para el agua. Revísela junto con su unidad."},
	{"warning.unusual_speed", "This speed is unusual for a field sprayer. Check the values that it comes from, and their units.", "Esta velocidad es poco común en una pulverizadora de campo. Revise los valores de los que proviene y sus unidades."},
}.add()
