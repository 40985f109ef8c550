package calc_test

import (
	"testing"

	"wetrun/calc"
	"wetrun/calc/unit"
)

// TestReferenceUnusualDensity: 0.8 and 1.5 are still usual, by either way to give them;
// 0.79, 1.51 and the slip of 28 for 1.28 are not.
func TestReferenceUnusualDensity(t *testing.T) {
	for _, c := range []struct {
		rd      unit.Ratio
		unusual bool
	}{{0.8, false}, {1, false}, {1.28, false}, {1.5, false}, {0.79, true}, {1.51, true}, {28, true}} {
		rate := calc.ApplicationRateInput{NozzleFlowRate: unit.LitrePerMinute, GroundSpeed: 6 * unit.KilometrePerHour, SprayedWidthPerNozzle: 0.5, RelativeDensity: c.rd}
		selection := calc.NozzleSelectionInput{
			TargetApplicationRate: 200 * unit.LitrePerHectare, GroundSpeed: 6 * unit.KilometrePerHour, SprayedWidthPerNozzle: 0.5,
			PressureRange: calc.PressureRange{Low: 2 * unit.Bar, High: 4 * unit.Bar}, LiquidDensity: 1000 * unit.KilogramPerCubicMetre * unit.Density(c.rd),
		}
		flow := calc.NozzleFlowInput{
			Catches:   []calc.Catch{{Volume: unit.Litre, Time: unit.Minute}},
			PredictAt: []calc.Prediction{{RelativeDensity: c.rd}},
		}
		a, err := calc.ApplicationRate(rate)
		b, err2 := calc.NozzleSelection(selection)
		d, err3 := calc.NozzleFlow(flow)
		if err != nil || err2 != nil || err3 != nil {
			t.Fatal(err, err2, err3)
		}
		for _, x := range []struct{ got, field string }{
			{warned(a.Warnings), "relativeDensity"}, {warned(b.Warnings), "liquidDensity"}, {warned(d.Warnings), "predictAt[0].relativeDensity"},
		} {
			want := ""
			if c.unusual {
				want = x.field + ": unusual_density"
			}
			if x.got != want {
				t.Errorf("%v: warned of %q, want %q", c.rd, x.got, want)
			}
		}
	}
}

// TestReferenceUnusualFlow: 0.005 and 50 L/min are still usual, 0.0049 and 51 are not, and
// neither are 920 gal/min of one nozzle; of 1000 nozzles together they are 3.5 L/min each.
func TestReferenceUnusualFlow(t *testing.T) {
	for _, c := range []struct {
		volume  unit.Volume
		nozzles int
		unusual bool
	}{
		{0.005 * unit.Litre, 1, false}, {50 * unit.Litre, 1, false}, {0.0049 * unit.Litre, 1, true}, {51 * unit.Litre, 1, true},
		{920 * unit.USGallon, 1, true}, {920 * unit.USGallon, 1000, false},
	} {
		flow, err := calc.NozzleFlow(calc.NozzleFlowInput{Catches: []calc.Catch{{Volume: c.volume, Time: unit.Minute, Nozzles: c.nozzles}}})
		rate, err2 := calc.ApplicationRate(calc.ApplicationRateInput{
			NozzleFlowRate: flow.MeanNozzleFlowRate, GroundSpeed: 6 * unit.KilometrePerHour, ApplicationRate: 200 * unit.LitrePerHectare,
		})
		if err != nil || err2 != nil {
			t.Fatal(err, err2)
		}
		wantFlow, wantRate := "", ""
		if c.unusual {
			wantFlow, wantRate = "catches[0]: unusual_flow", "nozzleFlowRate: unusual_flow"
		}
		if a, b := warned(flow.Warnings), warned(rate.Warnings); a != wantFlow || b != wantRate {
			t.Errorf("%v of %d: warned of %q and %q", c.volume, c.nozzles, a, b)
		}
	}
}

// TestReferenceShortCourse: 43,560 / 128 ft2 are 1.7 ft of 200, and 85 of 4. 50 ft exactly
// are not short, and where a speed is given its time is judged instead.
func TestReferenceShortCourse(t *testing.T) {
	for _, c := range []struct {
		feet  float64
		speed unit.Speed
		want  string
	}{
		{200, 0, "multiple: short_course"}, {4, 0, ""}, {340.3125 / 50, 0, ""}, {340.3125 / 49.9, 0, "multiple: short_course"},
		{200, 5 * unit.MilePerHour, "multiple: short_catch"},
	} {
		r, err := calc.CourseLength(calc.CourseLengthInput{
			Width: unit.Length(c.feet) * unit.Foot, ReadingUnit: unit.USFluidOunce, RateUnit: unit.USGallonPerAcre, GroundSpeed: c.speed,
		})
		if got := warned(r.Warnings); err != nil || got != c.want {
			t.Errorf("%v ft: warned of %q, want %q; %v", c.feet, got, c.want, err)
		}
	}
}
