package text

var wearForecast = []entry{
	{"verdict.no_wear", "The flow does not rise from catch to catch: no wear can be seen.", "El caudal no sube de un aforo a otro: no se ve desgaste."},
	{"verdict.will_reach", "The set wears and is not above its limit yet. If it goes on like this it will be when the answer says.", "El juego se desgasta y todavía no pasa de su límite. Si sigue así, lo pasará cuando dice la respuesta."},
	{"verdict.worn_now", "At the last catch the set was above its limit: it is worn.", "En el último aforo el juego pasaba de su límite: está desgastado."},
	{"next.catch_again", "Catch the same nozzles again at the same pressure, at least once a season, and before the earliest time that the forecast names.", "Afore otra vez las mismas boquillas a la misma presión, al menos una vez por temporada y antes de la fecha más temprana que da el pronóstico."},
	{"next.replace_worn_set", "Replace all nozzles of the set with new ones of one kind. Catch the new set before you trust it, write down its flow, and work out the rate again.", "Reemplace todas las boquillas del juego por nuevas de un solo tipo. Afore el juego nuevo antes de confiar en él, anote su caudal y calcule otra vez la tasa."},
	{"warning.wear_uncertain", "The catches scatter so much about their line that nothing bounds the time. Catch more often, for longer, and at one pressure.", "Los aforos se dispersan tanto alrededor de su recta que nada acota la fecha. Afore más a menudo, por más tiempo y a una sola presión."},
	{"warning.far_forecast", "The forecast reaches farther ahead than the catches reach back. Catch again on the way.", "El pronóstico llega más adelante de lo que los aforos llegan atrás. Afore otra vez antes de llegar ahí."},
	{"warning.latest_over_limit", "The last catch is above the limit, although the line through all is not. Catch again at once; if it stays above, the set is worn.", "El último aforo pasa del límite, aunque la recta que pasa por todos no. Afore otra vez de inmediato; si sigue por encima, el juego está desgastado."},
	{"warning.below_new", "This catch is far below the new flow. That is dirt, not wear, and it bends the line. Clean the nozzles and strainers and catch again.", "Este aforo está muy por debajo del caudal que tenían nuevas. Eso es suciedad, no desgaste, y tuerce la recta. Limpie las boquillas y sus filtros y afore otra vez."},
	{"warning.far_pressure", "This catch stands at more than twice or less than half of the common pressure, so its flow at that one is less sure. Catch at one pressure each time.", "Este aforo es a más del doble o menos de la mitad de la presión común, así que su caudal a esta es menos seguro. Afore siempre a una misma presión."},
	{"problem.needs_two_times", "All catches are of the same time, so they show no wear. Give catches of at least two times.", "Todos los aforos son del mismo momento, así que no muestran desgaste. Dé aforos de al menos dos momentos."},
	{"problem.not_a_date", "This must be a day of the calendar, written YYYY-MM-DD, in the years from 1900 to 2199.", "Esto debe ser un día del calendario, escrito YYYY-MM-DD, de los años 1900 a 2199."},
}
