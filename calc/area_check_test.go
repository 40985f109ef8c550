package calc_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"wetrun/calc"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

func mustAreaCheck(t rapid.TB, in calc.AreaCheckInput) calc.AreaCheckResult {
	t.Helper()
	r, err := calc.AreaCheck(in)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// TestPublishedAreaCheck holds volumes over areas against what is printed.
func TestPublishedAreaCheck(t *testing.T) {
	oz, gpa := unit.USFluidOunce, unit.USGallonPerAcre
	for _, c := range []struct {
		source   string
		in       calc.AreaCheckInput
		unit     unit.ApplicationRate
		printed  float64
		decimals int
	}{
		{"Calibration, IRRI Rice Knowledge Bank, http://www.knowledgebank.irri.org/ipm/index.php/calibration",
			calc.AreaCheckInput{VolumeUsed: 2 * unit.Litre, Area: 200}, unit.LitrePerHectare, 100, 0},
		// A tenth of an acre, laid out as 218 ft of 20 ft: 39.96, printed 40.
		{"Refill Method for Boom Sprayer Calibration, Mesa County (CO) Weed and Pest, https://www.mesacounty.us/pest/controlling-weeds/sprayer-calibration-methods/refill-method-for-boom-sprayer-calibration/",
			calc.AreaCheckInput{VolumeUsed: 4 * unit.USGallon, CourseLength: 218 * unit.Foot, Width: 20 * unit.Foot}, gpa, 40, 0},
		// One tip on a band of 15 in, over 300 ft: 14.52, printed 14.5.
		{"Herbicide spraying circular, University of Florida, UF00067548 p. 6, https://ufdcimages.uflib.ufl.edu/UF/00/06/75/48/00001/00006.txt",
			calc.AreaCheckInput{VolumeUsed: 16 * oz, CourseLength: 300 * unit.Foot, Width: 15 * unit.Inch}, gpa, 14.5, 1},
		// Ounces that are to be gallons per acre, on courses rounded to a foot.
		{"Ounces Equal Gallons, LSU AgCenter, https://www.lsuagcenter.com/topics/lawn_garden/commercial_horticulture/equipment/sprayers/ounces-equal-gallons-sprayer-calibration",
			calc.AreaCheckInput{VolumeUsed: 14 * oz, CourseLength: 102 * unit.Foot, Width: 40 * unit.Inch}, gpa, 14, 0},
		{"Can you tell me about sprayer calibration?, Mississippi State University Extension, http://extension.msstate.edu/content/can-you-tell-me-about-sprayer-calibration",
			calc.AreaCheckInput{VolumeUsed: 10 * oz, CourseLength: 215 * unit.Foot, Width: 19 * unit.Inch}, gpa, 10, 0},
		{"Backpack Sprayer Calibration Worksheet, NC State Extension, https://christmastrees.ces.ncsu.edu/backpack-sprayer-calibration-worksheet/",
			calc.AreaCheckInput{VolumeUsed: 7.5 * oz, CourseLength: 57 * unit.Foot, Width: 6 * unit.Foot}, gpa, 7.5, 1},
	} {
		printedAs(t, c.source, mustAreaCheck(t, c.in).ApplicationRate.In(c.unit), c.printed, c.decimals)
	}
}

// TestPublishedCourseArea: 33.3 m of 0.75 m are 25 m2, printed without decimals
// (Step 5 of 6: calibrating your knapsack sprayer, pesticidewise.com,
// https://www.pesticidewise.com/faq/step-5-6-calibrating-your-knapsack-sprayer-pesticide-dose-and-spray-mixwater-volume),
// and 33 m of 1.5 m are 49.5 m2 (Cara menghitung kalibrasi alat semprot, university practical,
// seen in a copy only).
func TestPublishedCourseArea(t *testing.T) {
	r := mustAreaCheck(t, calc.AreaCheckInput{VolumeUsed: 1e-3, CourseLength: 33.3, Width: 0.75})
	printedAs(t, "25 m2", float64(r.Area), 25, 0)
	r = mustAreaCheck(t, calc.AreaCheckInput{VolumeUsed: 1e-3, CourseLength: 33, Width: 1.5})
	printedAs(t, "49.5 m2", float64(r.Area), 49.5, 1)
}

func TestReferenceAreaCheck(t *testing.T) {
	r := mustAreaCheck(t, calc.AreaCheckInput{
		VolumeUsed: 12.5 * unit.USGallon, CourseLength: 660 * unit.Foot, Width: 10 * unit.Foot, Passes: 1,
		ExpectedApplicationRate: 80 * unit.USGallonPerAcre,
	})
	// hand-checked reference: value from exact unit definitions
	agrees(t, "area", r.Area.In(unit.Acre), 0.151515, 1e-5)
	agrees(t, "rate", r.ApplicationRate.In(unit.USGallonPerAcre), 82.5, 1e-5)
	agrees(t, "deviation", r.Deviation.In(unit.Percent), 3.125, 1e-5)
	// The tolerance is common practice, no published source.
	if r.Verdict != finding.Within || r.RateTolerance != 10*unit.Percent || r.Warnings != nil {
		t.Errorf("verdict %v, tolerance %v, warnings %v", r.Verdict, r.RateTolerance, r.Warnings)
	}
}

// TestReferenceAreaVerdicts: 2 L on 100 m2 are 200 L/ha, 25 % over 160.
func TestReferenceAreaVerdicts(t *testing.T) {
	for tolerance, want := range map[unit.Ratio]finding.Verdict{0.25: finding.Within, 0.2499: finding.Outside, 0: finding.Outside} {
		r := mustAreaCheck(t, calc.AreaCheckInput{
			VolumeUsed: 2 * unit.Litre, Area: 100, ExpectedApplicationRate: 160 * unit.LitrePerHectare, RateTolerance: tolerance,
		})
		agrees(t, "deviation", float64(r.Deviation), 0.25, 1e-12)
		if r.Verdict != want {
			t.Errorf("tolerance %v: %v, want %v", tolerance, r.Verdict, want)
		}
	}
}

// TestReferenceAreaToleranceUnused: a tolerance with nothing to hold it against is
// warned of, here and with a tank's loads.
func TestReferenceAreaToleranceUnused(t *testing.T) {
	r := mustAreaCheck(t, calc.AreaCheckInput{VolumeUsed: 100 * unit.Litre, Area: unit.Hectare, RateTolerance: 0.05})
	tank := mustTankLoads(t, calc.TankLoadsInput{
		TankVolume: 100 * unit.Litre, ApplicationRate: 100 * unit.LitrePerHectare, TreatedArea: unit.Hectare, RateTolerance: 0.05,
	})
	for _, w := range [][]finding.Warning{r.Warnings, tank.Warnings} {
		if warned(w) != "rateTolerance: tolerance_unused" {
			t.Errorf("warned of %q", warned(w))
		}
	}
}

// TestReferenceAreaRateWarnings: on a hectare litres are L/ha, and 1 and 2000 are
// still usual.
func TestReferenceAreaRateWarnings(t *testing.T) {
	for litres, want := range map[unit.Volume]string{
		0.99: "volumeUsed: unusual_rate", 1: "", 2000: "", 2001: "volumeUsed: unusual_rate",
	} {
		r := mustAreaCheck(t, calc.AreaCheckInput{VolumeUsed: litres * unit.Litre, Area: unit.Hectare})
		if got := warned(r.Warnings); got != want || r.Verdict != finding.NotJudged {
			t.Errorf("%v L/ha: warned of %q, verdict %v", litres, got, r.Verdict)
		}
	}
}

// TestPropertyAreaCheck: a course is the area it covers, as many times as it is
// driven, and the rate is the volume shared out over it.
func TestPropertyAreaCheck(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := calc.AreaCheckInput{
			VolumeUsed:   unit.Volume(anySize(t, "volume")),
			CourseLength: unit.Length(anySize(t, "length")),
			Width:        unit.Length(anySize(t, "width")),
			Passes:       rapid.IntRange(0, 1<<40).Draw(t, "passes"),
		}
		course := mustAreaCheck(t, in)
		area := mustAreaCheck(t, calc.AreaCheckInput{VolumeUsed: in.VolumeUsed, Area: course.Area})
		agrees(t, "by area", float64(area.ApplicationRate), float64(course.ApplicationRate), 0)
		agrees(t, "volume", float64(area.ApplicationRate)*float64(area.Area), float64(in.VolumeUsed), 1e-14)
		in.CourseLength, in.Passes = in.CourseLength*unit.Length(max(in.Passes, 1)), 1
		agrees(t, "one long pass", float64(mustAreaCheck(t, in).Area), float64(course.Area), 1e-14)
	})
}

func TestAreaCheckRefuses(t *testing.T) {
	for want, in := range map[string]calc.AreaCheckInput{
		"volumeUsed: required":                    {Area: 100},
		"volumeUsed: not_positive":                {VolumeUsed: -1, Area: 100},
		"area: required":                          {VolumeUsed: 1},
		"area: not_positive":                      {VolumeUsed: 1, Area: -1},
		"area: not_finite":                        {VolumeUsed: 1, Area: unit.Area(endless)},
		"area: conflict":                          {VolumeUsed: 1, Area: 100, CourseLength: 10, Width: 10},
		"area: conflict; width: not_finite":       {VolumeUsed: 1, Area: 100, Width: unit.Length(noNumber)},
		"area: conflict; passes: not_positive":    {VolumeUsed: 1, Area: 100, Passes: -1},
		"courseLength: required":                  {VolumeUsed: 1, Width: 10},
		"width: required":                         {VolumeUsed: 1, CourseLength: 10},
		"courseLength: required; width: required": {VolumeUsed: 1, Passes: 2},
		"courseLength: not_finite":                {VolumeUsed: 1, CourseLength: unit.Length(noNumber), Width: 10},
		"width: not_positive":                     {VolumeUsed: 1, CourseLength: 10, Width: -10},
		"passes: not_positive":                    {VolumeUsed: 1, CourseLength: 10, Width: 10, Passes: -1},
		"expectedApplicationRate: not_positive":   {VolumeUsed: 1, Area: 100, ExpectedApplicationRate: -1},
		"rateTolerance: not_positive":             {VolumeUsed: 1, Area: 100, RateTolerance: -1},
		"volumeUsed: required; area: required":    {},
	} {
		if r, err := calc.AreaCheck(in); refusal(err) != want || r.Area != 0 {
			t.Errorf("got %q and %v, want %q", refusal(err), r.Area, want)
		}
	}
}

// IRRI Rice Knowledge Bank, http://www.knowledgebank.irri.org/ipm/index.php/calibration :
// 2 L on 200 m2 are 100 L/ha.
func ExampleAreaCheck() {
	r, err := calc.AreaCheck(calc.AreaCheckInput{VolumeUsed: 2 * unit.Litre, Area: 200 * unit.SquareMetre})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f L/ha\n", r.ApplicationRate.In(unit.LitrePerHectare))
	// Output: 100 L/ha
}

// TestSlack: a share of 1e-9 more than a limit is still on it, a little more is over;
// a difference of less than 1e-9 of its terms is none.
func TestSlack(t *testing.T) {
	at := func(volume unit.Volume) calc.AreaCheckResult {
		return mustAreaCheck(t, calc.AreaCheckInput{VolumeUsed: volume, Area: 1e5, ExpectedApplicationRate: 1e-5, RateTolerance: 0.1})
	}
	if at(1.1+0.9e-9).Verdict != finding.Within || at(1.1+1.1e-9).Verdict != finding.Outside {
		t.Error("the slack of a limit is not 1e-9")
	}
	if at(1+0.9e-9).Deviation != 0 || at(1+1.1e-9).Deviation == 0 {
		t.Error("a difference is not taken for none at 1e-9")
	}
}

// TestAreaCheckSaysWhatConflicts: an area beside a part of a course is refused
// because of the first part that is given.
func TestAreaCheckSaysWhatConflicts(t *testing.T) {
	for want, in := range map[string]calc.AreaCheckInput{
		"courseLength": {VolumeUsed: 1, Area: 1, CourseLength: 2, Width: 2, Passes: 2},
		"width":        {VolumeUsed: 1, Area: 1, Width: 2, Passes: 2},
		"passes":       {VolumeUsed: 1, Area: 1, Passes: 2},
	} {
		_, err := calc.AreaCheck(in)
		var v finding.Invalid
		if !errors.As(err, &v) || len(v) != 1 || v[0].Place.String() != "area" || v[0].Because.String() != want {
			t.Errorf("refused by %+v, want because of %s", err, want)
		}
	}
	_, err := calc.AreaCheck(calc.AreaCheckInput{VolumeUsed: unit.Volume(math.Inf(-1)), Area: 1})
	if refusal(err) != "volumeUsed: not_finite" {
		t.Errorf("endlessly little: %q", refusal(err))
	}
}
