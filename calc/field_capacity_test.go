package calc_test

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"wetrun/calc"
	"wetrun/calc/unit"
)

func mustFieldCapacity(t rapid.TB, in calc.FieldCapacityInput) calc.FieldCapacityResult {
	t.Helper()
	r, err := calc.FieldCapacity(in)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// TestReferenceTradeFormulaOfFieldCapacity: mph x ft / 8.25 is acre/h and km/h x m
// / 10 is ha/h. Common practice, no published source; both follow from the
// definitions of the units: 5280 ft a mile over 43 560 ft2 an acre is 1 / 8.25,
// 1000 m a km over 10 000 m2 a hectare is 1 / 10.
func TestReferenceTradeFormulaOfFieldCapacity(t *testing.T) {
	for _, c := range []struct{ speed, width float64 }{{1, 8.25}, {5, 40}, {2.5, 18}, {12, 36}} {
		r := mustFieldCapacity(t, calc.FieldCapacityInput{
			GroundSpeed: unit.Speed(c.speed) * unit.MilePerHour, WorkingWidth: unit.Length(c.width) * unit.Foot,
		})
		if r.Warnings != nil { // an efficiency left out is doubted only beside refills
			t.Errorf("%v mph x %v ft: warned of %q", c.speed, c.width, warned(r.Warnings))
		}
		agrees(t, "acre/h", r.TheoreticalWorkRate.In(unit.AcrePerHour), c.speed*c.width/8.25, 1e-15)
		r = mustFieldCapacity(t, calc.FieldCapacityInput{
			GroundSpeed: unit.Speed(c.speed) * unit.KilometrePerHour, WorkingWidth: unit.Length(c.width) * unit.Metre,
		})
		agrees(t, "ha/h", r.TheoreticalWorkRate.In(unit.HectarePerHour), c.speed*c.width/10, 1e-15)
	}
}

// TestReferenceFieldCapacityOfAField, by hand: 5 mph x 33 ft / 8.25 = 20 acre/h, of
// which 75 % are 15. 40 acres take 40 / 15 h = 2 h 40 min and, at 25 gal/acre, 1000
// gal: with 300 gal a load 3.33, so 4 loads and 3 refills. A load covers 300 / 25 =
// 12 acres in 12 / 15 = 0.8 h. Refills of 12 min = 0.2 h make the field 2.6667 +
// 0.6 h, and the cycle 12 acres in 1 h.
func TestReferenceFieldCapacityOfAField(t *testing.T) {
	in := calc.FieldCapacityInput{
		GroundSpeed: 5 * unit.MilePerHour, WorkingWidth: 33 * unit.Foot, FieldEfficiency: 75 * unit.Percent,
		TankVolume: 300 * unit.USGallon, ApplicationRate: 25 * unit.USGallonPerAcre,
		FieldArea: 40 * unit.Acre, RefillTime: 12 * unit.Minute,
	}
	r := mustFieldCapacity(t, in)
	agrees(t, "theoretical", r.TheoreticalWorkRate.In(unit.AcrePerHour), 20, 1e-14)
	agrees(t, "effective", r.EffectiveWorkRate.In(unit.AcrePerHour), 15, 1e-14)
	agrees(t, "area per load", r.AreaPerLoad.In(unit.Acre), 12, 1e-14)
	agrees(t, "time per load", r.TimePerLoad.In(unit.Hour), 0.8, 1e-14)
	agrees(t, "with refills", r.WorkRateWithRefills.In(unit.AcrePerHour), 12, 1e-14)
	agrees(t, "volume", r.SprayVolume.In(unit.USGallon), 1000, 1e-14)
	agrees(t, "field time", r.FieldTime.In(unit.Hour), 40.0/15, 1e-14)
	agrees(t, "refilling", r.RefillingTime.In(unit.Hour), 0.6, 1e-14)
	agrees(t, "total", r.TotalTime.In(unit.Hour), 40.0/15+0.6, 1e-14)
	if r.Loads != 4 || r.Refills != 3 || r.Warnings != nil {
		t.Errorf("%d loads, %d refills, warnings %v", r.Loads, r.Refills, r.Warnings)
	}
	// Without a refill time the loads stay and the time is that of the field alone.
	in.RefillTime = 0
	r = mustFieldCapacity(t, in)
	agrees(t, "total without refills", r.TotalTime.In(unit.Hour), 40.0/15, 1e-14)
	if r.Refills != 3 || r.RefillingTime != 0 || r.WorkRateWithRefills != 0 {
		t.Errorf("%d refills of %v, %v", r.Refills, r.RefillingTime, r.WorkRateWithRefills)
	}
}

// TestPublishedLoadsOfAField: 4000 L from a tank of 1000 L are 4 loads, not 5;
// Calculating Spray Application Information (factsheet), case MC005 of
// testdata/published/field-capacity. The rest by hand: a litre more is a fifth
// load, half a load is one, and so the refills are one fewer.
func TestPublishedLoadsOfAField(t *testing.T) {
	for litres, loads := range map[unit.Volume]int{4000: 4, 4001: 5, 3999: 4, 500: 1, 1000: 1, 1e6: 1000} {
		for _, a := range []unit.Area{unit.Acre, unit.Hectare, 0.1 * unit.SquareFoot} {
			r := mustFieldCapacity(t, calc.FieldCapacityInput{
				GroundSpeed: 2, WorkingWidth: 10, TankVolume: 1000 * unit.Litre, FieldArea: a,
				ApplicationRate: unit.ApplicationRate(float64(litres*unit.Litre) / float64(a)),
			})
			if r.Loads != loads || r.Refills != loads-1 {
				t.Errorf("%v L: %d loads and %d refills, want %d loads", litres, r.Loads, r.Refills, loads)
			}
		}
	}
}

// TestReferenceFieldCapacityWarnings: limits from memory. 0.9 mph and 21 mph are 0.4
// and 9.4 m/s; 0.5 and 2001 L/ha.
func TestReferenceFieldCapacityWarnings(t *testing.T) {
	good := calc.FieldCapacityInput{GroundSpeed: 3, WorkingWidth: 20, FieldEfficiency: 0.7}
	for _, c := range []struct {
		want   string
		change func(*calc.FieldCapacityInput)
	}{
		{"", func(*calc.FieldCapacityInput) {}},
		{"", func(in *calc.FieldCapacityInput) { in.WorkingWidth, in.FieldEfficiency = 0.5, 0.4 }},
		{"", func(in *calc.FieldCapacityInput) { in.WorkingWidth, in.FieldEfficiency = 60, 0.95 }},
		{"groundSpeed: unusual_speed", func(in *calc.FieldCapacityInput) { in.GroundSpeed = 0.9 * unit.MilePerHour }},
		{"groundSpeed: unusual_speed", func(in *calc.FieldCapacityInput) { in.GroundSpeed = 21 * unit.MilePerHour }},
		{"workingWidth: unusual_width", func(in *calc.FieldCapacityInput) { in.WorkingWidth = 0.49 }},
		{"workingWidth: unusual_width", func(in *calc.FieldCapacityInput) { in.WorkingWidth = 60.1 }},
		{"fieldEfficiency: unusual_efficiency", func(in *calc.FieldCapacityInput) { in.FieldEfficiency = 0.39 }},
		{"fieldEfficiency: unusual_efficiency", func(in *calc.FieldCapacityInput) { in.FieldEfficiency = 1 }},
		{"applicationRate: unusual_rate", func(in *calc.FieldCapacityInput) {
			in.FieldArea, in.ApplicationRate = 1e4, 2001*unit.LitrePerHectare
		}},
		{"applicationRate: unusual_rate; applicationRate: application_rate_unused", func(in *calc.FieldCapacityInput) {
			in.ApplicationRate = 0.5 * unit.LitrePerHectare
		}},
		{"refillTime: efficiency_counts_refills", func(in *calc.FieldCapacityInput) {
			in.FieldEfficiency, in.TankVolume, in.ApplicationRate, in.RefillTime = 0, 1, 2e-5, 600
		}},
	} {
		in := good
		c.change(&in)
		if got := warned(mustFieldCapacity(t, in).Warnings); got != c.want {
			t.Errorf("%+v: warned of %q, want %q", in, got, c.want)
		}
	}
}

// TestReferenceDefaultFieldEfficiency: 65 %, from memory.
func TestReferenceDefaultFieldEfficiency(t *testing.T) {
	r := mustFieldCapacity(t, calc.FieldCapacityInput{GroundSpeed: 2, WorkingWidth: 10})
	agrees(t, "efficiency", float64(r.FieldEfficiency), 0.65, 1e-15)
	agrees(t, "effective", float64(r.EffectiveWorkRate), 13, 1e-15)
}

// TestPropertyFieldCapacity: the parts of the time add up; many loads take what the
// rate with refills says but for the one refill that a full tank saves; refills
// never make it faster.
func TestPropertyFieldCapacity(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := calc.FieldCapacityInput{
			GroundSpeed:     unit.Speed(rapid.Float64Range(0.5, 9).Draw(t, "speed")),
			WorkingWidth:    unit.Length(rapid.Float64Range(0.5, 60).Draw(t, "width")),
			FieldEfficiency: unit.Ratio(rapid.Float64Range(0.3, 1).Draw(t, "efficiency")),
			TankVolume:      unit.Volume(rapid.Float64Range(0.1, 10).Draw(t, "tank")),
			ApplicationRate: unit.ApplicationRate(rapid.Float64Range(1e-6, 1e-4).Draw(t, "rate")),
			RefillTime:      unit.Time(rapid.Float64Range(60, 7200).Draw(t, "refill")),
		}
		n := rapid.IntRange(1, 500).Draw(t, "loads")
		in.FieldArea = unit.Area(float64(n) * float64(in.TankVolume) / float64(in.ApplicationRate))
		r := mustFieldCapacity(t, in)
		if r.Loads != n || r.Refills != n-1 {
			t.Errorf("%d loads and %d refills, want %d loads", r.Loads, r.Refills, n)
		}
		agrees(t, "whole time", float64(r.TotalTime+in.RefillTime), float64(in.FieldArea)/float64(r.WorkRateWithRefills), 1e-9)
		agrees(t, "volume", float64(r.SprayVolume), float64(n)*float64(in.TankVolume), 1e-9)
		if r.WorkRateWithRefills >= r.EffectiveWorkRate || float64(r.EffectiveWorkRate) > float64(r.TheoreticalWorkRate)*(1+1e-12) {
			t.Errorf("with refills %v, effective %v, theoretical %v", r.WorkRateWithRefills, r.EffectiveWorkRate, r.TheoreticalWorkRate)
		}
	})
}

func TestFieldCapacityRefuses(t *testing.T) {
	type input = calc.FieldCapacityInput
	for want, change := range map[string]func(*input){
		"groundSpeed: required; workingWidth: required":   func(in *input) { *in = input{} },
		"groundSpeed: not_positive":                       func(in *input) { in.GroundSpeed = -1 },
		"workingWidth: not_finite":                        func(in *input) { in.WorkingWidth = unit.Length(endless) },
		"fieldEfficiency: not_positive":                   func(in *input) { in.FieldEfficiency = -0.1 },
		"fieldEfficiency: not_finite":                     func(in *input) { in.FieldEfficiency = unit.Ratio(math.NaN()) },
		"fieldEfficiency: over_100_percent":               func(in *input) { in.FieldEfficiency = 1.01 },
		"applicationRate: required":                       func(in *input) { in.TankVolume = 1 },
		"tankVolume: required; applicationRate: required": func(in *input) { in.RefillTime = 60 },
		"tankVolume: required":                            func(in *input) { in.RefillTime, in.ApplicationRate = 60, 1e-5 },
		"tankVolume: not_positive":                        func(in *input) { in.TankVolume, in.ApplicationRate = -1, 1e-5 },
		"applicationRate: not_positive":                   func(in *input) { in.ApplicationRate = -1 },
		"refillTime: not_positive":                        func(in *input) { in.RefillTime, in.TankVolume, in.ApplicationRate = -1, 1, 1e-5 },
		"fieldArea: not_finite":                           func(in *input) { in.FieldArea = unit.Area(noNumber) },
		"tankVolume: not_computable":                      func(in *input) { in.TankVolume, in.ApplicationRate, in.FieldArea = 1e-9, 1e-4, 1e6 },
	} {
		in := input{GroundSpeed: 2, WorkingWidth: 10}
		change(&in)
		if r, err := calc.FieldCapacity(in); refusal(err) != want || r.TheoreticalWorkRate != 0 {
			t.Errorf("got %q, want %q", refusal(err), want)
		}
	}
}

// 300 gal at 10 gal per treated acre cover 30 acres. Can you tell me about sprayer
// calibration?, Mississippi State University Extension,
// http://extension.msstate.edu/content/can-you-tell-me-about-sprayer-calibration
// Speed and width are invented.
func ExampleFieldCapacity() {
	r, err := calc.FieldCapacity(calc.FieldCapacityInput{
		GroundSpeed: 5 * unit.MilePerHour, WorkingWidth: 33 * unit.Foot,
		TankVolume: 300 * unit.USGallon, ApplicationRate: 10 * unit.USGallonPerAcre,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f acres per tank\n", r.AreaPerLoad.In(unit.Acre))
	// Output: 30 acres per tank
}

// TestFieldCapacityMostLoads: a thousand million loads are counted, more are not.
func TestFieldCapacityMostLoads(t *testing.T) {
	in := calc.FieldCapacityInput{GroundSpeed: 2, WorkingWidth: 10, TankVolume: 1e-3, ApplicationRate: 1e-5, FieldArea: 1e11}
	if r := mustFieldCapacity(t, in); r.Loads != 1e9 {
		t.Errorf("%d loads", r.Loads)
	}
	in.FieldArea *= 1.1
	if _, err := calc.FieldCapacity(in); refusal(err) != "tankVolume: not_computable" {
		t.Errorf("refused with %q", refusal(err))
	}
}
