package operation

import "slices"

// All are the calculations of the service, one line each: the path under /v1, and what
// answers a request there. Nobody changes it.
var All = []Operation{
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
	calculation("tank-rinse", tankRinse),
}

// Named is the operation at a path under /v1; nil where there is none.
func Named(name string) *Operation {
	i := slices.IndexFunc(All, func(o Operation) bool { return o.Name == name })
	if i < 0 {
		return nil
	}
	return &All[i]
}
