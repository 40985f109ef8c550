package text

var _ = entries{
	{"selection.choose", "The first nozzle in the list fits best: its pressure is nearest the middle of the range. Set that pressure and catch the output before you use the rate.", "La primera boquilla de la lista es la mejor: su presión es la más cercana al medio del rango. Ajuste esa presión y mida la descarga antes de usar la tasa."},
	{"none_fits.pressure", "None of these nozzles reaches the rate inside the pressure range. Try another speed or another size. Or use another pressure range, if nozzle and label allow it.", "Ninguna de estas boquillas alcanza la tasa dentro del rango de presión. Pruebe otra velocidad u otro tamaño. O use otro rango de presión, si la boquilla y la etiqueta lo permiten."},
	{"none_fits.droplet_class", "Some of these nozzles reach the rate, but none is known to make an allowed droplet class. Check the makers' droplet charts, or try another nozzle type or pressure.", "Algunas de estas boquillas alcanzan la tasa, pero de ninguna se sabe que dé una clase de gota permitida. Consulte las tablas de gotas de los fabricantes, o pruebe otro tipo de boquilla u otra presión."},
	{"selection.would_fit", "The nearest nozzle reaches the rate at %[1]s with %[2]s, the end of the pressure range. At the speed you asked for, it would need %[3]s.", "La boquilla más cercana alcanza la tasa a %[1]s con %[2]s, el extremo del rango de presión. A la velocidad que pidió, necesitaría %[3]s."},
	{"selection.would_fit_range", "The nearest nozzle reaches the rate at %[1]s with %[2]s, the end of the pressure range. At the worse end of your speed range, it would need %[3]s.", "La boquilla más cercana alcanza la tasa a %[1]s con %[2]s, el extremo del rango de presión. En el peor extremo de su rango de velocidad, necesitaría %[3]s."},

	{"note.source_not_read", "We read no source for the rating of this size. Compare it with the maker's sheet.", "No leímos ninguna fuente del caudal nominal de este tamaño. Compárelo con la hoja del fabricante."},
	{"note.pressure_above_range", "This nozzle is too small: it needs more than the highest pressure of the range.", "Esta boquilla es demasiado pequeña: necesita más que la presión más alta del rango."},
	{"note.pressure_below_range", "This nozzle is too large: it needs less than the lowest pressure of the range.", "Esta boquilla es demasiado grande: necesita menos que la presión más baja del rango."},
	{"note.ranges_do_not_meet", "The nozzle's pressure range and yours do not overlap.", "El rango de presión de la boquilla y el suyo no se cruzan."},
	{"note.droplet_class_unknown", "The droplet chart does not give the droplet class at all of these pressures. So nobody knows whether the label allows it.", "La tabla de gotas no da la clase de gota a todas estas presiones. Así que no se sabe si la etiqueta la permite."},
	{"note.droplet_class_not_allowed", "The droplet chart gives a class here that is not allowed.", "La tabla de gotas da aquí una clase que no está permitida."},

	{"warning.droplet_entry_unused", "This line of the droplet chart matches none of the nozzles to choose from. Check its size or label.", "Esta línea de la tabla de gotas no es de ninguna de las boquillas para elegir. Revise su tamaño o su nombre."},

	{"caution.iso_10625_scope", "ISO 10625 sizes and colors are for nozzles in which one part sets the flow. They are not for nozzles in which several parts set it. They may not suit liquid fertilizer.", "Los tamaños y colores de ISO 10625 son para boquillas en las que una sola pieza fija el caudal. No son para boquillas en las que lo fijan varias piezas. Pueden no servir para fertilizante líquido."},
	{"caution.droplet_chart", "A droplet class is for one nozzle type at one pressure, from its maker's chart. The color of a nozzle does not show it.", "Una clase de gota es de un tipo de boquilla a una presión, según la tabla de su fabricante. El color de la boquilla no la muestra."},
	{"caution.catch_before_use", "A rating is not a measurement. Catch the output of the new nozzles at working pressure before you spray.", "Un caudal nominal no es una medición. Mida la descarga de las boquillas nuevas a la presión de trabajo antes de aplicar."},

	{"nozzle_sizes.detail", "These are the ISO 10625 sizes with their colors. A size stands for a flow of water at a pressure. At every size, iso_3_bar and us_40_psi differ by 1.3%, so keep them apart.", "Estos son los tamaños de ISO 10625 con sus colores. Un tamaño significa un caudal de agua a una presión. En todos los tamaños, iso_3_bar y us_40_psi difieren en 1,3 %, así que no los mezcle."},
	{"nozzle_sizes.us_40_psi", "Colors and US gal/min at 40 psi, sizes 01 to 08.", "Colores y US gal/min a 40 psi, tamaños 01 a 08."},
	{"nozzle_sizes.iso_3_bar", "Printed L/min at 2 bar, sizes 01 to 08. They are the flows at 3 bar times the square root of 2/3.", "L/min impresos a 2 bar, tamaños 01 a 08. Son los caudales a 3 bar por la raíz cuadrada de 2/3."},
	{"nozzle_sizes.scope", "What the standard is for. Its text was not read.", "Para qué es la norma. No se leyó su texto."},
}.add()
