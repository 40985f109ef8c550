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

func mustSelect(t rapid.TB, in calc.NozzleSelectionInput) calc.NozzleSelectionResult {
	t.Helper()
	r, err := calc.NozzleSelection(in)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// wanted asks for 17.82 gal/acre at 5 mph over 20 in: 17.82 x 5 x 20 / 5940 = 0.3
// gal/min from each nozzle.
func wanted(sizes ...calc.SizeName) calc.NozzleSelectionInput {
	return calc.NozzleSelectionInput{
		TargetApplicationRate: 17.82 * unit.USGallonPerAcre, GroundSpeed: 5 * unit.MilePerHour, SprayedWidthPerNozzle: 20 * unit.Inch,
		PressureRange: psiRange(20, 60), Sizes: sizes, SizeRating: calc.US40PSI,
	}
}

func psiRange(low, high float64) calc.PressureRange {
	return calc.PressureRange{Low: unit.Pressure(low) * unit.PoundPerSquareInch, High: unit.Pressure(high) * unit.PoundPerSquareInch}
}

// order names the candidates in their order.
func order(r calc.NozzleSelectionResult) (names string) {
	for _, c := range r.Candidates {
		if c.Shelf >= 0 {
			names += fmt.Sprint("#", c.Shelf, " ")
		} else {
			names += string(c.Size) + " "
		}
	}
	return names
}

// TestPublishedSelectionFlow: Calibration of In-Furrow Sprays, Mississippi State
// University Extension, 2020: 0.16835 gpm for 10 gal/acre at 5 mph and 20 in,
// https://www.mississippi-crops.com/2020/05/02/calibration-of-in-furrow-sprays/ .
// L'etalonnage des pulverisateurs, French farm press (placedupro): 1.58 L/min for
// 190 L/ha at 10 km/h and 50 cm, https://placedupro.com/articles/846/
func TestPublishedSelectionFlow(t *testing.T) {
	in := wanted()
	in.TargetApplicationRate = 10 * unit.USGallonPerAcre
	printedAs(t, "flow", mustSelect(t, in).RequiredNozzleFlowRate.In(unit.USGallonPerMinute), 0.16835, 5)
	in.TargetApplicationRate, in.GroundSpeed, in.SprayedWidthPerNozzle = 190*unit.LitrePerHectare, 10*unit.KilometrePerHour, 0
	in.Width, in.Nozzles = 12*unit.Metre, 24
	printedAs(t, "flow", mustSelect(t, in).RequiredNozzleFlowRate.In(unit.LitrePerMinute), 1.58, 2)
}

// TestReferenceSelection, worked by hand. Rated at 40 psi, 0.3 gal/min needs
// 40 x (0.3/0.3)^2 = 40 psi of an 03, 40 x (0.3/0.4)^2 = 22.5 of an 04, 40 x
// (0.3/0.2)^2 = 90 of an 02 and 40 x (0.3/0.5)^2 = 14.4 of an 05. The middle of 20
// to 60 is sqrt(1200) = 34.6, so 03 comes before 04. Outside, 60 to 90 is a ratio of
// 1.5, 14.4 to 20 of 1.39: 05 is nearer. An 03 keeps its pressure inside from
// 5 x sqrt(20/40) = 3.5355 to 5 x sqrt(60/40) = 6.1237 mph.
func TestReferenceSelection(t *testing.T) {
	r := mustSelect(t, wanted("05", "02", "04", "03"))
	agrees(t, "flow", r.RequiredNozzleFlowRate.In(unit.USGallonPerMinute), 0.3, 1e-12)
	if got := order(r); got != "03 04 05 02 " || r.Decision != calc.ChooseNozzle || r.WouldFit != nil || r.Warnings != nil {
		t.Errorf("%s: decision %v, %+v, %v", got, r.Decision, r.WouldFit, r.Warnings)
	}
	for i, want := range []struct {
		psi    float64
		within bool
		notes  string
	}{{40, true, "[]"}, {22.5, true, "[]"}, {14.4, false, "[pressure_below_range]"}, {90, false, "[pressure_above_range]"}} {
		c := r.Candidates[i]
		agrees(t, "pressure of "+string(c.Size), c.SprayPressure.In(unit.PoundPerSquareInch), want.psi, 1e-12)
		if c.WithinRange != want.within || c.Fits != want.within || fmt.Sprint(c.Notes) != want.notes || c.Droplets != finding.NotJudged || c.DropletClass != calc.DropletClassUnknown {
			t.Errorf("%s: %+v", c.Size, c)
		}
	}
	agrees(t, "slowest", r.Candidates[0].SpeedWindow.Low.In(unit.MilePerHour), 3.5355339, 1e-7)
	agrees(t, "fastest", r.Candidates[0].SpeedWindow.High.In(unit.MilePerHour), 6.1237244, 1e-7)
	if r.WaterEquivalentFlowRate != 0 || r.TotalFlowRate != 0 {
		t.Errorf("nobody asked for %v, %v", r.WaterEquivalentFlowRate, r.TotalFlowRate)
	}
}

// TestReferenceSizesReadInNoSource: without a list all twelve are candidates, and the
// three largest say that no source was read. Read at 3 bar an 03 needs 3 bar x
// (0.3 x 3.785411784 / 1.2)^2 = 2.68675 bar for 0.3 gal/min.
func TestReferenceSizesReadInNoSource(t *testing.T) {
	in := wanted()
	in.SizeRating = calc.ISO3Bar
	r := mustSelect(t, in)
	noted := 0
	for _, c := range r.Candidates {
		for _, n := range c.Notes {
			if n == calc.NoteSourceNotRead {
				noted++
			}
		}
		if c.Size == "03" {
			agrees(t, "pressure", c.SprayPressure.In(unit.Bar), 2.68675, 2e-6)
		}
	}
	if len(r.Candidates) != 12 || noted != 3 || r.Candidates[0].Size != "03" {
		t.Errorf("%d candidates, %d read in no source, %s first", len(r.Candidates), noted, r.Candidates[0].Size)
	}
}

// TestReferenceHeavyLiquid: 1.44 times as dense, 0.3 gal/min of it is 0.36 of
// water: an 03 needs 40 x 1.2^2 = 57.6 psi. Six nozzles give 1.8 gal/min.
func TestReferenceHeavyLiquid(t *testing.T) {
	in := wanted("03")
	in.LiquidDensity, in.Nozzles = 1.44*calc.WaterDensity, 6
	r := mustSelect(t, in)
	agrees(t, "water", r.WaterEquivalentFlowRate.In(unit.USGallonPerMinute), 0.36, 1e-12)
	agrees(t, "pressure", r.Candidates[0].SprayPressure.In(unit.PoundPerSquareInch), 57.6, 1e-12)
	agrees(t, "total", r.TotalFlowRate.In(unit.USGallonPerMinute), 1.8, 1e-12)
	agrees(t, "fastest", r.Candidates[0].SpeedWindow.High.In(unit.MilePerHour), 5*math.Sqrt(60/57.6), 1e-12)
}

// TestReferenceSpeedRange: from 4 to 6.25 mph the middle by ratio is 5, and an 03
// needs 40 x 0.8^2 = 25.6 to 40 x 1.25^2 = 62.5 psi, at 0.24 to 0.375 gal/min. 62.5
// is above 60: it fits up to 5 x sqrt(1.5) = 6.1237 mph. With 65 psi it fits.
func TestReferenceSpeedRange(t *testing.T) {
	in := wanted("03")
	in.GroundSpeed, in.SpeedRange = 0, calc.SpeedRange{Low: 4 * unit.MilePerHour, High: 6.25 * unit.MilePerHour}
	r := mustSelect(t, in)
	c := r.Candidates[0]
	agrees(t, "middle", r.GroundSpeed.In(unit.MilePerHour), 5, 1e-12)
	agrees(t, "least flow", r.RequiredNozzleFlowRates.Low.In(unit.USGallonPerMinute), 0.24, 1e-12)
	agrees(t, "most flow", r.RequiredNozzleFlowRates.High.In(unit.USGallonPerMinute), 0.375, 1e-12)
	agrees(t, "least pressure", c.SprayPressures.Low.In(unit.PoundPerSquareInch), 25.6, 1e-12)
	agrees(t, "most pressure", c.SprayPressures.High.In(unit.PoundPerSquareInch), 62.5, 1e-12)
	if c.WithinRange || r.Decision != calc.NoneFits || r.Reason != calc.NoneFitsPressure || r.WouldFit == nil {
		t.Fatalf("%+v, %+v", c, r.WouldFit)
	}
	agrees(t, "speed", r.WouldFit.GroundSpeed.In(unit.MilePerHour), 6.1237244, 1e-7)
	agrees(t, "pressure needed", r.WouldFit.NeededPressure.In(unit.PoundPerSquareInch), 62.5, 1e-12)
	in.PressureRange = psiRange(20, 65)
	if r := mustSelect(t, in); !r.Candidates[0].WithinRange || r.Decision != calc.ChooseNozzle {
		t.Errorf("%+v", r.Candidates[0])
	}
	// From 20 down to 30 psi at the low end: 30/25.6 = 1.17 is further than 62.5/60.
	in.PressureRange = psiRange(30, 60)
	w := mustSelect(t, in).WouldFit
	agrees(t, "speed", w.GroundSpeed.In(unit.MilePerHour), 5*math.Sqrt(0.75), 1e-12)
	agrees(t, "pressure", w.SprayPressure.In(unit.PoundPerSquareInch), 30, 1e-12)
	agrees(t, "pressure needed", w.NeededPressure.In(unit.PoundPerSquareInch), 25.6, 1e-12)
}

// TestReferenceSelectionFromShelf: the nozzles at hand, each inside its own range too. Rated 0.3
// at 40 they all need 40 psi. The first may not go beyond 35; the second takes 40 to
// 90, which leaves 40 to 60, of which 40 is the end; the third takes 70 and more,
// which is never; the fourth has no range of its own.
func TestReferenceSelectionFromShelf(t *testing.T) {
	in := wanted()
	in.SizeRating = ""
	for _, own := range []calc.PressureRange{psiRange(10, 35), psiRange(40, 90), psiRange(70, 90), {}} {
		in.Shelf = append(in.Shelf, calc.ShelfNozzle{
			RatedFlowRate: 0.3 * unit.USGallonPerMinute, RatedPressure: 40 * unit.PoundPerSquareInch, PressureRange: own,
		})
	}
	r := mustSelect(t, in)
	if got := order(r); got != "#3 #1 #0 #2 " {
		t.Errorf("order %s", got)
	}
	if r.Candidates[1].PressureRange != psiRange(40, 60) || !r.Candidates[1].WithinRange {
		t.Errorf("the second: %+v", r.Candidates[1])
	}
	if c := r.Candidates[3]; c.WithinRange || c.SpeedWindow != (calc.SpeedRange{}) || fmt.Sprint(c.Notes) != "[ranges_do_not_meet]" {
		t.Errorf("the third: %+v", c)
	}
	in.Shelf = in.Shelf[2:3]
	if r := mustSelect(t, in); r.Decision != calc.NoneFits || r.Reason != calc.NoneFitsPressure || r.WouldFit != nil {
		t.Errorf("nothing can make it fit: %+v", r)
	}
	in.Shelf[0].PressureRange = psiRange(60, 90) // touches at 60
	if w := mustSelect(t, in).WouldFit; w == nil || w.SprayPressure != psiRange(60, 90).Low {
		t.Errorf("it fits at 60 psi only: %+v", w)
	}
}

// TestReferenceUnusual: warned, not refused.
func TestReferenceUnusual(t *testing.T) {
	in := wanted("03")
	in.GroundSpeed, in.TargetApplicationRate = 25*unit.MilePerHour, 300*unit.USGallonPerAcre
	in.DropletChart = []calc.DropletEntry{
		{Size: "03", PressureRange: psiRange(20, 30), DropletClass: calc.Coarse},
		{Size: "04", PressureRange: psiRange(20, 30), DropletClass: calc.Coarse},
		{Label: "03", PressureRange: psiRange(20, 30), DropletClass: calc.Coarse},
	}
	want := "targetApplicationRate: unusual_rate; groundSpeed: unusual_speed; dropletChart[1]: droplet_entry_unused; dropletChart[2]: droplet_entry_unused"
	if got := warned(mustSelect(t, in).Warnings); got != want {
		t.Errorf("warned of %q", got)
	}
	in = wanted("03")
	in.GroundSpeed, in.SpeedRange = 0, calc.SpeedRange{Low: 0.9 * unit.MilePerHour, High: 21 * unit.MilePerHour}
	if got := warned(mustSelect(t, in).Warnings); got != "speedRange.low: unusual_speed; speedRange.high: unusual_speed" {
		t.Errorf("warned of %q", got)
	}
}

// TestPropertyWindow: at either end of its speed window a candidate stands at an
// end of its range, and the rate is the one wanted.
func TestPropertyWindow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := wanted()
		in.TargetApplicationRate = unit.ApplicationRate(rapid.Float64Range(20, 1000).Draw(t, "rate")) * unit.LitrePerHectare
		in.GroundSpeed = unit.Speed(rapid.Float64Range(0.5, 6).Draw(t, "speed"))
		in.RelativeDensity = unit.Ratio(rapid.Float64Range(0.8, 1.5).Draw(t, "density"))
		first := mustSelect(t, in)
		for _, c := range first.Candidates {
			if c.Fits != c.WithinRange || first.Decision == calc.ChooseNozzle != first.Candidates[0].Fits {
				t.Fatalf("%v: %+v", first.Decision, c)
			}
			for v, p := range map[unit.Speed]unit.Pressure{c.SpeedWindow.Low: in.PressureRange.Low, c.SpeedWindow.High: in.PressureRange.High} {
				again := in
				again.GroundSpeed, again.Sizes = v, []calc.SizeName{c.Size}
				r := mustSelect(t, again)
				agrees(t, "pressure", float64(r.Candidates[0].SprayPressure), float64(p), 1e-9)
				if !r.Candidates[0].WithinRange {
					t.Errorf("%s is not within range at the end of its own window", c.Size)
				}
			}
		}
		if w := first.WouldFit; w != nil {
			in.GroundSpeed = w.GroundSpeed
			if r := mustSelect(t, in); r.Decision != calc.ChooseNozzle {
				t.Errorf("at %v it still does not fit", w.GroundSpeed)
			}
		}
	})
}

// TestReferenceAboveAndBelowByRatio, by hand: at 2 to 4 bar and 1 L/min, a nozzle of 0.790569
// L/min at 3 bar needs 3 / 0.790569^2 = 4.8 bar, 1.2 times too much, one of 1.5 L/min 3 / 1.5^2 =
// 1.333 bar, 1.5 times too little: the first is nearer, and fits at sqrt(4 / 4.8) of the speed.
func TestReferenceAboveAndBelowByRatio(t *testing.T) {
	in := calc.NozzleSelectionInput{
		TargetApplicationRate: 240 * unit.LitrePerHectare, GroundSpeed: 5 * unit.KilometrePerHour, SprayedWidthPerNozzle: 0.5 * unit.Metre, // 1 L/min
		PressureRange: calc.PressureRange{Low: 2 * unit.Bar, High: 4 * unit.Bar},
		Shelf: []calc.ShelfNozzle{
			{Label: "large", RatedFlowRate: 1.5 * unit.LitrePerMinute, RatedPressure: 3 * unit.Bar},
			{Label: "small", RatedFlowRate: 0.790569 * unit.LitrePerMinute, RatedPressure: 3 * unit.Bar},
		},
	}
	r := mustSelect(t, in)
	if got := order(r); got != "#1 #0 " || r.Reason != calc.NoneFitsPressure {
		t.Fatalf("%s, %v", got, r.Reason)
	}
	agrees(t, "speed", r.WouldFit.GroundSpeed.In(unit.KilometrePerHour), 5*math.Sqrt(4/4.8), 1e-6)
}
