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

	{"problem.duplicate_id", "Another instrument has this id already. Give each its own.", "Otro instrumento ya tiene este id. Dé a cada uno el suyo."},
	{"problem.unknown_instrument", "No instrument in the list has this id.", "Ningún instrumento de la lista tiene este id."},
	{"wording.unknown_instrument_allowed", "No instrument in the list has this id. Those that measure this are: %[1]s.", "Ningún instrumento de la lista tiene este id. Los que miden esto son: %[1]s."},
	{"problem.wrong_instrument", "The instrument of this id measures something else.", "El instrumento de este id mide otra cosa."},
	{"wording.wrong_instrument_allowed", "The instrument of this id measures something else. Those that measure this are: %[1]s.", "El instrumento de este id mide otra cosa. Los que miden esto son: %[1]s."},
	{"problem.instrument_not_named", "Several instruments of this kind are listed. Say which of them measured this.", "Hay varios instrumentos de este tipo en la lista. Diga cuál de ellos midió esto."},
	{"wording.instrument_not_named_allowed", "Several instruments of this kind are listed. Say which of them measured this: %[1]s.", "Hay varios instrumentos de este tipo en la lista. Diga cuál de ellos midió esto: %[1]s."},
	{"problem.stopwatch_only", "Only a stopwatch has a reaction time.", "Solo un cronómetro tiene tiempo de reacción."},
}.add()
