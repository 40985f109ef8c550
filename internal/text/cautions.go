package text

// cautions go with every answer that tells somebody to do something: caution.<code>.
var cautions = []entry{
	{"caution.clean_water", "Calibrate with clean water only, in a sprayer that has been flushed. Do not use spray mix.", ""},
	{"caution.protective_equipment", "Wear the protective equipment that the label asks for, even with water: residues stay in tank, hoses and nozzles.", ""},
	{"caution.rinsate", "Flush before you start. Collect the rinsate and dispose of it, and of any residue, as the label and local rules say.", ""},
	{"caution.label_is_law", "The product label is the law. Its maximum rate has no tolerance.", ""},
	{"caution.running_machine", "For catches beside a running boom: tractor out of gear, brakes set, wheels chocked, shaft guarded, nobody under the boom.", ""},
	{"caution.pressure_injects", "Liquid under pressure can pierce skin. Release the pressure before you open anything. Never blow through a nozzle with your mouth; use a soft brush.", ""},
	{"caution.shaft_speed", "Never go above the rated speed of the shaft.", ""},
	{"caution.drift", "More pressure means finer drops and more drift. Check the drop size that the label asks for.", ""},
	{"caution.reentry", "Keep people out of the test bed for the re-entry interval of anything that was sprayed there.", ""},
	{"caution.local_rules", "This is arithmetic, not permission. Local rules and licensed people decide.", ""},
}
