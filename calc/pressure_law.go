package calc

import (
	"math"

	"wetrun/calc/unit"
)

// SquareRoot is the exponent of the law of flow through an orifice.
const SquareRoot = 0.5

// FlowAtPressure moves a flow measured or rated at one pressure to another,
//
//	q = q0 x (p / p0)^n
//
// with n = SquareRoot for a hydraulic nozzle unless catches at two pressures gave
// another. All arguments must be above zero; the result is then above zero.
//
// Source: Q1/Q2 = sqrt(p1/p2), Croatian advisory sheet, seen in a copy only, and the
// tables of testdata/published that follow the same law.
func FlowAtPressure(flow unit.FlowRate, from, to unit.Pressure, exponent float64) unit.FlowRate {
	if from == to {
		return flow
	}
	return unit.FlowRate(float64(flow) * power(float64(to/from), exponent))
}

// PressureForFlow is the inverse of FlowAtPressure: the pressure at which the
// flow becomes wanted,
//
//	p = p0 x (q / q0)^(1/n)
func PressureForFlow(flow unit.FlowRate, at unit.Pressure, wanted unit.FlowRate, exponent float64) unit.Pressure {
	if flow == wanted {
		return at
	}
	ratio := float64(wanted / flow)
	if exponent == SquareRoot {
		return unit.Pressure(float64(at) * ratio * ratio)
	}
	return unit.Pressure(float64(at) * math.Pow(ratio, 1/exponent))
}

// power is x^n, by the square root where that is what is meant: it is exact to
// half a unit in the last place and ten times as fast.
func power(x, n float64) float64 {
	if n == SquareRoot {
		return math.Sqrt(x)
	}
	return math.Pow(x, n)
}
