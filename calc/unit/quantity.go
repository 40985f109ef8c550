// Package unit holds one named type per quantity and the one conversion table.
//
// Every type is a float64 in the coherent SI unit of its quantity, so that
// arithmetic needs no factors. An application rate is a volume per area, which
// in SI is a length; the named types keep it apart from a nozzle spacing.
//
// A quantity is written as a number times a unit, 100*unit.Foot, and read back
// with In: speed.In(unit.MilePerHour).
package unit

type (
	// Length is in metres.
	Length float64
	// Time is in seconds.
	Time float64
	// Speed is in metres per second.
	Speed float64
	// Volume is in cubic metres.
	Volume float64
	// FlowRate is a volume per time, in cubic metres per second.
	FlowRate float64
	// Pressure is gauge pressure, in pascals.
	Pressure float64
	// Area is in square metres.
	Area float64
	// WorkRate is an area per time, in square metres per second.
	WorkRate float64
	// ApplicationRate is a volume per area, in cubic metres per square metre.
	ApplicationRate float64
	// Mass is in kilograms.
	Mass float64
	// MassRate is a mass per area, in kilograms per square metre.
	MassRate float64
	// Density is a mass per volume, in kilograms per cubic metre.
	Density float64
	// Concentration is a volume per volume, as a fraction.
	Concentration float64
	// Ratio is a plain fraction: 0.1 is 10 %.
	Ratio float64
	// RotationalSpeed is in revolutions per second.
	RotationalSpeed float64
)

// In returns the number that goes with the given unit of length.
func (q Length) In(u Length) float64 { return float64(q / u) }

// In returns the number that goes with the given unit of time.
func (q Time) In(u Time) float64 { return float64(q / u) }

// In returns the number that goes with the given unit of speed.
func (q Speed) In(u Speed) float64 { return float64(q / u) }

// In returns the number that goes with the given unit of volume.
func (q Volume) In(u Volume) float64 { return float64(q / u) }

// In returns the number that goes with the given unit of flow rate.
func (q FlowRate) In(u FlowRate) float64 { return float64(q / u) }

// In returns the number that goes with the given unit of pressure.
func (q Pressure) In(u Pressure) float64 { return float64(q / u) }

// In returns the number that goes with the given unit of area.
func (q Area) In(u Area) float64 { return float64(q / u) }

// In returns the number that goes with the given unit of work rate.
func (q WorkRate) In(u WorkRate) float64 { return float64(q / u) }

// In returns the number that goes with the given unit of application rate.
func (q ApplicationRate) In(u ApplicationRate) float64 { return float64(q / u) }

// In returns the number that goes with the given unit of mass.
func (q Mass) In(u Mass) float64 { return float64(q / u) }

// In returns the number that goes with the given unit of mass per area.
func (q MassRate) In(u MassRate) float64 { return float64(q / u) }

// In returns the number that goes with the given unit of density.
func (q Density) In(u Density) float64 { return float64(q / u) }

// In returns the number that goes with the given unit of concentration.
func (q Concentration) In(u Concentration) float64 { return float64(q / u) }

// In returns the number that goes with the given unit of ratio.
func (q Ratio) In(u Ratio) float64 { return float64(q / u) }

// In returns the number that goes with the given unit of rotational speed.
func (q RotationalSpeed) In(u RotationalSpeed) float64 { return float64(q / u) }
