package calc

import (
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// A Catch is what one or several nozzles gave into a jug in a measured time.
type Catch struct {
	// Volume is the reading of the jug, of all its nozzles together. Where an operation
	// says so it may be zero: nothing came out.
	Volume unit.Volume
	Time   unit.Time
	// Nozzles is how many nozzles ran into the jug, as on a drop that carries
	// several. Zero stands for one.
	Nozzles int
	// SprayPressure is the pressure at this catch, where it was read. Zero leaves
	// it to the operation's own SprayPressure.
	SprayPressure unit.Pressure
	// Jug, Stopwatch and Gauge, of its own SprayPressure, name the instruments; see
	// Measuring.
	Jug, Stopwatch, Gauge string
}

// WarnShortCatch is the warning for a catch below ShortCatch.
const WarnShortCatch = "short_catch"

// CodePressureRequired is the violation for a pressure that must be known because
// a flow is to be moved to or from it.
const CodePressureRequired = "pressure_required"

// ShortCatch is the time below which a catch is warned of: half a second of
// reaction is then over 2.5 % of the flow. Common practice is 30 s or a minute,
// no published source.
const ShortCatch = 20 * unit.Second

// FlowRate returns the flow of all nozzles of the catch, q = V / t. The catch
// must be one that passes the check of its operation: volume and time above zero.
//
// Source: GPM = oz per min / 128, Albany County Weed and Pest District,
// http://albanycountyweedandpest.com/calibrating-your-sprayer.html
func (c Catch) FlowRate() unit.FlowRate {
	return unit.FlowRate(float64(c.Volume) / float64(c.Time))
}

// NozzleFlowRate returns the mean flow of one nozzle of the catch,
// q = V / (t x nozzles). Of a catch of several nozzles it cannot tell how far
// single ones are from it.
func (c Catch) NozzleFlowRate() unit.FlowRate {
	return c.FlowRate() / unit.FlowRate(c.nozzles())
}

// nozzles is the number of nozzles with its default. It is a float64 so that a
// sum of many cannot overflow.
func (c Catch) nozzles() float64 {
	if c.Nozzles == 0 {
		return 1
	}
	return float64(c.Nozzles)
}

// pressure is the catch's own pressure or else the common one; zero when neither
// is known.
func (c Catch) pressure(common unit.Pressure) unit.Pressure {
	if c.SprayPressure != 0 {
		return c.SprayPressure
	}
	return common
}

// short tells whether the catch is one to warn of. Exactly ShortCatch is long
// enough, in whatever unit it came.
func (c Catch) short() bool { return !finding.AtMost(float64(ShortCatch/c.Time), 1) }

// checkCatches checks a list of catches: at least one (too_few), volume and time
// given, nothing negative or without end. list is its name.
func checkCatches(v *finding.Invalid, catches []Catch, list string) {
	if len(catches) == 0 {
		v.Add(finding.Member(list), finding.CodeTooFew)
	}
	for i := range catches {
		catches[i].check(v, list, i)
	}
}

func (c *Catch) check(v *finding.Invalid, list string, i int) {
	if c.Volume == 0 {
		v.Positive(0, finding.Item(list, i).Member("volume"))
	}
	c.checkDry(v, list, i)
}

// checkDry is check where nothing in the jug is a reading too.
func (c *Catch) checkDry(v *finding.Invalid, list string, i int) {
	v.OptionalIn(float64(c.Volume), list, i, "volume")
	v.PositiveIn(float64(c.Time), list, i, "time")
	if c.Nozzles < 0 {
		v.Add(finding.Item(list, i).Member("nozzles"), finding.CodeNotPositive)
	}
	v.OptionalIn(float64(c.SprayPressure), list, i, "sprayPressure")
}
