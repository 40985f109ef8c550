package text

var groundSpeed = []entry{
	{"warning.single_run", "One run cannot show whether the speed holds. Time at least two, one in each direction.", "Un solo recorrido no puede mostrar si la velocidad se mantiene. Cronometre al menos dos, uno en cada sentido."},
	{"warning.one_direction", "All runs went the same way, so slope and wind stay in the speed. Time one run back as well.", "Todos los recorridos fueron en el mismo sentido, así que la pendiente y el viento quedan dentro de la velocidad. Cronometre también un recorrido de vuelta."},
	{"warning.short_run", "Under 20 s, the stopwatch hand's delay weighs too much. Use a longer course.", "Por debajo de 20 s, el retraso de la mano en el cronómetro pesa demasiado. Use un tramo más largo."},
	{"warning.unusual_speed", "This speed is unusual for a field sprayer. Check the values that it comes from, and their units.", "Esta velocidad es poco común en una pulverizadora de campo. Revise los valores de los que proviene y sus unidades."},
}
