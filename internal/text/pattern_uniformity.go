package text

var patternUniformity = []entry{
	{"warning.few_places", "So few cups leave much of the boom unseen. Set at least five, evenly under the spray of several nozzles.", "Con tan pocos vasos, gran parte del aguilón queda sin ver. Ponga al menos cinco, a distancias iguales, bajo la pulverización de varias boquillas."},
	{"warning.pattern_cut_off", "An outermost cup caught more than half of the fullest one, so the spray seems to go on beyond the row. Set more cups on that side.", "Un vaso de la orilla recogió más de la mitad que el más lleno, así que la pulverización parece seguir más allá de la fila. Ponga más vasos de ese lado."},
	{"warning.gap_between_nozzles", "At this spacing the patterns of neighboring nozzles do not meet: a stripe between them gets nothing.", "A esta distancia, los patrones de boquillas vecinas no se juntan: una franja entre ellas no recibe nada."},
	{"problem.all_empty", "Every cup of this row is empty, so there is no mean to compare with.", "Todos los vasos de esta fila están vacíos, así que no hay promedio con el que comparar."},
	{"problem.closer_than_cups", "These nozzles would be closer together than the cups were. Catch the pattern in cups that are closer.", "Estas boquillas quedarían más juntas que los vasos. Recoja el patrón en vasos que estén más juntos."},
	{"next.mend_pattern", "Before anything is sprayed, look at the places that are outside: nozzles that are blocked, worn or of another kind, that point elsewhere, or spray on a part of the machine; then the height of the boom, the pressure and the wind. Catch again after each change.", "Antes de aplicar nada, revise los lugares que están fuera: boquillas tapadas, desgastadas o de otro tipo, que apuntan a otro lado o que pulverizan sobre una parte de la máquina; después la altura del aguilón, la presión y el viento. Recoja otra vez después de cada cambio."},
}
