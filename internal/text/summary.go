package text

import "strings"

// summaries are the lines of a field sheet on paper.
var summaries = []entry{
	{"summary.ready", "ready", ""},
	{"summary.not_ready", "not ready", ""},
	{"summary.incomplete", "incomplete", ""},
	{"summary.passed", "in order", ""},
	{"summary.failed", "NOT IN ORDER", ""},
	{"summary.not_done", "not done", ""},
	{"summary.verdict", "%[1]s. %[2]s", ""},
	{"summary.do", "What to do, in this order", ""},
	{"summary.found", "What was found", ""},
	{"summary.cautions", "Mind", ""},
	{"summary.pressure", "Pressure: %[1]s. %[2]s to %[3]s, %[4]s apart where %[5]s is allowed; nozzle output differs by %[6]s because of it.", ""},
	{"summary.pressure_not_done", "Pressure: not measured.", ""},
	{"summary.output", "Output: %[1]s. %[2]d of %[3]d catches are outside; the mean nozzle gives %[4]s, and %[5]s either way is allowed.", ""},
	{"summary.catch_below", "  %[1]s gives too little: the jug should read %[2]s to %[3]s.", ""},
	{"summary.catch_above", "  %[1]s gives too much: the jug should read %[2]s to %[3]s.", ""},
	{"summary.output_not_done", "Output: not measured.", ""},
	{"summary.speed", "Speed: %[1]s. %[2]s; the runs differ by %[3]s.", ""},
	{"summary.speed_not_done", "Speed: not measured.", ""},
	{"summary.rate", "Rate: %[1]s. %[2]s on the treated area; the target is %[3]s, so it is off by %[4]s.", ""},
	{"summary.rate_without_target", "Rate: %[1]s. %[2]s on the treated area; no target was given.", ""},
	{"summary.field_rate", "  On the whole field that is %[1]s.", ""},
	{"summary.rate_not_done", "Rate: it needs catches, timed runs and the width per nozzle.", ""},
	{"summary.plan", "  Plan: %[1]s. That should give %[2]s.", ""},
	{"summary.set_speed", "drive %[1]s", ""},
	{"summary.set_pressure", "set %[1]s at the nozzles", ""},
	{"summary.set_engine_speed", "turn the engine at %[1]s", ""},
	{"summary.set_gear", "use gear %[1]s", ""},
	{"summary.set_nozzle", "fit the nozzles %[1]s", ""},
	{"summary.set_duty_cycle", "set a duty cycle of %[1]s", ""},
	{"summary.area_check", "Tank: %[1]s. It says %[2]s.", ""},
	{"summary.next_due", "Calibrate again by %[1]s at the latest.", ""},
	{"summary.hours_left", "  Or after %[1]s more of use.", ""},
	{"summary.cost", "The deviation costs %[1]s %[2]s on every %[3]s.", ""},
}

var unitNames = strings.NewReplacer("gal_us", "US gal", "fl_oz_us", "US fl oz", "pt_us", "US pt", "qt_us", "US qt", "gal_imp", "imp. gal", "fl_oz_imp", "imp. fl oz", "1000ft2", "1000 sq ft", "ft2", "sq ft", "m2", "m²")

// Unit words a unit symbol for people.
func Unit(symbol string) string { return unitNames.Replace(symbol) }
