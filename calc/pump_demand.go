package calc

import (
	"math"

	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// A NozzleGroup is a number of nozzles of one kind.
type NozzleGroup struct {
	Nozzles int
	// NozzleFlowRate is that of one nozzle at the working pressure. Nozzle with
	// the SprayPressure of the input stands in for it.
	NozzleFlowRate unit.FlowRate
	Nozzle         Nozzle
}

// PumpDemandInput is what a pump has to feed. The nozzles are given as one group in
// the first three fields, or as NozzleGroups.
type PumpDemandInput struct {
	Nozzles        int
	NozzleFlowRate unit.FlowRate
	Nozzle         Nozzle
	NozzleGroups   []NozzleGroup
	SprayPressure  unit.Pressure // of all nozzles

	// AgitationFlowRate is what goes back to stir the tank. TankVolume with
	// AgitationShare stands in for it: the share of the tank in every minute, where
	// zero stands for DefaultAgitationShare. With neither nothing is counted.
	AgitationFlowRate unit.FlowRate
	TankVolume        unit.Volume
	AgitationShare    unit.Ratio
	// Reserve is added to both as a share of them. Zero stands for
	// DefaultPumpReserve, with NoReserve for none.
	Reserve   unit.Ratio
	NoReserve bool
	// RatedPumpFlowRate, when given, is what the demand is held against: the flow at
	// the working pressure and shaft speed, not with the outlet open.
	RatedPumpFlowRate unit.FlowRate
	// GroundSpeed and Width, of the whole boom, ask for rates. Both or neither.
	GroundSpeed unit.Speed
	Width       unit.Length
}

// PumpDemandResult is the demand and what the pump makes of it. What was not asked
// for is zero.
type PumpDemandResult struct {
	NozzleFlowRates   []unit.FlowRate // of one nozzle of each group
	SprayFlowRate     unit.FlowRate   // of all nozzles
	AgitationFlowRate unit.FlowRate
	AgitationShare    unit.Ratio    // of the tank in a minute; zero when its volume is not known
	Reserve           unit.Ratio    // the one applied
	ReserveFlowRate   unit.FlowRate // Reserve x (spray + agitation)
	TotalFlowRate     unit.FlowRate // spray, agitation and reserve

	Sufficient         finding.Verdict // NotJudged without a pump
	SpareFlowRate      unit.FlowRate   // rated less total; below zero when it falls short
	WornPumpFlowRate   unit.FlowRate   // of the pump when it has lost WornPump
	SufficientWhenWorn finding.Verdict
	// LargestSprayFlowRate is what the pump leaves for nozzles, agitation and
	// reserve kept; zero when it cannot even stir.
	LargestSprayFlowRate unit.FlowRate
	// LargestNozzles is how many nozzles that is; -1 when the nozzles are of more
	// than one group, or without a pump.
	LargestNozzles int

	ApplicationRate        unit.ApplicationRate // of the nozzles given
	LargestApplicationRate unit.ApplicationRate // of LargestSprayFlowRate
	Warnings               []finding.Warning
}

// WornPump is how far below its rating a pump may be and still pass. Source:
// Kontrola prskalica pred sezonu, Serbian advisory service, year not shown,
// https://www.poljoprivrednik.net/poljoprivreda/poljoprivredna-tehnika/5871-kontrola-prskalica-pred-sezonu
const WornPump = 10 * unit.Percent

// Warning codes of PumpDemand, beside WarnUnusualSpeed, WarnUnusualRate,
// WarnPressureOutsideRange and WarnSprayPressureUnused.
const (
	WarnAgitationNotCounted = "agitation_not_counted" // right only without stirring by the pump
	WarnUnusualAgitation    = "unusual_agitation"     // outside 1 to 20 % of the tank a minute
	WarnUnusualReserve      = "unusual_reserve"       // over 100 %
	WarnShortWhenWorn       = "short_when_worn"       // enough now, not when WornPump is lost
)

// Agitation and reserve outside which a sprayer hardly works. From memory, no
// published source.
const (
	leastAgitation = 1 * unit.Percent
	mostAgitation  = 20 * unit.Percent
	mostReserve    = 100 * unit.Percent
)

// PumpDemand returns the flow that a pump has to give,
//
//	Q = (n x q + a) x (1 + reserve),   a = share x V / min
//
// n nozzles of flow q, summed over the groups, and agitation a, given as a flow or
// as a share of the tank's volume V in every minute. Against a rated flow P
//
//	spare = P - Q,   most for nozzles = P / (1 + reserve) - a
//
// from which follow the largest number of nozzles, rounded down, and, with speed v
// and width w of the boom, the largest rate, that flow / (v x w). A demand exactly
// as large as the rating is met.
//
// All quantities must be finite and not below zero. The error is finding.Invalid. Beside
// not_positive, not_finite and the codes of Nozzle.Rating under Nozzle its codes are
//   - required: on Nozzles and on NozzleFlowRate, of the input or of a group; on
//     SprayPressure with a Nozzle; on TankVolume with AgitationShare; on the one of
//     GroundSpeed and Width that is missing;
//   - conflict: on Nozzle beside NozzleFlowRate, on NozzleGroups beside nozzles of
//     the input, on AgitationShare beside AgitationFlowRate;
//   - not_computable, on RatedPumpFlowRate when it would feed more than 1e9 nozzles.
//
// Sources: the sum is common practice, no published source; 5 % of the tank a
// minute and 20 % in reserve are from memory. Rate from flow, speed and width, see
// ApplicationRate; flow at a pressure, see FlowAtPressure.
func PumpDemand(in PumpDemandInput) (PumpDemandResult, error) {
	if err := in.check(); err != nil {
		return PumpDemandResult{}, err
	}
	groups := in.groups()
	r := PumpDemandResult{Reserve: in.Reserve, LargestNozzles: -1, NozzleFlowRates: make([]unit.FlowRate, len(groups))}
	for i, g := range groups {
		r.NozzleFlowRates[i] = g.flow(in.SprayPressure)
		r.SprayFlowRate += r.NozzleFlowRates[i] * unit.FlowRate(g.Nozzles)
	}
	r.agitate(in)
	if r.Reserve == 0 && !in.NoReserve {
		r.Reserve = DefaultPumpReserve
	}
	needed := r.SprayFlowRate + r.AgitationFlowRate
	r.ReserveFlowRate = needed * unit.FlowRate(r.Reserve)
	r.TotalFlowRate = needed + r.ReserveFlowRate
	if in.RatedPumpFlowRate != 0 {
		r.judge(in.RatedPumpFlowRate)
	}
	if in.GroundSpeed != 0 {
		area := float64(in.GroundSpeed) * float64(in.Width)
		r.ApplicationRate = unit.ApplicationRate(float64(r.SprayFlowRate) / area)
		r.LargestApplicationRate = unit.ApplicationRate(float64(r.LargestSprayFlowRate) / area)
	}
	if r.LargestNozzles > mostCounted {
		return PumpDemandResult{}, finding.Invalid{{Place: finding.Member("ratedPumpFlowRate"), Code: CodeNotComputable}}
	}
	r.warn(in, groups)
	return r, nil
}

// agitate fills in what goes back to the tank.
func (r *PumpDemandResult) agitate(in PumpDemandInput) {
	perMinute := float64(in.TankVolume) / float64(unit.Minute)
	r.AgitationFlowRate = in.AgitationFlowRate
	switch {
	case in.TankVolume == 0:
	case in.AgitationFlowRate != 0:
		r.AgitationShare = unit.Ratio(float64(in.AgitationFlowRate) / perMinute)
	default:
		r.AgitationShare = in.AgitationShare
		if r.AgitationShare == 0 {
			r.AgitationShare = DefaultAgitationShare
		}
		r.AgitationFlowRate = unit.FlowRate(float64(r.AgitationShare) * perMinute)
	}
}

// judge holds the demand against the pump.
func (r *PumpDemandResult) judge(pump unit.FlowRate) {
	meets := func(flow unit.FlowRate) finding.Verdict {
		if finding.AtMost(float64(r.TotalFlowRate/flow), 1) {
			return finding.Within
		}
		return finding.Outside
	}
	r.WornPumpFlowRate = pump * unit.FlowRate(1-WornPump)
	r.Sufficient, r.SufficientWhenWorn = meets(pump), meets(r.WornPumpFlowRate)
	r.SpareFlowRate = unit.FlowRate(finding.Difference(float64(pump), float64(r.TotalFlowRate)))
	left := finding.Difference(float64(pump)/(1+float64(r.Reserve)), float64(r.AgitationFlowRate))
	r.LargestSprayFlowRate = unit.FlowRate(math.Max(left, 0))
	if len(r.NozzleFlowRates) == 1 {
		n := float64(r.LargestSprayFlowRate / r.NozzleFlowRates[0])
		if whole := math.Round(n); finding.Difference(n, whole) == 0 {
			n = whole
		}
		r.LargestNozzles = int(math.Min(math.Floor(n), 2*mostCounted)) // refused above mostCounted
	}
}
