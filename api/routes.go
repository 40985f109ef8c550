package api

// How much one request may hold.
const (
	mostCatches  = 1000
	mostRuns     = 100
	mostReadings = 100
	longestLabel = 80 // characters
)

// operations are the calculations of the service, one line each: the path under
// /v1, what a request may hold, and what answers it.
var operations = []operation{
	calculation("ground-speed", groundSpeedTable, groundSpeed),
}
