package calc_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"wetrun/calc"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// printedAs compares with a figure as its source prints it: rounded to decimals.
func printedAs(t rapid.TB, what string, got, want float64, decimals int) {
	t.Helper()
	if math.Round(got*math.Pow10(decimals)) != math.Round(want*math.Pow10(decimals)) {
		t.Errorf("%s: got %.9g, which does not round to the printed %.*f", what, got, decimals, want)
	}
}

// agrees compares to a relative difference; NaN never agrees.
func agrees(t rapid.TB, what string, got, want, rel float64) {
	t.Helper()
	if got == want {
		return
	}
	if d := math.Abs(got/want - 1); !(d <= rel) {
		t.Errorf("%s: got %.12g, want %.12g, apart by %.2g", what, got, want, d)
	}
}

// refusal words an error as its fields and codes, empty without an error.
func refusal(err error) string {
	if err == nil {
		return ""
	}
	return strings.TrimPrefix(err.Error(), "calc: ")
}

// warned words warnings in the same way.
func warned(warnings []finding.Warning) string {
	var s []string
	for _, w := range warnings {
		s = append(s, w.Place.String()+": "+w.Code)
	}
	return strings.Join(s, "; ")
}

func TestPublishedCatchFlow(t *testing.T) {
	for _, c := range []struct {
		source    string
		catch     calc.Catch
		in        unit.FlowRate
		printed   float64
		precision int
	}{
		{"Calibrating your sprayer, Albany County (WY) Weed and Pest District, http://albanycountyweedandpest.com/calibrating-your-sprayer.html",
			calc.Catch{Volume: 480 * unit.USFluidOunce, Time: 60 * unit.Second}, unit.USGallonPerMinute, 3.75, 2},
		{"Sprayer Calibration: Getting It Right, UF/IFAS Extension Marion County, 2017, https://blogs.ifas.ufl.edu/marionco/2017/11/16/sprayer-calibration-getting-right/",
			calc.Catch{Volume: 16 * unit.USFluidOunce, Time: 60 * unit.Second}, unit.USGallonPerMinute, 0.125, 3},
		{"Practica de calibracion, Universidad de San Carlos de Guatemala, student report, seen in a copy only",
			calc.Catch{Volume: 3.785 * unit.Litre, Time: 8.12 * unit.Minute}, unit.LitrePerMinute, 0.466, 3},
		// The same flow the other way: 21.5 oz/min caught for 30 s is 10.75 oz,
		// printed 11, and for 15 s 5.375, printed 5.4. The unrounded readings are
		// used here, since a reading of 11 would be another flow.
		{"Calibration of In-Furrow Sprays, Mississippi State University Extension, 2020, https://www.mississippi-crops.com/2020/05/02/calibration-of-in-furrow-sprays/",
			calc.Catch{Volume: 10.75 * unit.USFluidOunce, Time: 30 * unit.Second}, unit.USFluidOuncePerMinute, 21.5, 1},
		{"as before",
			calc.Catch{Volume: 5.375 * unit.USFluidOunce, Time: 15 * unit.Second}, unit.USFluidOuncePerMinute, 21.5, 1},
	} {
		printedAs(t, c.source, c.catch.FlowRate().In(c.in), c.printed, c.precision)
		// One nozzle, whether it is said or left out.
		printedAs(t, c.source, c.catch.NozzleFlowRate().In(c.in), c.printed, c.precision)
	}
}

func TestReferenceCatchOfADropOfThree(t *testing.T) {
	c := calc.Catch{Volume: 46 * unit.USFluidOunce, Time: 30 * unit.Second, Nozzles: 3}
	// 46 fl oz x 2 per min / 128 fl oz per gal = 0.71875 gal/min; / 3 = 0.2395833
	agrees(t, "drop", c.FlowRate().In(unit.USGallonPerMinute), 0.71875, 1e-12)
	agrees(t, "nozzle", c.NozzleFlowRate().In(unit.USGallonPerMinute), 0.71875/3, 1e-12)
}

// TestPropertyCatchSharesOut: the nozzles of a catch together give its flow, and
// twice the reading in twice the time is the same flow.
func TestPropertyCatchSharesOut(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := calc.Catch{
			Volume:  unit.Volume(rapid.Float64Range(1e-20, 1e20).Draw(t, "volume")),
			Time:    unit.Time(rapid.Float64Range(1e-20, 1e20).Draw(t, "time")),
			Nozzles: rapid.IntRange(1, 1<<40).Draw(t, "nozzles"),
		}
		agrees(t, "sum", float64(c.NozzleFlowRate())*float64(c.Nozzles), float64(c.FlowRate()), 1e-15)
		twice := calc.Catch{Volume: 2 * c.Volume, Time: 2 * c.Time, Nozzles: c.Nozzles}
		agrees(t, "twice", float64(twice.NozzleFlowRate()), float64(c.NozzleFlowRate()), 1e-15)
	})
}

// Albany County (WY) Weed and Pest District, Calibrating your sprayer,
// http://albanycountyweedandpest.com/calibrating-your-sprayer.html: 480 fl oz in
// a minute is 3.75 gpm.
func ExampleCatch_FlowRate() {
	c := calc.Catch{Volume: 480 * unit.USFluidOunce, Time: 60 * unit.Second}
	fmt.Printf("%.2f gpm\n", c.FlowRate().In(unit.USGallonPerMinute))
	// Output: 3.75 gpm
}
