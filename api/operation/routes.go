package operation

// All are the calculations of the service, one line each: the path under
// /v1, what a request may hold, and what answers it.
var All = []Operation{
	Calculation("ground-speed", GroundSpeed),
	Calculation("application-rate", applicationRate),
	Calculation("area-check", areaCheck),
	Calculation("course-length", courseLength),
	Calculation("convert", convert),
	Calculation("nozzle-flow", nozzleFlow),
	Calculation("pressure-uniformity", pressureUniformity),
	Calculation("nozzle-acceptance", nozzleAcceptance),
	Calculation("nozzle-selection", nozzleSelection),
	Calculation("corrections", corrections),
	Calculation("meter-calibration", meterCalibration),
	Calculation("pump-demand", pumpDemand),
	Calculation("field-capacity", fieldCapacity),
	Calculation("pattern-uniformity", patternUniformity),
	Calculation("wear-forecast", wearForecast),
	Calculation("calibrations", calibrations).recorded(calibrationsRecord),
	Calculation("tank-loads", tankLoads),
}
