package text

var _ = entries{
	{"problem.over_100_percent", "This is a share of a whole. Give at most 100%, which is 1.", "Esto es una parte de un todo. Dé como máximo 100 %, que es 1."},
	{"warning.unusual_width", "This width is unusual for a field sprayer: it is outside 0.5 to 60 m (1.6 to 197 ft). Check the value and its unit.", "Este ancho es poco común en una aspersora de campo: está fuera de 0,5 a 60 m (1,6 a 197 ft). Revise el valor y su unidad."},
	{"warning.unusual_efficiency", "This field efficiency is unusual: most field sprayers reach 40% to 95%. Turns, overlap and stops always take a part.", "Esta eficiencia de campo es poco común: la mayoría de las aspersoras logra de 40 % a 95 %. Las vueltas, los traslapes y las paradas siempre quitan una parte."},
	{"warning.efficiency_counts_refills", "The field efficiency is missing, and the usual figure already includes refills. With a refill time, refills count twice. Enter the efficiency without refills.", "Falta la eficiencia de campo, y la cifra común ya incluye las recargas. Con un tiempo de recarga, las recargas cuentan dos veces. Indique la eficiencia sin recargas."},
	{"warning.application_rate_unused", "The application rate has no effect: neither a tank volume nor a field area is given.", "La tasa de aplicación no tiene efecto: no se dio el volumen del tanque ni la superficie del campo."},
}.add()
