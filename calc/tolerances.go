package calc

import "wetrun/calc/unit"

// What people in the trade use where nothing else is asked for. Each is common
// practice without a published source; every operation takes another value.
const (
	DefaultPressureDifference = 10 * unit.PoundPerSquareInch // highest less lowest boom reading
	DefaultOutputTolerance    = 10 * unit.Percent            // of a nozzle's rated flow
	DefaultReplaceAllAbove    = 25 * unit.Percent            // of the tested outside: all new nozzles
	DefaultRateTolerance      = 10 * unit.Percent            // of the target rate
	DefaultRunTolerance       = 5 * unit.Percent             // spread of timed runs
)
