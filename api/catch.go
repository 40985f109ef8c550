package api

import (
	"wetrun/calc"
	"wetrun/calc/unit"
)

// CatchRequest is one catch: what one or several nozzles gave into a jug.
type CatchRequest struct {
	Label         string   `json:"label,omitzero"`
	Volume        Quantity `json:"volume"`
	Time          Quantity `json:"time"`
	Nozzles       int      `json:"nozzles,omitzero"`
	SprayPressure Quantity `json:"sprayPressure,omitzero"`
	Jug           string   `json:"jug,omitzero"`
	Stopwatch     string   `json:"stopwatch,omitzero"`
	Gauge         string   `json:"gauge,omitzero"`
}

// mostNozzles is how many nozzles may run into one jug.
const mostNozzles = 1000

var catchTable = catchOf(quantity("volume", volumeOf, unit.KindVolume))

// dryCatchTable is the same where a catch of nothing is a finding too.
var dryCatchTable = catchOf(amount("volume", volumeOf, unit.KindVolume))

func volumeOf(c *CatchRequest) *Quantity { return &c.Volume }

func catchOf(volume member[CatchRequest]) *object[CatchRequest] {
	return objectOf(
		label("label", func(c *CatchRequest) *string { return &c.Label }, longestLabel),
		require(volume),
		require(quantity("time", func(c *CatchRequest) *Quantity { return &c.Time }, unit.KindTime)),
		count("nozzles", func(c *CatchRequest) *int { return &c.Nozzles }, 1, mostNozzles),
		quantity("sprayPressure", func(c *CatchRequest) *Quantity { return &c.SprayPressure }, unit.KindPressure),
		instrumentID("jug", func(c *CatchRequest) *string { return &c.Jug }),
		instrumentID("stopwatch", func(c *CatchRequest) *string { return &c.Stopwatch }),
		instrumentID("gauge", func(c *CatchRequest) *string { return &c.Gauge }),
	)
}

// input is the catch for calc, whose zero stands for what was left out.
func (c *CatchRequest) input() calc.Catch {
	return calc.Catch{
		Volume:        unit.Volume(c.Volume.si()),
		Time:          unit.Time(c.Time.si()),
		Nozzles:       c.Nozzles,
		SprayPressure: unit.Pressure(c.SprayPressure.si()),
		Jug:           c.Jug, Stopwatch: c.Stopwatch, Gauge: c.Gauge,
	}
}
