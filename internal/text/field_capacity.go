package text

var _ = entries{
	{"problem.over_100_percent", "This is a share of a whole. Give at most 100%, which is 1.", "Esto es una parte de un todo. Dé como máximo 100 %, que es 1."},
	{"warning.unusual_width", "This width is unusual for a field sprayer: it is outside 0.5 to 60 m, which is 1.6 to 197 ft. Check the value and its unit.", "Este ancho es poco común en una pulverizadora de campo: está fuera de 0,5 a 60 m, que son 1,6 a 197 ft. Revise el valor y su unidad."},
	{"warning.unusual_efficiency", "This efficiency is unusual for a field sprayer, which is seldom outside 40 to 95 %. Turns, overlap and stops always take a part.", "Esta eficiencia es poco común en una pulverizadora de campo, que rara vez sale de 40 a 95 %. Las vueltas, los traslapes y las paradas siempre quitan una parte."},
	{"warning.efficiency_counts_refills", "No field efficiency is given, and the one used instead has common refills in it already. With a refill time they count twice. Give the efficiency without refills.", "No se dio la eficiencia de campo, y la que se usa en su lugar ya incluye recargas comunes. Con un tiempo de recarga se cuentan dos veces. Dé la eficiencia sin recargas."},
	{"warning.application_rate_unused", "The application rate changes nothing here, because neither a tank volume nor a field area is given.", "La tasa de aplicación no cambia nada aquí, porque no se dio el volumen del tanque ni la superficie del campo."},
}.add()
