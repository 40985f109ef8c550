package calc_test

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"wetrun/calc"
	"wetrun/calc/unit"
)

// discharges are rows of Theoretical Discharge of Nozzles, Engineering Data
// Library, Hydraulic Institute, https://edl.pumps.org/fluid-flow-iii/fr-loss-nozzles.html :
// US gal/min of plain nozzles of 3/8, 1/2 and 5/8 in, printed to 0.1. A check of
// the law, not of a part.
var discharges = []struct {
	at10, psi, printed float64
}{
	{13.3, 20, 18.8}, {23.6, 20, 33.4}, {36.9, 20, 52.1},
	{13.3, 30, 23.0}, {23.6, 30, 40.9}, {36.9, 30, 63.9},
}

// TestPublishedDischarge allows one unit of the last digit, as both flows are
// rounded to it.
func TestPublishedDischarge(t *testing.T) {
	for _, c := range discharges {
		got := calc.FlowAtPressure(unit.FlowRate(c.at10), 10, unit.Pressure(c.psi), calc.SquareRoot)
		if off := float64(got) - c.printed; off > 0.1 || off < -0.1 {
			t.Errorf("%v gpm at 10 psi gives %v at %v psi, printed %v", c.at10, got, c.psi, c.printed)
		}
		// The other way the pressure is off by twice what each flow is: at most
		// 2 x (0.05 / 13.3 + 0.05 / 18.8) = 1.3 %.
		back := calc.PressureForFlow(unit.FlowRate(c.printed), unit.Pressure(c.psi), unit.FlowRate(c.at10), calc.SquareRoot)
		agrees(t, "pressure of the flow at 10 psi", float64(back), 10, 0.013)
	}
}

// TestReferencePressureLaw: four times the pressure is twice the flow, and with an
// exponent of 1 four times.
func TestReferencePressureLaw(t *testing.T) {
	for _, c := range []struct{ flow, from, to, exponent, want float64 }{
		{0.2, 40, 160, 0.5, 0.4},     // sqrt(160/40) = 2
		{0.2, 40, 40, 0.5, 0.2},      // nothing moved
		{0.2, 40, 160, 1, 0.8},       // 160/40 = 4
		{0.3, 20, 320, 0.25, 0.6},    // (320/20)^0.25 = 16^0.25 = 2
		{0.6, 320, 20, 0.25, 0.3},    // and back
		{12, 2.25, 1, 0.5, 8},        // sqrt(1/2.25) = 1/1.5
		{1, 3, 3 * 1.21, 0.5, 1.1},   // sqrt(1.21) = 1.1
		{1, 3, 3 * 0.0001, 0.5, .01}, // sqrt(1/10000) = 1/100
	} {
		got := calc.FlowAtPressure(unit.FlowRate(c.flow), unit.Pressure(c.from), unit.Pressure(c.to), c.exponent)
		agrees(t, "flow", float64(got), c.want, 1e-14)
		back := calc.PressureForFlow(unit.FlowRate(c.flow), unit.Pressure(c.from), unit.FlowRate(c.want), c.exponent)
		agrees(t, "pressure", float64(back), c.to, 1e-13)
	}
}

// TestPropertyPressureLaw: the two functions are inverse to each other, a flow
// grows with pressure, and moving in two steps is moving in one.
func TestPropertyPressureLaw(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := unit.FlowRate(rapid.Float64Range(1e-7, 1e-2).Draw(t, "q"))
		p := rapid.SliceOfN(rapid.Float64Range(1e4, 7e6), 3, 3).Draw(t, "p")
		n := rapid.OneOf(rapid.Just(0.5), rapid.Float64Range(0.1, 1)).Draw(t, "n")
		a, b, c := unit.Pressure(p[0]), unit.Pressure(p[1]), unit.Pressure(p[2])
		moved := calc.FlowAtPressure(q, a, b, n)
		agrees(t, "there and back", float64(calc.FlowAtPressure(moved, b, a, n)), float64(q), 1e-12)
		agrees(t, "pressure again", float64(calc.PressureForFlow(q, a, moved, n)), float64(b), 1e-11)
		agrees(t, "in two steps", float64(calc.FlowAtPressure(moved, b, c, n)), float64(calc.FlowAtPressure(q, a, c, n)), 1e-12)
		if a < b && moved < q || a > b && moved > q {
			t.Errorf("from %v to %v Pa the flow went from %v to %v", a, b, q, moved)
		}
	})
}

// A nozzle of 3/8 in discharges 13.3 gal/min at 10 psi and, as printed, 18.8 at
// 20 psi. Engineering Data Library, Hydraulic Institute,
// https://edl.pumps.org/fluid-flow-iii/fr-loss-nozzles.html
func ExampleFlowAtPressure() {
	q := calc.FlowAtPressure(13.3*unit.USGallonPerMinute, 10*unit.PoundPerSquareInch, 20*unit.PoundPerSquareInch, calc.SquareRoot)
	fmt.Printf("%.1f gal/min\n", q.In(unit.USGallonPerMinute))
	// Output: 18.8 gal/min
}

// A nozzle of 1/2 in discharges 40.9 gal/min at 30 psi; the same table prints 23.6
// at 10 psi. Engineering Data Library, Hydraulic Institute,
// https://edl.pumps.org/fluid-flow-iii/fr-loss-nozzles.html
func ExamplePressureForFlow() {
	p := calc.PressureForFlow(40.9*unit.USGallonPerMinute, 30*unit.PoundPerSquareInch, 23.6*unit.USGallonPerMinute, calc.SquareRoot)
	fmt.Printf("%.0f psi\n", p.In(unit.PoundPerSquareInch))
	// Output: 10 psi
}

// TestReferencePowersOfTwo: 16^0.625 is 2^2.5 and 16^0.5 is 4; backwards a flow of
// 2^2.5 takes 16 times the pressure.
func TestReferencePowersOfTwo(t *testing.T) {
	agrees(t, "root", float64(calc.FlowAtPressure(1, 1, 16, 0.5)), 4, 1e-15)
	agrees(t, "0.625", float64(calc.FlowAtPressure(1, 1, 16, 0.625)), math.Pow(2, 2.5), 1e-14)
	agrees(t, "back", float64(calc.PressureForFlow(1, 1, unit.FlowRate(math.Pow(2, 2.5)), 0.625)), 16, 1e-13)
}
