package calc_test

import (
	"strings"
	"testing"

	"wetrun/calc"
	"wetrun/calc/unit"
)

// TestReferenceNearestGear: without a name the present gear is the one that the list has
// nearest to the speed that was timed, at its own engine speed, within the tolerance of
// runs, 5 %; it is not tried as another. At 1800 rpm the gears drive, by hand: 6.25 km/h
// (4.2 % off), 6.1 (1.7 %), 3 x 1800 / 900 = 6 (0 %), 6 x 1800 / 1500 = 7.2.
func TestReferenceNearestGear(t *testing.T) {
	all := []calc.Gear{
		{Label: "a", GroundSpeed: 6.25 * unit.KilometrePerHour, EngineSpeed: 1800 * unit.RevolutionPerMinute},
		{Label: "b", GroundSpeed: 6.1 * unit.KilometrePerHour, EngineSpeed: 1800 * unit.RevolutionPerMinute},
		{Label: "c", GroundSpeed: 3 * unit.KilometrePerHour, EngineSpeed: 900 * unit.RevolutionPerMinute},
		{Label: "d", GroundSpeed: 6 * unit.KilometrePerHour, EngineSpeed: 1500 * unit.RevolutionPerMinute},
	}
	for _, c := range []struct {
		list    []calc.Gear
		present int
	}{
		{all, 3}, {all[:2], 2}, {all[:1], 1}, {all[3:], 0},
		{[]calc.Gear{all[2], all[1], all[0]}, 1},
		{[]calc.Gear{{Label: "e", GroundSpeed: 6.35 * unit.KilometrePerHour, EngineSpeed: 1800 * unit.RevolutionPerMinute}}, 0}, // 5.8 %
		{[]calc.Gear{{Label: "f", GroundSpeed: 5.75 * unit.KilometrePerHour, EngineSpeed: 1800 * unit.RevolutionPerMinute}}, 1}, // 4.2 % less
	} {
		in := geared()
		in.Measured.Gear, in.Gears = "", c.list
		r := mustCorrect(t, in)
		tried := map[int]bool{}
		for _, p := range r.Plans {
			tried[p.Gear] = true
		}
		for _, p := range r.Rejected {
			tried[p.Gear] = true
		}
		for g := 1; g <= len(c.list); g++ {
			if tried[g] == (g == c.present) {
				t.Errorf("of %v gear %d is tried: %v, present is %d", c.list, g, tried[g], c.present)
			}
		}
	}
}

// TestReferenceGearSpeedDiffers: gear A drives 3 mph where the list says 6; 5.25 of 5 mph
// is exactly the 5 % by which runs may differ.
func TestReferenceGearSpeedDiffers(t *testing.T) {
	for _, c := range []struct {
		measured, listed float64
		want             bool
	}{{3, 6, true}, {5, 5.25, false}, {5, 5.26, true}, {5, 4.75, false}, {5, 4.74, true}} {
		r := mustCorrect(t, calc.CorrectionsInput{
			Measured: calc.MeasuredState{
				ApplicationRate: 120 * unit.LitrePerHectare, GroundSpeed: unit.Speed(c.measured) * unit.MilePerHour,
				EngineSpeed: 1900 * unit.RevolutionPerMinute, Gear: "A",
			},
			TargetApplicationRate: 100 * unit.LitrePerHectare, BoomEven: calc.BoomEven,
			Gears: []calc.Gear{{Label: "A", GroundSpeed: unit.Speed(c.listed) * unit.MilePerHour, EngineSpeed: 1900 * unit.RevolutionPerMinute}},
		})
		if got := warned(r.Warnings); strings.Contains(got, "gears[0].groundSpeed: gear_speed_differs") != c.want {
			t.Errorf("%v of %v mph: warned of %q", c.measured, c.listed, got)
		}
	}
}
