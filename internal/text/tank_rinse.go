package text

var _ = entries{
	{"warning.little_rinse_water", "A rinse is less than what stays in the sprayer, so it leaves more than half. The first should be at least five times what stays.", "Un enjuague es menos que lo que queda en la pulverizadora, así que deja más de la mitad. El primero debe ser al menos cinco veces lo que queda."},
	{"warning.unusual_share", "More than a tenth of the mix may be left. Check the share and its unit: 1 % is a hundredth, 1 is the whole.", "Puede quedar más de un décimo de la mezcla. Revise la proporción y su unidad: 1 % es un centésimo, 1 es el total."},
	{"next.split_rinse_water", "More of the mix would be left than is wanted. Split the same water into as many equal rinses as equalRinsesNeeded says, or take more water.", "Quedaría más mezcla de la que se quiere. Reparta la misma agua en tantos enjuagues iguales como indica equalRinsesNeeded, o use más agua."},
	{"next.more_rinse_water", "More of the mix would be left than is wanted, and this water is not enough even in 20 rinses. With waterForThreeRinses, three equal rinses are enough.", "Quedaría más mezcla de la que se quiere, y esta agua no alcanza ni en 20 enjuagues. Con waterForThreeRinses alcanzan tres enjuagues iguales."},
	{"caution.spray_out_rinsate", "Spray each rinse out through the open nozzles where the label and local rules allow it, until no more than what stays is in it, or collect it. On treated ground it counts toward the label's maximum. Keep it away from wells, drains and surface water.", "Aplique cada enjuague por las boquillas abiertas donde lo permitan la etiqueta y las normas locales, hasta que no haya más que lo que queda, o recójalo. Sobre terreno tratado cuenta para el máximo de la etiqueta. Manténgalo lejos de pozos, drenajes y aguas superficiales."},
	{"caution.rinse_through", "This holds only if each rinse mixes through with all that stays: run it through every line, valve and return. Clean filters and dead ends by hand.", "Esto vale solo si cada enjuague se mezcla por completo con todo lo que queda: páselo por todas las líneas, válvulas y retornos. Limpie a mano los filtros y los extremos ciegos."},
	{"caution.residue_sticks", "Water does not take out what sticks to hoses, seals and walls. Before another crop follow the label's cleaning instructions, with the cleaning agent that it asks for.", "El agua no saca lo que se pega a mangueras, sellos y paredes. Antes de otro cultivo siga las instrucciones de limpieza de la etiqueta, con el limpiador que pide."},
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
