package text

var _ = entries{
	{"selection.choose", "The first candidate fits best: its pressure is nearest the middle of the range. Set its pressure, catch its output, and only then trust the rate.", "La primera candidata es la que mejor conviene: su presión es la más cercana al medio del rango. Ajuste su presión, afórela y solo entonces confíe en la tasa."},
	{"none_fits.pressure", "None of these nozzles reaches the rate inside the pressure range. Drive at another speed, use another size, or allow another pressure where nozzle and label leave it.", "Ninguna de estas boquillas alcanza la tasa dentro del rango de presión. Avance a otra velocidad, use otro tamaño o permita otra presión donde la boquilla y la etiqueta lo admitan."},
	{"none_fits.droplet_class", "Some of these nozzles reach the rate inside the pressure range, but of none is it known that its droplet class is allowed. Look for their makers' droplet charts, for another kind of nozzle, or for another pressure.", "Algunas de estas boquillas alcanzan la tasa dentro del rango de presión, pero de ninguna se sabe que su clase de gota esté permitida. Busque las tablas de gotas de sus fabricantes, otro tipo de boquilla u otra presión."},
	{"selection.would_fit", "The nearest nozzle keeps the rate at groundSpeed with sprayPressure, the end of the range. At the speed that was asked for it would need neededPressure; of a range of speeds, at the end where it is further outside.", "La boquilla más cercana mantiene la tasa a groundSpeed con sprayPressure, el extremo del rango. A la velocidad pedida necesitaría neededPressure; con un rango de velocidades, en el extremo donde queda más afuera."},

	{"note.source_not_read", "The rating of this size was read in no source. Compare it with the maker's sheet.", "El caudal nominal de este tamaño no se leyó en ninguna fuente. Compárelo con la hoja del fabricante."},
	{"note.pressure_above_range", "It would need more than the highest pressure of the range: the nozzle is too small.", "Necesitaría más que la presión más alta del rango: la boquilla es demasiado pequeña."},
	{"note.pressure_below_range", "It would need less than the lowest pressure of the range: the nozzle is too large.", "Necesitaría menos que la presión más baja del rango: la boquilla es demasiado grande."},
	{"note.ranges_do_not_meet", "The nozzle's own pressure range and the one asked for have no pressure in common.", "El rango de presión propio de la boquilla y el pedido no tienen ninguna presión en común."},
	{"note.droplet_class_unknown", "The droplet chart does not say what drops this nozzle makes at all of these pressures, so they are not known to be allowed.", "La tabla de gotas no dice qué gotas produce esta boquilla a todas estas presiones, así que no se sabe si están permitidas."},
	{"note.droplet_class_not_allowed", "The droplet chart names a class here that is not among those allowed.", "La tabla de gotas indica aquí una clase que no está entre las permitidas."},

	{"warning.droplet_entry_unused", "This line of the droplet chart is of none of the nozzles to choose from. Check its size or label.", "Esta línea de la tabla de gotas no es de ninguna de las boquillas entre las que se elige. Revise su tamaño o su nombre."},

	{"caution.iso_10625_scope", "Sizes and colors of ISO 10625 are for nozzles whose flow one part sets. They are not meant for nozzles whose flow several parts set, and may not fit liquid fertilizer.", "Los tamaños y colores de ISO 10625 son para boquillas cuyo caudal lo determina una sola pieza. No están previstos para boquillas cuyo caudal lo determinan varias piezas, y pueden no servir para fertilizante líquido."},
	{"caution.droplet_chart", "A droplet class is of one kind of nozzle at one pressure, and comes from its maker's chart. The color of a size says nothing of it.", "Una clase de gota es de un tipo de boquilla a una presión, y viene de la tabla de su fabricante. El color de un tamaño no dice nada de ella."},
	{"caution.catch_before_use", "A rating is not a measurement. Catch the output of the new nozzles at the working pressure before you spray.", "Un caudal nominal no es una medición. Afore las boquillas nuevas a la presión de trabajo antes de aplicar."},

	{"nozzle_sizes.detail", "The sizes of ISO 10625 with their colors. A size means a flow of water at a pressure: iso_3_bar and us_40_psi differ by 1.3 % at every size, so they are never treated as one.", "Los tamaños de ISO 10625 con sus colores. Un tamaño significa un caudal de agua a una presión: iso_3_bar y us_40_psi difieren en 1,3 % en todos los tamaños, así que nunca se tratan como uno solo."},
	{"nozzle_sizes.us_40_psi", "Colors and US gal/min at 40 psi, sizes 01 to 08.", "Colores y US gal/min a 40 psi, tamaños 01 a 08."},
	{"nozzle_sizes.iso_3_bar", "Printed L/min at 2 bar, which are those at 3 bar times the square root of 2/3, sizes 01 to 08.", "L/min impresos a 2 bar, que son los de 3 bar multiplicados por la raíz cuadrada de 2/3, tamaños 01 a 08."},
	{"nozzle_sizes.scope", "What the standard is for. Its text was not read.", "Para qué es la norma. No se leyó su texto."},
}.add()
