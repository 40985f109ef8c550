package operation

import (
	"wetrun/api/wire"
	"wetrun/calc"
	"wetrun/calc/unit"
)

// CatchRequest is one catch: what one or several nozzles gave into a jug. An empty cup has no
// place in nozzle-flow, where no exponent can be fitted to it, and has one where a tag says so.
type CatchRequest struct {
	Label         string        `json:"label,omitzero"`
	Volume        wire.Quantity `json:"volume" validate:"required" is:"volume"`
	Time          wire.Quantity `json:"time" validate:"required" is:"time"`
	Nozzles       int           `json:"nozzles,omitzero" range:"1..1000"`
	SprayPressure wire.Quantity `json:"sprayPressure,omitzero" is:"pressure"`
	Jug           string        `json:"jug,omitzero"`
	Stopwatch     string        `json:"stopwatch,omitzero"`
	Gauge         string        `json:"gauge,omitzero"`
}

// input is the catch for calc, whose zero stands for what was left out.
func (c *CatchRequest) input() calc.Catch {
	return calc.Catch{
		Volume:        unit.Volume(c.Volume.SI()),
		Time:          unit.Time(c.Time.SI()),
		Nozzles:       c.Nozzles,
		SprayPressure: unit.Pressure(c.SprayPressure.SI()),
		Jug:           c.Jug, Stopwatch: c.Stopwatch, Gauge: c.Gauge,
	}
}
