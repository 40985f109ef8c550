package text

var _ = entries{
	{"warning.short_catch", "Under 20 s, the delay of your hand on the stopwatch counts too much. Catch the output for 30 s or longer.", "Con menos de 20 s, el retraso de la mano en el cronómetro pesa demasiado. Mida durante 30 s o más."},
	{"warning.mixed_pressures", "The catches are at different pressures. Their plain average is not the flow at any of them.", "Los aforos son a presiones distintas. Su promedio simple no corresponde a ninguna de esas presiones."},
	{"warning.exponent_unusual", "The flow of these catches changes with pressure in an unusual way. Most nozzles have an exponent of 0.4 to 0.6. Check the readings, and that all nozzles are the same type.", "El caudal de estos aforos cambia con la presión de manera poco común. La mayoría de las boquillas tiene un exponente de 0,4 a 0,6. Revise las lecturas y que todas las boquillas sean del mismo tipo."},
	{"warning.exponent_implausible", "In no nozzle does flow change with pressure as in these catches. The square-root law is used instead. Check the readings, and that all nozzles are the same type.", "En ninguna boquilla cambia el caudal con la presión como en estos aforos. En su lugar se usa la ley de la raíz cuadrada. Revise las lecturas y que todas las boquillas sean del mismo tipo."},
	{"warning.far_prediction", "This pressure is over twice or under half of every pressure you measured at. Catch the output at this pressure before you rely on it.", "Esta presión es más del doble o menos de la mitad de todas las que usó al medir. Mida a esta presión antes de confiar en el resultado."},
}.add()
