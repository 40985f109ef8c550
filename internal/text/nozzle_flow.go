package text

var _ = entries{
	{"warning.short_catch", "Under 20 s, the stopwatch hand's delay weighs too much. Catch for 30 s or longer.", "Por debajo de 20 s, el retraso de la mano en el cronómetro pesa demasiado. Afore durante 30 s o más."},
	{"warning.mixed_pressures", "The catches stand at different pressures. Their plain mean is the flow at no one of them.", "Los aforos son a presiones distintas. Su simple promedio no es el caudal a ninguna de ellas."},
	{"warning.exponent_unusual", "The flow of these catches changes with pressure unlike that of a usual nozzle, whose exponent is from 0.4 to 0.6. Check the readings and that the nozzles are alike.", "El caudal de estos aforos no cambia con la presión como el de una boquilla común, cuyo exponente va de 0,4 a 0,6. Revise las lecturas y que las boquillas sean iguales."},
	{"warning.exponent_implausible", "No nozzle changes its flow with pressure as these catches do. The square-root law is used instead. Check the readings and that the nozzles are alike.", "Ninguna boquilla cambia su caudal con la presión como en estos aforos. En su lugar se usa la ley de la raíz cuadrada. Revise las lecturas y que las boquillas sean iguales."},
	{"warning.far_prediction", "This pressure is more than twice as high or less than half as high as any that was caught at. Catch there before you rely on it.", "Esta presión es más del doble o menos de la mitad de cualquiera a la que se aforó. Afore a esa presión antes de confiar en esto."},
}.add()
