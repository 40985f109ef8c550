package text

// uncertainty says what to do about a verdict that is too close to its limit, and
// what is wrong with instruments.
var _ = entries{
	{"too_close.lead", "Too close to the limit to be sure.", "Demasiado cerca del límite para estar seguro."},
	{"too_close.again", "Too close to the limit to be sure. Measure more of these, or more carefully: %[1]s.", "Demasiado cerca del límite para estar seguro. Haga más mediciones, o hágalas con más cuidado: %[1]s."},
	{"too_close.again_more", "Too close to the limit to be sure. So many more of these, if they come out alike, would settle it: %[1]s, %[2]d.", "Demasiado cerca del límite para estar seguro. Tantas mediciones más, si salen iguales, lo aclararían: %[1]s, %[2]d."},
	{"too_close.longer", "Too close to the limit to be sure. Measure longer each time, so that one reading weighs less: %[1]s.", "Demasiado cerca del límite para estar seguro. Mida durante más tiempo cada vez, para que cada lectura pese menos: %[1]s."},
	{"too_close.longer_more", "Too close to the limit to be sure. Measure longer each time, or so many times more: %[1]s, %[2]d.", "Demasiado cerca del límite para estar seguro. Mida durante más tiempo cada vez, o tantas veces más: %[1]s, %[2]d."},
	{"too_close.better_instrument", "Too close to the limit to be sure. Measuring more often does not help: what is not known is whether the instrument is right. Check it, or take a better one: %[1]s.", "Demasiado cerca del límite para estar seguro. Medir más veces no ayuda: no se sabe si el instrumento es exacto. Revíselo o use uno mejor: %[1]s."},

	{"measurement.runs", "timed runs", "recorridos cronometrados"},
	{"measurement.catches", "catches", "aforos"},
	{"measurement.readings", "pressure readings", "lecturas de presión"},
	{"measurement.width", "the sprayed width", "el ancho pulverizado"},
	{"measurement.nozzle_flow_rate", "the nozzle flow", "el caudal de la boquilla"},
	{"measurement.ground_speed", "the ground speed", "la velocidad de avance"},
	{"measurement.volume_used", "the volume used", "el volumen usado"},
	{"measurement.area", "the area", "la superficie"},
	{"measurement.application_rate", "the application rate", "la tasa de aplicación"},
	{"instrument.stopwatch", "stopwatch", "cronómetro"},
	{"instrument.tape", "tape", "cinta métrica"},
	{"instrument.jug", "jug", "jarra graduada"},
	{"instrument.gauge", "pressure gauge", "manómetro de presión"},

	{"problem.duplicate_id", "Another instrument already has this id. Give each its own.", "Otro instrumento ya tiene este id. Dé a cada uno el suyo."},
	{"problem.unknown_instrument", "No instrument in the list has this id. Check the id, or add the instrument.", "Ningún instrumento de la lista tiene este id. Revise el id, o agregue el instrumento."},
	{"wording.unknown_instrument_allowed", "No instrument in the list has this id. Use one that measures this: %[1]s.", "Ningún instrumento de la lista tiene este id. Use uno que mida esto: %[1]s."},
	{"problem.wrong_instrument", "The instrument with this id measures something else. List one that measures this.", "El instrumento con este id mide otra cosa. Agregue a la lista uno que mida esto."},
	{"wording.wrong_instrument_allowed", "The instrument with this id measures something else. Use one that measures this: %[1]s.", "El instrumento con este id mide otra cosa. Use uno que mida esto: %[1]s."},
	{"problem.instrument_not_named", "The list has several instruments of this kind. Say which one measured this.", "Hay varios instrumentos de este tipo en la lista. Diga cuál midió esto."},
	{"wording.instrument_not_named_allowed", "The list has several instruments of this kind. Say which one measured this: %[1]s.", "Hay varios instrumentos de este tipo en la lista. Diga cuál midió esto: %[1]s."},
	{"problem.stopwatch_only", "Only a stopwatch has a reaction time. Leave this out.", "Solo un cronómetro tiene tiempo de reacción. Omita este dato."},
}.add()
