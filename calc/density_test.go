package calc_test

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"wetrun/calc"
	"wetrun/calc/unit"
)

// TestPublishedDensityFactors compares with two tables of conversion factors,
// printed to 0.01: Setting the Sprayer Flow Rate for Non-Water Solutions,
// University of Nebraska-Lincoln CropWatch, 2016,
// https://cropwatch.unl.edu/2016/setting-sprayer-flow-rate-non-water-solutions ,
// and Spraying Solutions Other Than Water, University of Georgia Extension,
// seen in a copy only (14 and
// 16 lb/gal; the other rows are the same). They take water as 8.34 lb/gal, 0.065
// % less than here, hence half a unit of the last digit and 0.001 more.
func TestPublishedDensityFactors(t *testing.T) {
	for _, c := range []struct{ poundPerGallon, gravity, factor float64 }{
		{6.6, 0.79, 0.89},
		{7.0, 0.84, 0.92},
		{8.0, 0.96, 0.98},
		{8.34, 1.00, 1.00},
		{9.0, 1.08, 1.04},
		{10.0, 1.20, 1.10},
		{10.65, 1.28, 1.13}, // 28-0-0
		{11.0, 1.32, 1.15},
		{11.06, 1.32, 1.15}, // 32-0-0; 11.06 / 8.34 = 1.3261, printed cut off
		{11.4, 1.37, 1.17},  // 10-34-0
		{11.5, 1.38, 1.17},  // 12-0-0-26
		{11.6, 1.39, 1.18},  // 11-37-0
		{12.0, 1.44, 1.20},
		{14.0, 1.68, 1.30},
		{16.0, 1.92, 1.39}, // sqrt(16 / 8.34) = 1.3851
	} {
		rd := calc.RelativeDensity(unit.Density(c.poundPerGallon) * unit.PoundPerUSGallon)
		factor := calc.WaterEquivalent(1*unit.USGallonPerMinute, rd).In(unit.USGallonPerMinute)
		for _, x := range []struct {
			what      string
			got, want float64
		}{{"specific gravity", float64(rd), c.gravity}, {"factor", factor, c.factor}} {
			if d := x.got - x.want; d < -0.006 || d > 0.006 {
				t.Errorf("%v lb/gal: %s %.4f, printed %.2f", c.poundPerGallon, x.what, x.got, x.want)
			}
		}
	}
}

// TestReferenceWaterDensity holds the remark on 8.34 lb/gal to its word:
// 8.34 x 0.45359237 kg / 0.003785411784 m3 = 3.7829604 / 0.0037854118 = 999.3524
// kg/m3.
func TestReferenceWaterDensity(t *testing.T) {
	trade := calc.RelativeDensity(8.34 * unit.PoundPerUSGallon)
	agrees(t, "8.34 lb/gal", float64(trade), 0.9993524, 1e-7)
	if float64(calc.RelativeDensity(calc.WaterDensity)) != 1 {
		t.Error("water is not as dense as water")
	}
}

// TestReferenceLiquidFlow: sqrt(1.44) = 1.2, so 1.2 of water is 1 of the liquid.
func TestReferenceLiquidFlow(t *testing.T) {
	agrees(t, "liquid", calc.LiquidFlow(1.2*unit.LitrePerMinute, 1.44).In(unit.LitrePerMinute), 1, 1e-15)
	agrees(t, "water", calc.WaterEquivalent(1*unit.LitrePerMinute, 1.44).In(unit.LitrePerMinute), 1.2, 1e-15)
}

// TestPropertyDensityInverse: there and back is the same flow, and a heavier
// liquid flows less.
func TestPropertyDensityInverse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := unit.FlowRate(rapid.Float64Range(1e-20, 1e20).Draw(t, "flow"))
		rd := unit.Ratio(rapid.Float64Range(1e-20, 1e20).Draw(t, "relative density"))
		agrees(t, "back", float64(calc.WaterEquivalent(calc.LiquidFlow(q, rd), rd)), float64(q), 1e-15)
		if calc.LiquidFlow(q, 1.1*rd) >= calc.LiquidFlow(q, rd) {
			t.Errorf("%v of water: a liquid heavier than %v does not flow less", q, rd)
		}
	})
}

// University of Nebraska-Lincoln CropWatch, 2016,
// https://cropwatch.unl.edu/2016/setting-sprayer-flow-rate-non-water-solutions :
// a liquid of 10.65 lb/gal has a specific gravity of 1.28.
func ExampleRelativeDensity() {
	fmt.Printf("%.2f\n", calc.RelativeDensity(10.65*unit.PoundPerUSGallon))
	// Output: 1.28
}

// The same source: its conversion factor is 1.13, so a nozzle that is to give 1
// gpm of the liquid is chosen as one of 1.13 gpm.
func ExampleWaterEquivalent() {
	rd := calc.RelativeDensity(10.65 * unit.PoundPerUSGallon)
	water := calc.WaterEquivalent(1*unit.USGallonPerMinute, rd)
	fmt.Printf("%.2f gpm\n", water.In(unit.USGallonPerMinute))
	// Output: 1.13 gpm
}

// University of Georgia Extension, Spraying Solutions Other Than Water,
// seen in a copy only: chart
// values are divided by the factor, 1.20 for 12 lb/gal.
func ExampleLiquidFlow() {
	rd := calc.RelativeDensity(12 * unit.PoundPerUSGallon)
	liquid := calc.LiquidFlow(1.20*unit.USGallonPerMinute, rd)
	fmt.Printf("%.2f gpm\n", liquid.In(unit.USGallonPerMinute))
	// Output: 1.00 gpm
}
