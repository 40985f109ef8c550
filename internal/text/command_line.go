package text

// The command's own messages. Those after "wetrun:" begin in lower case and end without a
// point, since the system's own errors may follow. A number that is to be typed again comes
// as a word, so that it is not grouped.
var _ = entries{
	{"command.usage", `wetrun calculates the calibration of a field sprayer.

	wetrun [serve] [-addr HOST:PORT]	serve the API (the default).
	wetrun serve -help	list all settings of the server.
	wetrun calibrate FILE	calculate one field sheet and print the answer.
	wetrun calibrate -text FILE	print a summary that a crew can read.
	wetrun calibrate -digest FILE	print the digest to compare with the record.
	wetrun batch [FLAGS] [FILE...]	answer many requests, one on each line.
	wetrun key NAME	make a key for the API, and the line that lets it in.
	wetrun healthcheck	ask the server if it is ready; if not, status 1.
	wetrun version	print the versions of wetrun and Go.
	wetrun help	print this.

Flags of wetrun batch:
	-out FILE	file for the answers; overwritten, or with -from continued.
	-summary FILE	file for the summary, as JSON.
	-from N	begin with line N, to go on after a break.
	-part I/N	answer every N-th line from line I; or WETRUN_BATCH_PARTS=N with JOB_COMPLETION_INDEX=I-1.
	-strict	status 1 when a line has a problem.
	-quiet	no progress and no summary on the terminal.

FILE may be - for standard input. A batch without a file reads standard input.
Add -lang en (the default) or -lang es for the language. A region such as es-MX sets the decimal point.
The server logs in English. WETRUN_ADDR sets its address if -addr does not. The default is %[1]s.`,
		`wetrun calcula la calibración de una aspersora de campo.

	wetrun [serve] [-addr HOST:PORT]	servir la API (lo predeterminado).
	wetrun serve -help	listar todos los ajustes del servidor.
	wetrun calibrate FILE	calcular una hoja de campo e imprimir la respuesta.
	wetrun calibrate -text FILE	imprimir un resumen para la cuadrilla.
	wetrun calibrate -digest FILE	imprimir la huella para comparar con el registro.
	wetrun batch [FLAGS] [FILE...]	responder muchas solicitudes, una en cada línea.
	wetrun key NAME	crear una clave para la API, y la línea que la admite.
	wetrun healthcheck	preguntar al servidor si está listo; si no, estado 1.
	wetrun version	imprimir las versiones de wetrun y de Go.
	wetrun help	imprimir esto.

Opciones (FLAGS) de wetrun batch:
	-out FILE	archivo para las respuestas; se sobrescribe, o con -from se continúa.
	-summary FILE	archivo para el resumen, en JSON.
	-from N	empezar en la línea N, para seguir después de un corte.
	-part I/N	responder una de cada N líneas desde la línea I; o WETRUN_BATCH_PARTS=N con JOB_COMPLETION_INDEX=I-1.
	-strict	estado 1 cuando una línea tiene un problema.
	-quiet	sin avance ni resumen en la terminal.

FILE (archivo) puede ser - para la entrada estándar. Un lote sin archivo lee la entrada estándar. NAME es un nombre.
Agregue -lang en (lo predeterminado) o -lang es para el idioma. Una región como es-MX pone el punto decimal.
El servidor registra en inglés. WETRUN_ADDR pone su dirección si -addr no la da. La predeterminada es %[1]s.`},
	{"command.unknown", "there is no command %[1]s; see wetrun help", "no hay ningún comando %[1]s; vea wetrun help"},
	{"command.unknown_flag", "there is no flag %[1]s; see wetrun help", "no hay ninguna opción %[1]s; vea wetrun help"},
	{"command.flag_value", "the value of %[1]s is missing or wrong; see wetrun help", "el valor de %[1]s falta o no es correcto; vea wetrun help"},
	{"command.language", "-lang takes en, es, or either with a region such as es-MX", "-lang acepta en, es, o uno de ellos con una región, como es-MX"},
	{"command.one_file", "wetrun calibrate takes one file, or - for standard input", "wetrun calibrate acepta un archivo, o - para la entrada estándar"},
	{"command.not_read", "the sheet could not be read", "no se pudo leer la hoja"},
	{"command.refused", "the sheet was refused", "la hoja fue rechazada"},
	{"command.key_call", "wetrun key takes one name: the holder of the key; it must not begin with -", "wetrun key acepta un nombre: quien usará la clave; no debe empezar con -"},
	{"command.key_name", "a key's name has 1 to 64 letters, digits and - . _", "el nombre de una clave tiene de 1 a 64 letras, dígitos y - . _"},
	{"command.key_made", "The first line is the key. Hand it over: it is stored nowhere. Put the second line in the file of -keys.", "La primera línea es la clave. Entréguela: no se guarda en ninguna parte. Ponga la segunda línea en el archivo de -keys."},
	{"command.part", "-part must be I/N, with I from 1 to N; without it, JOB_COMPLETION_INDEX must be from 0 to below WETRUN_BATCH_PARTS", "-part debe ser I/N, con I de 1 a N; sin esto, JOB_COMPLETION_INDEX debe ser de 0 a menos que WETRUN_BATCH_PARTS"},
	{"command.stopped", "stopped; go on with -from %[1]s", "se detuvo; siga con -from %[1]s"},
	{"command.interrupted", "interrupted", "interrumpido"},
	{"command.strict", "problems in %[1]d of %[2]d lines", "problemas en %[1]d de %[2]d líneas"},
	{"command.same_file", "%[1]s %[2]s is the same file as %[3]s, which would be lost", "%[1]s %[2]s es el mismo archivo que %[3]s, que se perdería"},
	{"command.other_part", "the last answer in %[1]s is to line %[2]s, which is not of part %[3]s", "la última respuesta de %[1]s es a la línea %[2]s, que no es de la parte %[3]s"},
	{"command.repeats", "%[1]s has answers up to line %[2]s, which would repeat; go on with -from %[3]s", "%[1]s tiene respuestas hasta la línea %[2]s, que se repetirían; siga con -from %[3]s"},
	{"command.gap", "%[1]s has answers up to line %[2]s, and the next ones would be missing; go on with -from %[3]s", "%[1]s tiene respuestas hasta la línea %[2]s, y faltarían las siguientes; siga con -from %[3]s"},
	{"command.no_answers", "%[1]s does not end with an answer of a batch", "%[1]s no termina con una respuesta de un lote"},
	{"command.progress", "Lines: %[1]d (%[2]d per second). With a problem: %[3]d.", "Líneas: %[1]d (%[2]d por segundo). Con un problema: %[3]d."},
	{"command.left", "Done: %[1]s. Left: %[2]s.", "Hecho: %[1]s. Falta: %[2]s."},
	{"command.lines", "Lines answered: %[1]d in %[2]s (%[3]d per second)", "Líneas respondidas: %[1]d en %[2]s (%[3]d por segundo)"},
	{"command.problems", "With a problem: %[1]d", "Con un problema: %[1]d"},
	{"command.last", "Last line: %[1]d", "Última línea: %[1]d"},
	{"command.verdicts", "Field sheets by verdict:", "Hojas de campo por resultado:"},
	{"command.kinds", "Problems by type:", "Problemas por tipo:"},
	{"command.codes", "Invalid fields by code:", "Campos no válidos por código:"},
}.add()
