package text

// sampling is what catches tell of the whole boom, and which of them to make again.
var _ = entries{
	{"sampling.all_caught", "Every catch point of the boom was caught. Outside: %[1]d of %[2]d.", "Se aforaron todos los puntos del aguilón. Fuera del rango: %[1]d de %[2]d."},
	{"sampling.points_known", "Outside: %[1]d of the %[2]d points caught. Of all %[3]d points of the boom it is %[4]d to %[5]d, with 95 %% confidence.", "Fuera del rango: %[1]d de los %[2]d puntos aforados. De los %[3]d puntos de todo el aguilón son de %[4]d a %[5]d, con una confianza del 95 %%."},
	{"sampling.points_unknown", "Outside: %[1]d of the %[2]d points caught. Of all points of the boom it is %[3]d to %[4]d %%, with 95 %% confidence. Give the number of all points on the boom to know it better.", "Fuera del rango: %[1]d de los %[2]d puntos aforados. De todos los puntos del aguilón es del %[3]d al %[4]d %%, con una confianza del 95 %%. Indique la cantidad de todos los puntos del aguilón para saberlo mejor."},
	{"sampling.above", "So the boom is above the share at which all nozzles are replaced.", "Así que el aguilón supera la proporción a partir de la cual se reemplazan todas las boquillas."},
	{"sampling.not_above", "So the boom is not above the share at which all nozzles are replaced.", "Así que el aguilón no supera la proporción a partir de la cual se reemplazan todas las boquillas."},
	{"sampling.open", "Whether the boom is above the share at which all nozzles are replaced is still open.", "Todavía no se sabe si el aguilón supera la proporción a partir de la cual se reemplazan todas las boquillas."},
	{"sampling.more", "More catches that would settle it, if the share outside stays as it is: %[1]d. Take points not yet caught, picked at random.", "Aforos que faltan para saberlo, si la proporción fuera del rango sigue igual: %[1]d. Tome puntos aún no aforados, elegidos al azar."},
	{"sampling.more_sides", "More catches that would settle it, if the share outside stays as it is: %[1]d. Take points not yet caught, picked at random, and begin where there are the fewest catches: %[2]s.", "Aforos que faltan para saberlo, si la proporción fuera del rango sigue igual: %[1]d. Tome puntos aún no aforados, elegidos al azar, y comience donde hay menos aforos: %[2]s."},
	{"sampling.more_all", "Only catching all the other points settles it: %[1]d.", "Solo se sabrá si se aforan todos los demás puntos: %[1]d."},
	{"sampling.random_points", "This holds if the points caught were picked at random. Points that were picked for how they look tell nothing of the others.", "Esto vale si los puntos aforados se eligieron al azar. Los puntos que se eligieron por su aspecto no dicen nada de los demás."},
	{"sampling.jeffreys_prior", "The chance starts from Jeffreys' prior for the share outside, beta(1/2, 1/2): before the catches no share was ruled out.", "La probabilidad parte de la distribución previa de Jeffreys para la proporción fuera del rango, beta(1/2, 1/2): antes de los aforos no se descartaba ninguna proporción."},
	{"side.left", "left", "izquierda"},
	{"side.center", "center", "centro"},
	{"side.right", "right", "derecha"},
	{"outlier.grubbs", "It stands apart from the other catches.", "Se aparta de los demás aforos."},
	{"outlier.range", "It and another one, on the other side of the mean, stand apart from the rest.", "Este y otro, al otro lado del promedio, se apartan de los demás."},
}.add()
