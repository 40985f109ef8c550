package text

var _ = entries{
	{"warning.single_run", "One run cannot show that the speed is steady. Time at least two runs, one each way.", "Un solo recorrido no puede mostrar si la velocidad es pareja. Cronometre al menos dos, uno en cada sentido."},
	{"warning.one_direction", "All runs went the same way, so slope and wind affect the speed. Time a run back too.", "Todos los recorridos fueron en el mismo sentido, así que la pendiente y el viento afectan la velocidad. Cronometre también uno de vuelta."},
	{"warning.short_run", "Under 20 s, the delay of your hand on the stopwatch counts too much. Use a longer test course.", "Con menos de 20 s, el retraso de la mano en el cronómetro pesa demasiado. Use un tramo más largo."},
	{"warning.short_course", "This test course is too short: you drive it in a few seconds and cannot measure the catch well. Choose a larger multiple. Or use the width of one nozzle or one bed, not the whole boom.", "Este tramo es demasiado corto: se recorre en pocos segundos y el aforo no se puede medir bien. Elija un múltiplo mayor. O use el ancho de una boquilla o de una cama, no el del aguilón entero."},
	{"warning.unusual_flow", "This flow is unusual for a nozzle. Check the volume, the time, the nozzle count and their units.", "Este caudal es poco común en una boquilla. Revise el volumen, el tiempo, el número de boquillas y sus unidades."},
	{"warning.unusual_density", "Few spray liquids are this light or this heavy. Relative density compares the liquid with water, which is 1. Check the value and its unit.", "Pocos líquidos que se aplican son tan livianos o tan pesados. La densidad relativa compara el líquido con el agua, que es 1. Revise el valor y su unidad."},
	{"warning.unusual_speed", "This speed is unusual for a field sprayer. Check the values behind it and their units.", "Esta velocidad es poco común en una aspersora de campo. Revise los valores de los que sale y sus unidades."},
}.add()
