package api

// How much one request may hold.
const (
	mostCatches        = 1000
	mostRuns           = 100
	mostReadings       = 100
	mostPasses         = 1000
	mostMultiple       = 1000
	mostProducts       = 30
	longestLabel       = 80 // characters
	mostNozzleGroups   = 100
	mostShelf          = 50
	mostDropletEntries = 200
)

// operations are the calculations of the service, one line each: the path under
// /v1, what a request may hold, and what answers it.
var operations = []operation{
	calculation("ground-speed", groundSpeedTable, groundSpeed),
	calculation("application-rate", applicationRateTable, applicationRate),
	calculation("area-check", areaCheckTable, areaCheck),
	calculation("course-length", courseLengthTable, courseLength),
	calculation("convert", convertTable, convert),
	calculation("nozzle-flow", nozzleFlowTable, nozzleFlow),
	calculation("pressure-uniformity", pressureUniformityTable, pressureUniformity),
	calculation("nozzle-acceptance", nozzleAcceptanceTable, nozzleAcceptance),
	calculation("nozzle-selection", nozzleSelectionTable, nozzleSelection),
	calculation("corrections", correctionsTable, corrections),
	calculation("meter-calibration", meterCalibrationTable, meterCalibration),
	calculation("pump-demand", pumpDemandTable, pumpDemand),
	calculation("field-capacity", fieldCapacityTable, fieldCapacity),
	calculation("pattern-uniformity", patternUniformityTable, patternUniformity),
	calculation("wear-forecast", wearForecastTable, wearForecast),
	calculation("calibrations", calibrationsTable, calibrations).recorded(calibrationsRecord),
	calculation("tank-loads", tankLoadsTable, tankLoads),
}
