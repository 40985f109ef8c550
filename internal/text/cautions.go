package text

// cautions go with every answer that tells somebody to do something: caution.<code>.
var _ = entries{
	{"caution.clean_water", "Calibrate with clean water only, in a sprayer that has been flushed. Do not use spray mix.", "Calibre solo con agua limpia, en una pulverizadora que ya se haya lavado. No use caldo."},
	{"caution.protective_equipment", "Wear the protective equipment that the label asks for, even with water: residues stay in tank, hoses and nozzles.", "Use el equipo de protección personal que pide la etiqueta, aun con agua: quedan residuos en el tanque, las mangueras y las boquillas."},
	{"caution.rinsate", "Flush before you start. Collect the rinsate and dispose of it, and of any residue, as the label and local rules say.", "Lave el equipo antes de empezar. Recoja el agua de lavado y elimínela, igual que todo residuo, como indican la etiqueta y las normas locales."},
	{"caution.label_is_law", "The product label is the law. Its maximum rate has no tolerance.", "La etiqueta del producto es la ley. Su tasa máxima no tiene tolerancia."},
	{"caution.running_machine", "For catches beside a running boom: tractor out of gear, brakes set, wheels chocked, shaft guarded, nobody under the boom.", "Para aforar junto a un aguilón en marcha: tractor en neutral, frenos puestos, ruedas calzadas, toma de fuerza con su resguardo y nadie debajo del aguilón."},
	{"caution.pressure_injects", "Liquid under pressure can pierce skin. Release the pressure before you open anything. Never blow through a nozzle with your mouth; use a soft brush.", "El líquido a presión puede perforar la piel. Libere la presión antes de abrir cualquier cosa. Nunca sople una boquilla con la boca; use un cepillo suave."},
	{"caution.shaft_speed", "Never go above the rated speed of the shaft.", "Nunca pase del régimen nominal de la toma de fuerza."},
	{"caution.drift", "More pressure means finer drops and more drift. Check the drop size that the label asks for.", "Más presión significa gotas más finas y más deriva. Verifique el tamaño de gota que pide la etiqueta."},
	{"caution.reentry", "Keep people out of the test bed for the re-entry interval of anything that was sprayed there.", "No deje entrar a nadie en la cama de prueba durante el intervalo de reingreso de todo lo que se haya aplicado allí."},
	{"caution.local_rules", "This is arithmetic, not permission. Local rules and licensed people decide.", "Esto es aritmética, no un permiso. Deciden las normas locales y las personas con licencia."},
}.add()
