package operation

import (
	"cmp"

	"wetrun/api/wire"
	"wetrun/calc"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// GearRequest is how fast the tractor drives in a gear at an engine speed.
type GearRequest struct {
	Label       string        `json:"label" validate:"required"`
	GroundSpeed wire.Quantity `json:"groundSpeed" validate:"required" is:"speed"`
	EngineSpeed wire.Quantity `json:"engineSpeed" validate:"required" is:"rotational_speed"`
}

// RatedShaftRequest is the engine speed at rated shaft speed.
type RatedShaftRequest struct {
	EngineSpeed wire.Quantity `json:"engineSpeed" validate:"required" is:"rotational_speed"`
}

// PumpRequest is what feeds the boom.
type PumpRequest struct {
	Type       calc.PumpType       `json:"type" validate:"required"`
	Drive      calc.PumpDrive      `json:"drive" validate:"required"`
	Regulation calc.PumpRegulation `json:"regulation" validate:"required"`
}

// machineInput fills in engine, gears, pump and duty cycle.
func (r *CorrectionsRequest) machineInput(in *calc.CorrectionsInput) {
	if len(r.Gears) > 0 {
		in.Gears = make([]calc.Gear, len(r.Gears))
	}
	for i, g := range r.Gears {
		in.Gears[i] = calc.Gear{
			Label: g.Label, GroundSpeed: unit.Speed(g.GroundSpeed.SI()), EngineSpeed: unit.RotationalSpeed(g.EngineSpeed.SI()),
		}
	}
	in.EngineSpeedLimits = calc.EngineSpeedRange{
		Low: unit.RotationalSpeed(r.EngineSpeedLimits.Low.SI()), High: unit.RotationalSpeed(r.EngineSpeedLimits.High.SI()),
	}
	in.DutyCycleLimits = calc.DutyCycleRange{Low: unit.Ratio(r.DutyCycleLimits.Low.SI()), High: unit.Ratio(r.DutyCycleLimits.High.SI())}
	in.RatedShaft.EngineSpeed = unit.RotationalSpeed(r.RatedShaft.EngineSpeed.SI())
	in.Pump = calc.Pump{Type: r.Pump.Type, Drive: r.Pump.Drive, Regulation: r.Pump.Regulation}
}

// conflicts reports a controller that one member has and another has not. calc
// cannot tell: there false is as good as not given.
func (r *CorrectionsRequest) conflicts() (v finding.Invalid) {
	if r.RateController != nil && !*r.RateController && r.Pump.Regulation == calc.RateControllerRegulation {
		v = finding.Invalid{{Place: finding.Member("rateController"), Code: finding.CodeConflict, Because: finding.Member("pump").Member("regulation")}}
	}
	return append(v, r.unusedSizeRatings()...)
}

// DropletRowRequest is one line of a maker's droplet chart.
type DropletRowRequest struct {
	Label         string            `json:"label,omitzero"`
	PressureRange wire.Range        `json:"pressureRange" validate:"required" is:"pressure"`
	DropletClass  calc.DropletClass `json:"dropletClass" validate:"required"`
}

// labelInput fills in what label and chart say of droplets and rate.
func (r *CorrectionsRequest) labelInput(in *calc.CorrectionsInput) {
	if len(r.DropletChart) > 0 {
		in.DropletChart = make([]calc.DropletEntry, len(r.DropletChart))
	}
	for i, d := range r.DropletChart {
		in.DropletChart[i] = calc.DropletEntry{
			Label: d.Label, PressureRange: pressureRange(d.PressureRange), DropletClass: d.DropletClass,
		}
	}
	in.AllowedDropletClasses = r.AllowedDropletClasses
	in.SprayVolumeRange = calc.RateRange{
		Low: unit.ApplicationRate(r.SprayVolumeRange.Low.SI()), High: unit.ApplicationRate(r.SprayVolumeRange.High.SI()),
	}
}

// dropletClassWord is the word of a class in an answer.
func dropletClassWord(class calc.DropletClass) string { return cmp.Or(string(class), "unknown") }
