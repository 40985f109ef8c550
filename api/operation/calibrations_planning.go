package operation

import (
	"wetrun/api/wire"
	"wetrun/calc"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// PlanningRequest is what could be changed on the sprayer of a sheet beside speed
// and pressure; the members are those of corrections.
type PlanningRequest struct {
	Nozzles               []LabeledNozzleRequest `json:"nozzles,omitzero" len:"0..20"`
	Gears                 []GearRequest          `json:"gears,omitzero" len:"0..12"`
	EngineSpeedLimits     wire.Range             `json:"engineSpeedLimits,omitzero" is:"rotational_speed"`
	RatedShaft            RatedShaftRequest      `json:"ratedShaft,omitzero"`
	Pump                  PumpRequest            `json:"pump,omitzero"`
	DutyCycleLimits       wire.Range             `json:"dutyCycleLimits,omitzero" is:"ratio"`
	DropletChart          []DropletRowRequest    `json:"dropletChart,omitzero" len:"0..168"`
	AllowedDropletClasses []calc.DropletClass    `json:"allowedDropletClasses,omitzero"`
	SprayVolumeRange      wire.Range             `json:"sprayVolumeRange,omitzero" is:"application_rate"`
}

// correctionsRequest is the sheet's own part of a corrections request: what was
// measured is filled in by calc. Without planning it plans by speed and pressure.
func (r *CalibrationsRequest) correctionsRequest() *CorrectionsRequest {
	c := &CorrectionsRequest{Results: r.Results, part: finding.Member("planning"), Nozzle: LabeledNozzleRequest{NozzleRequest: r.Nozzle.NozzleRequest}}
	c.Measured.DutyCycle = r.DutyCycle
	p := r.Planning
	if p == nil {
		return c
	}
	c.Nozzles, c.Gears, c.EngineSpeedLimits, c.RatedShaft, c.Pump = p.Nozzles, p.Gears, p.EngineSpeedLimits, p.RatedShaft, p.Pump
	c.DutyCycleLimits = p.DutyCycleLimits
	c.DropletChart, c.AllowedDropletClasses, c.SprayVolumeRange = p.DropletChart, p.AllowedDropletClasses, p.SprayVolumeRange
	c.Measured.EngineSpeed = r.Machine.EngineSpeed
	for _, g := range p.Gears {
		if g.Label == r.Machine.Gear {
			c.Measured.Gear = g.Label
		}
	}
	return c
}

// planning is what calc plans with; nil for speed and pressure alone.
func (r *CalibrationsRequest) planning() (*calc.CorrectionsInput, error) {
	if r.Planning == nil {
		return nil, nil
	}
	c := r.correctionsRequest()
	if unused := c.unusedSizeRatings(); unused != nil {
		return nil, calc.UnderPlanning(unused)
	}
	in := c.input()
	return &in, nil
}

// plannedWith completes the request by what the sheet measured, for the wording.
func (c *CorrectionsRequest) plannedWith(x *calc.NozzleAcceptanceResult) *CorrectionsRequest {
	if x != nil && x.SprayPressure != 0 {
		c.Measured.SprayPressure = wire.In(x.SprayPressure, unit.IDPsi)
	}
	return c
}
