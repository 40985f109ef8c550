package text

// deprecation are the words of the page that says how an operation goes.
var _ = entries{
	{"deprecation.title", "Deprecated operations", "Operaciones en retiro"},
	{"deprecation.policy", "A deprecated operation works on, unchanged, for at least %[1]d months. In that time every answer of it has the headers Deprecation (RFC 9745) and Sunset (RFC 8594). The document marks it as deprecated, and this page names it.",
		"Una operación en retiro sigue funcionando, sin cambios, al menos %[1]d meses. En ese tiempo, todas sus respuestas llevan los encabezados Deprecation (RFC 9745) y Sunset (RFC 8594). El documento la marca como obsoleta, y esta página la nombra."},
	{"deprecation.breaking", "Under /v1 nothing is removed, and nothing changes its meaning. New fields, codes and operations may be added. Ignore those that you do not know.",
		"En /v1 no se quita nada, y nada cambia de significado. Pueden agregarse campos, códigos y operaciones. Ignore los que no conozca."},
	{"deprecation.none", "No operation is deprecated now.", "Ahora no hay ninguna operación en retiro."},
	{"deprecation.line", "%[1]s: deprecated since %[2]s. It may be gone from %[3]s.",
		"%[1]s: en retiro desde el %[2]s. Puede dejar de existir a partir del %[3]s."},
	{"deprecation.line_successor", "%[1]s: deprecated since %[2]s. It may be gone from %[3]s. Use %[4]s instead.",
		"%[1]s: en retiro desde el %[2]s. Puede dejar de existir a partir del %[3]s. Use %[4]s en su lugar."},
}.add()
