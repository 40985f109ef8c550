package api

// operations are the calculations of the service, one line each: the path under
// /v1, what a request may hold, and what answers it.
var operations = []operation{
	calculation("ground-speed", groundSpeed),
	calculation("application-rate", applicationRate),
	calculation("area-check", areaCheck),
	calculation("course-length", courseLength),
	calculation("convert", convert),
	calculation("nozzle-flow", nozzleFlow),
	calculation("pressure-uniformity", pressureUniformity),
	calculation("nozzle-acceptance", nozzleAcceptance),
	calculation("nozzle-selection", nozzleSelection),
	calculation("corrections", corrections),
	calculation("meter-calibration", meterCalibration),
	calculation("pump-demand", pumpDemand),
	calculation("field-capacity", fieldCapacity),
	calculation("pattern-uniformity", patternUniformity),
	calculation("wear-forecast", wearForecast),
	calculation("calibrations", calibrations).recorded(calibrationsRecord),
	calculation("tank-loads", tankLoads),
}
