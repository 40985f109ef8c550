package text

var pressureUniformity = []entry{
	{"warning.single_reading", "One reading cannot show whether others agree with it. On a boom read at least three places: left, center and right; of a meter or sensor take at least two readings.", ""},
	{"warning.few_readings", "Two readings leave a part of the boom unseen. Read at least three places: left, center and right.", ""},
	{"warning.cab_gauge_differs", "The cab gauge is more than 10 % away from the boom. It may be wrong, or the hoses between may lose the pressure.", ""},
	{"warning.unusual_pressure", "This pressure is unusual for a field sprayer. Check the reading and its unit.", ""},
	{"warning.pressure_outside_nozzle_range", "The nozzle is not made for this pressure: it lies outside the working range that was given.", ""},
	{"next.repair_boom", "Do not use the boom until a qualified mechanic has found and repaired what makes its pressure uneven. Then read every place again.", ""},
	{"next.check_cab_gauge", "Find out whether the cab gauge is wrong or the hoses lose pressure. Compare it with the boom while the pressure is on and nothing flows, or with a reference gauge on the same port. If they differ then too, the gauge is wrong; if they agree, the loss is in the hoses and grows with the flow.", ""},
}
