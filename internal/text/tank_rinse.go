package text

var _ = entries{
	{"caution.spray_out_rinsate", "Spray each rinse out through the open nozzles where the label and local rules allow it, or collect it. Open every valve, and clean filters and dead ends by hand: rinse water does not reach them.", "Aplique cada enjuague por las boquillas abiertas donde lo permitan la etiqueta y las normas locales, o recójalo. Abra todas las válvulas y limpie a mano los filtros y los extremos ciegos: el agua de enjuague no llega a ellos."},
	{"method.equal_rinse_volume", "Water of each of several equal rinses", "Agua de cada uno de varios enjuagues iguales"},
	{"method.rinse_dilution", "Share of the mix that a rinse leaves", "Proporción de la mezcla que deja un enjuague"},
	{"method.equal_rinses", "Share that equal rinses of one volume leave", "Proporción que dejan enjuagues iguales de un volumen"},
	{"domain.rinse", "Rinse water that mixes through with all that stays, of which as much stays after each rinse.", "Agua de enjuague que se mezcla por completo con todo lo que queda, de lo cual queda lo mismo después de cada enjuague."},
	{"symbol.share_left", "share of the mix that is left", "proporción de la mezcla que queda"},
	{"symbol.share_before", "share that was there before", "proporción que había antes"},
	{"symbol.rinse_volume", "water of one rinse", "agua de un enjuague"},
	{"symbol.rinse_water", "water of all rinses", "agua de todos los enjuagues"},
	{"symbol.number_of_rinses", "how many rinses", "cuántos enjuagues"},
}.add()
