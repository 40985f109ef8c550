package api

import (
	"slices"

	"wetrun/calc"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// mostGears is how many gears one request may list.
const mostGears = 12

// GearRequest is how fast the tractor drives in a gear at an engine speed.
type GearRequest struct {
	Label       string   `json:"label"`
	GroundSpeed Quantity `json:"groundSpeed"`
	EngineSpeed Quantity `json:"engineSpeed"`
}

// RatedShaftRequest is the engine speed at rated shaft speed.
type RatedShaftRequest struct {
	EngineSpeed Quantity `json:"engineSpeed"`
}

// PumpRequest is what feeds the boom.
type PumpRequest struct {
	Type       string `json:"type"`
	Drive      string `json:"drive"`
	Regulation string `json:"regulation"`
}

// The words of a pump, in the order of calc's constants, which count from one.
var (
	pumpTypeWords       = []string{"positive_displacement", "centrifugal"}
	pumpDriveWords      = []string{"shaft", "independent"}
	pumpRegulationWords = []string{"relief_valve", "none", "rate_controller"}
)

var gearTable = objectOf(
	require(label("label", func(g *GearRequest) *string { return &g.Label }, longestLabel)),
	require(quantity("groundSpeed", func(g *GearRequest) *Quantity { return &g.GroundSpeed }, unit.KindSpeed)),
	require(quantity("engineSpeed", func(g *GearRequest) *Quantity { return &g.EngineSpeed }, unit.KindRotationalSpeed)),
)

var (
	engineSpeedRangeTable = rangeTable(unit.KindRotationalSpeed)
	dutyCycleRangeTable   = rangeTable(unit.KindRatio)
)

var ratedShaftTable = objectOf(
	require(quantity("engineSpeed", func(s *RatedShaftRequest) *Quantity { return &s.EngineSpeed }, unit.KindRotationalSpeed)),
)

var pumpTable = objectOf(
	require(oneOf("type", func(p *PumpRequest) *string { return &p.Type }, pumpTypeWords...)),
	require(oneOf("drive", func(p *PumpRequest) *string { return &p.Drive }, pumpDriveWords...)),
	require(oneOf("regulation", func(p *PumpRequest) *string { return &p.Regulation }, pumpRegulationWords...)),
)

// machineInput fills in engine, gears, pump and duty cycle.
func (r *CorrectionsRequest) machineInput(in *calc.CorrectionsInput) {
	if len(r.Gears) > 0 {
		in.Gears = make([]calc.Gear, len(r.Gears))
	}
	for i, g := range r.Gears {
		in.Gears[i] = calc.Gear{
			Label: g.Label, GroundSpeed: unit.Speed(g.GroundSpeed.si()), EngineSpeed: unit.RotationalSpeed(g.EngineSpeed.si()),
		}
	}
	in.EngineSpeedLimits = calc.EngineSpeedRange{
		Low: unit.RotationalSpeed(r.EngineSpeedLimits.Low.si()), High: unit.RotationalSpeed(r.EngineSpeedLimits.High.si()),
	}
	in.DutyCycleLimits = calc.DutyCycleRange{Low: unit.Ratio(r.DutyCycleLimits.Low.si()), High: unit.Ratio(r.DutyCycleLimits.High.si())}
	in.RatedShaft.EngineSpeed = unit.RotationalSpeed(r.RatedShaft.EngineSpeed.si())
	in.Pump = calc.Pump{
		Type:       calc.PumpType(1 + slices.Index(pumpTypeWords, r.Pump.Type)),
		Drive:      calc.PumpDrive(1 + slices.Index(pumpDriveWords, r.Pump.Drive)),
		Regulation: calc.PumpRegulation(1 + slices.Index(pumpRegulationWords, r.Pump.Regulation)),
	}
}

// conflicts reports a controller that one member has and another has not. calc
// cannot tell: there false is as good as not given.
func (r *CorrectionsRequest) conflicts() (v finding.Invalid) {
	if r.RateController != nil && !*r.RateController && r.Pump.Regulation == "rate_controller" {
		v = finding.Invalid{{Place: finding.Member("rateController"), Code: finding.CodeConflict, Because: finding.Member("pump").Member("regulation")}}
	}
	return append(v, r.unread()...)
}
