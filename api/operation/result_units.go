package operation

import (
	"wetrun/api/wire"
	"wetrun/calc/unit"
)

// resultUnits are the units that computed quantities are answered in.
type resultUnits struct {
	speed, length, width, flow, rate, pressure, area, workRate, volume, mass, massRate unit.ID

	jug, scale []unit.ID // what small amounts are measured with, smallest unit first
}

var (
	usUnits = resultUnits{
		speed: unit.IDMph, length: unit.IDFt, width: unit.IDIn, flow: unit.IDGalUsMin, rate: unit.IDGalUsAcre,
		pressure: unit.IDPsi, area: unit.IDAcre, workRate: unit.IDAcreH, volume: unit.IDGalUs, mass: unit.IDLb,
		massRate: unit.IDLbAcre, jug: usJug, scale: usScale,
	}
	metricUnits = resultUnits{
		speed: unit.IDKmH, length: unit.IDM, width: unit.IDCm, flow: unit.IDLMin, rate: unit.IDLHa,
		pressure: unit.IDBar, area: unit.IDHa, workRate: unit.IDHaH, volume: unit.IDL, mass: unit.IDKg,
		massRate: unit.IDKgHa, jug: metricJug, scale: metricScale,
	}
)

// A unitSystem is what resultUnits asks for.
type unitSystem string

const (
	systemUS     unitSystem = "us"
	systemMetric unitSystem = "metric"
)

// Words lists the systems.
func (unitSystem) Words() []string { return []string{string(systemUS), string(systemMetric)} }

// Results is how the answer is wanted; every calculation has it.
type Results struct {
	ResultUnits unitSystem `json:"resultUnits,omitzero"`
	Showing
}

// Showing is the member that asks for the working.
type Showing struct {
	ShowWorking *bool `json:"showWorking,omitzero"`
}

// shows tells whether the working was asked for.
func (s *Showing) shows() bool { return s.ShowWorking != nil && *s.ShowWorking }

func (r Results) units() *resultUnits {
	if r.ResultUnits == systemMetric {
		return &metricUnits
	}
	return &usUnits
}

// percent writes a fraction in %.
func percent(x unit.Ratio) wire.Quantity { return wire.In(x, unit.IDPct) }
