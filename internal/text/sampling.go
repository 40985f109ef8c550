package text

// sampling is what catches tell of the whole boom, and which of them to make again.
var _ = entries{
	{"sampling.all_caught", "All %[2]d places on the boom were measured, and %[1]d failed at first.", "Los %[2]d lugares del aguilón están medidos, con %[1]d fuera del rango en la primera medición."},
	{"sampling.points_known", "%[1]d of %[2]d places failed when first measured. On all %[3]d places of the boom, expect %[4]d to %[5]d to fail (95%% confidence).", "La primera medición dio %[1]d de %[2]d lugares fuera del rango. En los %[3]d lugares del aguilón, espere de %[4]d a %[5]d (95 %% de confianza)."},
	{"sampling.points_unknown", "%[1]d of %[2]d places failed when first measured. On the whole boom, expect %[3]d%% to %[4]d%% to fail (95%% confidence). Enter the number of places on the boom for a better figure.", "La primera medición dio %[1]d de %[2]d lugares fuera del rango. En todo el aguilón, espere de %[3]d %% a %[4]d %% (95 %% de confianza). Indique cuántos lugares tiene el aguilón para saberlo mejor."},
	{"sampling.above", "Enough fail to replace the whole set.", "Son suficientes para reemplazar el juego completo."},
	{"sampling.not_above", "Too few fail to replace the whole set.", "No son suficientes para reemplazar el juego completo."},
	{"sampling.open", "There are too few catches to decide on a new set.", "Hay muy pocos aforos para decidir si hace falta un juego nuevo."},
	{"sampling.more", "To decide, catch %[1]d more of the other places, chosen at random. That settles it if the same share fails.", "Para decidir, mida %[1]d más de los lugares que faltan, elegidos al azar. Eso basta si falla la misma proporción."},
	{"sampling.more_sides", "To decide, catch %[1]d more of the other places, chosen at random. Start where there are the fewest catches: %[2]s. That settles it if the same share fails.", "Para decidir, mida %[1]d más de los lugares que faltan, elegidos al azar. Comience donde hay menos aforos: %[2]s. Eso basta si falla la misma proporción."},
	{"sampling.more_all", "To decide, catch all the places that remain (%[1]d).", "Para decidir, mida todos los lugares que faltan (%[1]d)."},
	{"sampling.random_points", "This is valid only if you chose the places at random. Places chosen for how they look say nothing about the rest.", "Esto vale solo si eligió los lugares al azar. Los lugares elegidos por su aspecto no dicen nada de los demás."},
	{"sampling.jeffreys_prior", "Before the first catch, no share of failures was ruled out. The chance starts from Jeffreys' prior, beta(1/2, 1/2).", "Antes del primer aforo no se descartaba ninguna proporción de fallas. La probabilidad parte de la distribución previa de Jeffreys, beta(1/2, 1/2)."},
	{"side.left", "left", "izquierda"},
	{"side.center", "center", "centro"},
	{"side.right", "right", "derecha"},
	{"outlier.grubbs", "Far from the other catches: catch again.", "Lejos de los demás aforos: vuelva a medir."},
	{"outlier.range", "These two catches are far from the rest, one high and one low. Catch both again.", "Estos dos aforos están lejos de los demás, uno por arriba y otro por abajo. Vuelva a medir los dos."},
}.add()
