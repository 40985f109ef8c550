package text

// deprecation are the words of the page that says how an operation goes.
var _ = entries{
	{"deprecation.title", "How operations are deprecated",
		"Cómo se retiran las operaciones"},
	{"deprecation.policy", "An operation that is to go works on, unchanged, for at least %[1]d months after it was marked. From then on every answer of it has the headers Deprecation (RFC 9745) and Sunset (RFC 8594), the document marks it as deprecated, and this page names it.",
		"Una operación que se va a retirar sigue funcionando, sin cambios, al menos %[1]d meses después de anunciarse. Desde el anuncio, todas sus respuestas llevan los encabezados Deprecation (RFC 9745) y Sunset (RFC 8594), el documento la marca como obsoleta y esta página la nombra."},
	{"deprecation.breaking", "Under /v1 nothing is taken away or changes its meaning. New members, codes and operations may be added: ignore what you do not know.",
		"Bajo /v1 no se quita nada ni cambia de significado. Pueden agregarse miembros, códigos y operaciones: ignore lo que no conozca."},
	{"deprecation.none", "No operation is deprecated at present.",
		"Por ahora no hay ninguna operación en retiro."},
	{"deprecation.line", "%[1]s: deprecated since %[2]s, may be gone from %[3]s.",
		"%[1]s: en retiro desde %[2]s; puede dejar de existir a partir de %[3]s."},
	{"deprecation.line_successor", "%[1]s: deprecated since %[2]s, may be gone from %[3]s; use %[4]s instead.",
		"%[1]s: en retiro desde %[2]s; puede dejar de existir a partir de %[3]s; use %[4]s en su lugar."},
}.add()
