package text

var nozzleFlow = []entry{
	{"warning.short_catch", "Under 20 s, the stopwatch hand's delay weighs too much. Catch for 30 s or longer.", ""},
	{"warning.mixed_pressures", "The catches stand at different pressures. Their plain mean is the flow at no one of them.", ""},
	{"warning.exponent_unusual", "The flow of these catches changes with pressure unlike that of a usual nozzle, whose exponent is from 0.4 to 0.6. Check the readings and that the nozzles are alike.", ""},
	{"warning.exponent_implausible", "No nozzle changes its flow with pressure as these catches do. The square-root law is used instead. Check the readings and that the nozzles are alike.", ""},
	{"warning.far_prediction", "This pressure is more than twice as high or less than half as high as any that was caught at. Catch there before you rely on it.", ""},
}
