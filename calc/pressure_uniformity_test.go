package calc_test

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"wetrun/calc"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// readingsOf are gauge readings in a unit.
func readingsOf(u unit.Pressure, readings ...float64) []unit.Pressure {
	all := make([]unit.Pressure, len(readings))
	for i, x := range readings {
		all[i] = unit.Pressure(x) * u
	}
	return all
}

func mustPressureUniformity(t rapid.TB, in calc.PressureUniformityInput) calc.PressureUniformityResult {
	t.Helper()
	r, err := calc.PressureUniformity(in)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// TestPublishedFlowSpread takes two rows of a table for the ends of a boom: the
// nozzle at the higher pressure gives what the table says. Source: see discharges;
// both flows are rounded to 0.1 gpm, so one unit of it is allowed.
func TestPublishedFlowSpread(t *testing.T) {
	for _, c := range discharges {
		r := mustPressureUniformity(t, calc.PressureUniformityInput{Readings: readingsOf(unit.PoundPerSquareInch, c.psi, 10)})
		if got := c.at10 * (1 + float64(r.FlowSpread)); !(math.Abs(got-c.printed) <= 0.1) {
			t.Errorf("%v gpm at 10 psi is %.3f gpm at %v psi, printed %v", c.at10, got, c.psi, c.printed)
		}
	}
}

// TestPublishedPressureDrop: the pressure at the nozzle is 10 to 20 % below the
// gauge seen from the seat. Under Pressure, Washington State University, Tree
// Fruit, http://treefruit.wsu.edu/article/under-pressure-pressure-gauge-practices-for-sprayers/
// Both ends of that are warned of; half of it is not.
func TestPublishedPressureDrop(t *testing.T) {
	for _, c := range []struct {
		below   float64
		differs finding.Verdict
		warned  string
	}{
		{0.05, finding.Within, ""},
		{0.10, finding.Outside, "cabPressure: cab_gauge_differs"},
		{0.20, finding.Outside, "cabPressure: cab_gauge_differs"},
	} {
		boom := 60 * (1 - c.below)
		r := mustPressureUniformity(t, calc.PressureUniformityInput{
			Readings:    readingsOf(unit.PoundPerSquareInch, boom, boom, boom),
			CabPressure: 60 * unit.PoundPerSquareInch,
		})
		if r.CabDiffers != c.differs || warned(r.Warnings) != c.warned {
			t.Errorf("%v below: verdict %v, warnings %q", c.below, r.CabDiffers, warned(r.Warnings))
		}
	}
}

// TestReferencePressureUniformity is worked from exact unit definitions.
func TestReferencePressureUniformity(t *testing.T) {
	r := mustPressureUniformity(t, calc.PressureUniformityInput{
		Readings:      readingsOf(unit.PoundPerSquareInch, 57, 62, 55),
		CabPressure:   64 * unit.PoundPerSquareInch,
		MaxDifference: 10 * unit.PoundPerSquareInch,
	})
	// reference value computed from exact unit definitions, independent of this code
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"highest", r.Highest.In(unit.PoundPerSquareInch), 62},
		{"lowest", r.Lowest.In(unit.PoundPerSquareInch), 55},
		{"mean", r.Mean.In(unit.PoundPerSquareInch), 58},
		{"spread", r.Spread.In(unit.PoundPerSquareInch), 7},
		{"flow spread", r.FlowSpread.In(unit.Percent), 6.1731},
		{"cab offset", r.CabOffset.In(unit.PoundPerSquareInch), 6},
	} {
		agrees(t, c.what, c.got, c.want, 1e-5)
	}
	// 6 / 58 = 10.3 %, more than 10
	if r.Even != finding.Within || !r.HasCab || r.CabDiffers != finding.Outside {
		t.Errorf("even %v, has cab %v, cab differs %v", r.Even, r.HasCab, r.CabDiffers)
	}
	if r.CabIfGaugeError != 0 || r.CabIfHoseLoss != 0 {
		t.Errorf("cab readings without a target: %v, %v", r.CabIfGaugeError, r.CabIfHoseLoss)
	}
	// 7 / 58 = 12.1 %, more than 10 too
	if w := warned(r.Warnings); w != "readings: pressure_share_wide; cabPressure: cab_gauge_differs" {
		t.Errorf("warned of %q", w)
	}
}

// TestReferenceSpreadAtMaxDifference: 10 psi is much at a low pressure and little
// at a high one.
func TestReferenceSpreadAtMaxDifference(t *testing.T) {
	for _, c := range []struct{ mean, apart, want float64 }{
		{40, 0, 13.389342},   // the default of 10: sqrt(45/35) = sqrt 1.285714286 = 1.13389342
		{150, 10, 3.390789},  // sqrt(155/145) = sqrt 1.068965517 = 1.03390789
		{5, 9.9, 1310.67360}, // sqrt(9.95/0.05) = sqrt 199 = 14.1067360
		{5, 10, 0},           // the lower one would be at 0
		{5, 12, 0},           // and here below it
	} {
		r := mustPressureUniformity(t, calc.PressureUniformityInput{
			Readings:      readingsOf(unit.Bar, c.mean, c.mean, c.mean),
			MaxDifference: unit.Pressure(c.apart) * unit.Bar,
		})
		if c.apart == 0 { // the default is in psi
			r = mustPressureUniformity(t, calc.PressureUniformityInput{Readings: readingsOf(unit.PoundPerSquareInch, c.mean)})
			agrees(t, "default", r.MaxDifference.In(unit.PoundPerSquareInch), 10, 1e-12)
		}
		agrees(t, fmt.Sprintf("%v about %v", c.apart, c.mean), r.FlowAtMaxDifference.In(unit.Percent), c.want, 1e-6)
		if r.Spread != 0 || r.FlowSpread != 0 {
			t.Errorf("equal readings are %v apart, in flow %v", r.Spread, r.FlowSpread)
		}
	}
}

// TestReferenceCabReading asks for the cab reading that means a target.
func TestReferenceCabReading(t *testing.T) {
	for _, c := range []struct{ boom, cab, target, offset, gauge, hose float64 }{
		{50, 60, 60, 10, 70, 72},  // 60 + 10; 60 x 60 / 50
		{50, 40, 60, -10, 50, 48}, // 60 - 10; 60 x 40 / 50
		{50, 40, 10, -10, 0, 8},   // 10 - 10 is no reading; 10 x 40 / 50
		{50, 40, 8, -10, 0, 6.4},  // nor is 8 - 10; 8 x 40 / 50
		{50, 50, 30, 0, 30, 30},   // the cab is right
		{4, 5, 3, 1, 4, 3.75},     // 3 + 1; 3 x 5 / 4
	} {
		r := mustPressureUniformity(t, calc.PressureUniformityInput{
			Readings:    readingsOf(unit.Bar, c.boom, c.boom),
			CabPressure: unit.Pressure(c.cab) * unit.Bar, TargetPressure: unit.Pressure(c.target) * unit.Bar,
		})
		agrees(t, "offset", r.CabOffset.In(unit.Bar), c.offset, 1e-12)
		agrees(t, "gauge error", r.CabIfGaugeError.In(unit.Bar), c.gauge, 1e-12)
		agrees(t, "hose loss", r.CabIfHoseLoss.In(unit.Bar), c.hose, 1e-12)
	}
}

// The readings are invented. Spread 62 - 55 = 7 psi; sqrt(62/55) = 1.0617, so the
// nozzle at 62 psi gives 6.2 % more; cab 64 - mean 58 = 6.
func ExamplePressureUniformity() {
	r, err := calc.PressureUniformity(calc.PressureUniformityInput{
		Readings: []unit.Pressure{
			57 * unit.PoundPerSquareInch, 62 * unit.PoundPerSquareInch, 55 * unit.PoundPerSquareInch,
		},
		CabPressure: 64 * unit.PoundPerSquareInch,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("spread %.0f psi, within: %v\n", r.Spread.In(unit.PoundPerSquareInch), r.Even == finding.Within)
	fmt.Printf("in flow %.1f %%\n", r.FlowSpread.In(unit.Percent))
	fmt.Printf("cab %+.0f psi\n", r.CabOffset.In(unit.PoundPerSquareInch))
	// Output:
	// spread 7 psi, within: true
	// in flow 6.2 %
	// cab +6 psi
}
