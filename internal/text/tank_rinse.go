package text

var _ = entries{
	{"warning.little_rinse_water", "A rinse is less than the mix that stays in the sprayer, so more than half of it remains. For the first rinse, use at least five times the volume that stays.", "Un enjuague es menos que la mezcla que queda en la aspersora, así que queda más de la mitad. Para el primer enjuague, use al menos cinco veces el volumen que queda."},
	{"warning.unusual_share", "More than a tenth of the mix may be left. Check the share and its unit: 1% is a hundredth, 1 is all of it.", "Puede quedar más de un décimo de la mezcla. Revise la proporción y su unidad: 1 % es un centésimo, 1 es todo."},
	{"next.split_rinse_water", "Too much of the mix would be left. Split the same water into as many equal rinses as equalRinsesNeeded gives, or use more water.", "Quedaría demasiada mezcla. Reparta la misma agua en tantos enjuagues iguales como indica equalRinsesNeeded, o use más agua."},
	{"next.more_rinse_water", "Too much of the mix would be left, even with this water in 20 rinses. Use waterForThreeRinses in three equal rinses.", "Quedaría demasiada mezcla, aun con esta agua en 20 enjuagues. Use waterForThreeRinses en tres enjuagues iguales."},
	{"caution.spray_out_rinsate", "Spray each rinse out through the open nozzles only where the label and local rules allow it, or collect it. On treated ground it counts toward the label maximum. Keep it away from wells, drains and surface water.", "Aplique cada enjuague por las boquillas abiertas solo donde lo permitan la etiqueta y las normas locales, o recójalo. Sobre terreno tratado cuenta para el máximo de la etiqueta. Manténgalo lejos de pozos, drenajes y aguas superficiales."},
	{"caution.rinse_through", "The numbers apply only if each rinse mixes with all of the rest. Run it through every line, valve and return. With the machine off, clean strainers and dead ends by hand.", "Los números valen solo si cada enjuague se mezcla con todo el resto. Páselo por todas las líneas, válvulas y retornos. Con la máquina apagada, limpie a mano los filtros y los extremos ciegos."},
	{"caution.residue_sticks", "Water does not remove residue that sticks to hoses, seals and walls. Before another crop, follow the label's cleaning instructions and use its cleaning agent.", "El agua no quita el residuo que se pega a mangueras, sellos y paredes. Antes de otro cultivo, siga las instrucciones de limpieza de la etiqueta y use el limpiador que pide."},
	{"method.equal_rinse_volume", "Water of each of several equal rinses", "Agua de cada uno de varios enjuagues iguales"},
	{"method.rinse_dilution", "Share of the mix that a rinse leaves", "Proporción de la mezcla que deja un enjuague"},
	{"method.equal_rinses", "Share that equal rinses of one volume leave", "Proporción que dejan enjuagues iguales de un volumen"},
	{"method.total_rinse_water", "Water of all rinses", "Agua de todos los enjuagues"},
	{"method.water_for_rinses", "Water that so many equal rinses take down to a share", "Agua que piden tantos enjuagues iguales hasta una proporción"},
	{"domain.rinse", "Rinse water that mixes through with all that stays, of which as much stays after each rinse.", "Agua de enjuague que se mezcla por completo con todo lo que queda, de lo cual queda lo mismo después de cada enjuague."},
	{"symbol.share_left", "share of the mix that is left", "proporción de la mezcla que queda"},
	{"symbol.share_before", "share that was there before", "proporción que había antes"},
	{"symbol.stays_after_spraying", "volume that stays in tank, pump and lines", "volumen que queda en el tanque, la bomba y las líneas"},
	{"symbol.rinse_volume", "water of one rinse", "agua de un enjuague"},
	{"symbol.rinse_water", "water of all rinses", "agua de todos los enjuagues"},
	{"symbol.number_of_rinses", "how many rinses", "cuántos enjuagues"},
}.add()
