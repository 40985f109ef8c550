package calc_test

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"wetrun/calc"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// cupsOf are readings in mL.
func cupsOf(volumes ...float64) []calc.PatternReading {
	all := make([]calc.PatternReading, len(volumes))
	for i, v := range volumes {
		all[i].Volume = unit.Volume(v) * unit.Millilitre
	}
	return all
}

// limited gives an input the limits that a test does not ask for, 10 and 20 %, from
// memory.
func limited(in calc.PatternUniformityInput) calc.PatternUniformityInput {
	if in.MaxCoefficientOfVariation == 0 {
		in.MaxCoefficientOfVariation = 10 * unit.Percent
	}
	if in.MaxPlaceDeviation == 0 {
		in.MaxPlaceDeviation = 20 * unit.Percent
	}
	return in
}

func mustPatternUniformity(t rapid.TB, in calc.PatternUniformityInput) calc.PatternUniformityResult {
	t.Helper()
	r, err := calc.PatternUniformity(limited(in))
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// TestPublishedPatternVariation: certified means and standard deviations (n - 1)
// of NIST Statistical Reference Datasets, univariate, NumAcc2 to NumAcc4,
// https://www.itl.nist.gov/div898/strd/ . The values were read in GSL 2.7.1,
// statistics/test_nist.c, which carries them. The sets are constructed: one value
// and 500 pairs about it. In doubles the x.1 and x.3 of the last two are rounded
// themselves, hence their tolerances, the same as those of GSL.
func TestPublishedPatternVariation(t *testing.T) {
	for _, c := range []struct {
		name             string
		base             float64
		mean, sd, within float64
	}{
		{"NumAcc2", 1, 1.2, 0.1, 1e-13},
		{"NumAcc3", 1e6, 1000000.2, 0.1, 1e-9},
		{"NumAcc4", 1e7, 10000000.2, 0.1, 1e-7},
	} {
		readings := []calc.PatternReading{{Volume: unit.Volume(c.base + 0.2)}}
		for range 500 {
			readings = append(readings, calc.PatternReading{Volume: unit.Volume(c.base + 0.1)}, calc.PatternReading{Volume: unit.Volume(c.base + 0.3)})
		}
		r := mustPatternUniformity(t, calc.PatternUniformityInput{Readings: readings})
		agrees(t, c.name+" mean", float64(r.Mean), c.mean, 1e-14)
		agrees(t, c.name+" sd", float64(r.StandardDeviation), c.sd, c.within)
		agrees(t, c.name+" CV", float64(r.CoefficientOfVariation), c.sd/c.mean, c.within)
	}
}

// TestPublishedNISTSets: the sets of testdata/published/nist, whose files name
// their source and how near a double comes, as GSL has it: never nearer than 1e-14
// here, since another order of the sums rounds otherwise. Volumes cannot be
// negative, so 1000 is added to a set that is, which moves its mean alone.
func TestPublishedNISTSets(t *testing.T) {
	files, err := filepath.Glob("../testdata/published/nist/*.json")
	if err != nil || len(files) != 6 {
		t.Fatal("want six sets", files, err)
	}
	for _, file := range files {
		var set struct {
			Title                       string
			Mean, StandardDeviation     float64
			MeanWithin, DeviationWithin float64
			Values                      []float64
		}
		b, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if err := json.Unmarshal(b, &set); err != nil {
			t.Fatal(file, err)
		}
		shift := 0.0
		if slices.Min(set.Values) < 0 {
			shift = 1000
		}
		readings := make([]calc.PatternReading, len(set.Values))
		for i, x := range set.Values {
			readings[i].Volume = unit.Volume(x + shift)
		}
		r := mustPatternUniformity(t, calc.PatternUniformityInput{Readings: readings})
		agrees(t, set.Title+" mean", float64(r.Mean), set.Mean+shift, max(set.MeanWithin, 1e-14))
		agrees(t, set.Title+" sd", float64(r.StandardDeviation), set.StandardDeviation, max(set.DeviationWithin, 1e-14))
	}
}

// TestReferencePatternRow is worked by hand. 90, 110, 100, 95, 105: mean 100,
// squares 100 + 100 + 0 + 25 + 25 = 250, over 4 = 62.5, root 7.905694; the first of
// the two that lie 10 % away is the worst. 5, 0, 10, 5: mean 5, squares 50, over 3,
// root 4.082483, CV 81.64966 %; the empty cup lies 100 % below.
func TestReferencePatternRow(t *testing.T) {
	for _, c := range []struct {
		what     string
		in       calc.PatternUniformityInput
		cv       float64 // %
		worst    int
		off      float64 // %
		distance float64 // cm
		outside  int
		even     finding.Verdict
		warned   string
	}{
		{"even", calc.PatternUniformityInput{Readings: cupsOf(90, 110, 100, 95, 105)}, 7.905694, 0, -10, 0, 0, finding.Within, ""},
		{"narrower", calc.PatternUniformityInput{Readings: cupsOf(90, 110, 100, 95, 105), MaxCoefficientOfVariation: 7.9 * unit.Percent},
			7.905694, 0, -10, 0, 0, finding.Outside, ""},
		{"one place", calc.PatternUniformityInput{Readings: cupsOf(90, 110, 100, 95, 105), MaxPlaceDeviation: 9.9 * unit.Percent},
			7.905694, 0, -10, 0, 2, finding.Outside, ""},
		{"on the limit", calc.PatternUniformityInput{Readings: cupsOf(90, 110, 100, 95, 105), MaxPlaceDeviation: 10 * unit.Percent},
			7.905694, 0, -10, 0, 0, finding.Within, ""},
		{"empty cup", calc.PatternUniformityInput{Readings: cupsOf(5, 0, 10, 5), Spacing: 10 * unit.Centimetre},
			81.64966, 1, -100, 10, 2, finding.Outside, "readings: few_places"},
		{"equal", calc.PatternUniformityInput{Readings: cupsOf(0.1, 0.1, 0.1, 0.1, 0.1, 0.1)}, 0, 0, 0, 0, 0, finding.Within, ""},
	} {
		r := mustPatternUniformity(t, c.in)
		agrees(t, c.what+" CV", r.CoefficientOfVariation.In(unit.Percent), c.cv, 1e-6)
		agrees(t, c.what+" worst", r.Places[c.worst].Deviation.In(unit.Percent), c.off, 1e-12)
		agrees(t, c.what+" distance", r.WorstDistance.In(unit.Centimetre), c.distance, 1e-12)
		if r.Worst != c.worst || r.PlacesOutside != c.outside || r.Even != c.even || warned(r.Warnings) != c.warned {
			t.Errorf("%s: worst %d, %d outside, verdict %v, warned of %q", c.what, r.Worst, r.PlacesOutside, r.Even, warned(r.Warnings))
		}
		if r.Spacings != nil || r.Boom != (calc.BoomPattern{}) || r.BestFound {
			t.Errorf("%s: a boom without a pattern", c.what)
		}
	}
}

// TestPropertyPatternRow: neither the size of the readings nor their order changes
// what is even; the deviations add up to nothing; the worst is the farthest.
func TestPropertyPatternRow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		volumes := rapid.SliceOfN(rapid.Float64Range(0, 500), 2, 40).Draw(t, "volumes")
		volumes[0] += 1
		in := calc.PatternUniformityInput{Readings: cupsOf(volumes...)}
		r := mustPatternUniformity(t, in)
		var sum, far float64
		for _, p := range r.Places {
			sum += float64(p.Deviation)
			far = max(far, math.Abs(float64(p.Deviation)))
		}
		if math.Abs(sum) > 1e-9*float64(len(volumes)) || math.Abs(float64(r.Places[r.Worst].Deviation)) < far-1e-9 {
			t.Fatalf("deviations add up to %v; the worst is %v, the farthest %v", sum, r.Places[r.Worst], far)
		}
		scale := unit.Volume(rapid.Float64Range(1e-3, 1e3).Draw(t, "scale"))
		other := calc.PatternUniformityInput{Readings: rapid.Permutation(in.Readings).Draw(t, "order")}
		for i := range other.Readings {
			other.Readings[i].Volume *= scale
		}
		s := mustPatternUniformity(t, other)
		agrees(t, "mean", float64(s.Mean), float64(r.Mean*scale), 1e-12)
		if d := math.Abs(float64(s.CoefficientOfVariation - r.CoefficientOfVariation)); d > 2e-9 || s.PlacesOutside != r.PlacesOutside {
			t.Fatalf("CV apart by %v; %d and %d outside", d, r.PlacesOutside, s.PlacesOutside)
		}
	})
}

// The readings are invented. Mean 100 mL; squares 25 + 400 + 25 + 100 + 100 = 650,
// over 4 = 162.5, root 12.7 mL.
func ExamplePatternUniformity() {
	r, err := calc.PatternUniformity(calc.PatternUniformityInput{
		MaxCoefficientOfVariation: 10 * unit.Percent, MaxPlaceDeviation: 20 * unit.Percent,
		Readings: []calc.PatternReading{
			{Volume: 105 * unit.Millilitre}, {Volume: 80 * unit.Millilitre}, {Volume: 105 * unit.Millilitre},
			{Volume: 110 * unit.Millilitre}, {Volume: 100 * unit.Millilitre},
		},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("CV %.1f %%, even: %v\n", r.CoefficientOfVariation.In(unit.Percent), r.Even == finding.Within)
	fmt.Printf("worst: cup %d, %+.0f %%\n", r.Worst+1, r.Places[r.Worst].Deviation.In(unit.Percent))
	// Output:
	// CV 11.7 %, even: false
	// worst: cup 2, -20 %
}

func TestPatternUniformityRefuses(t *testing.T) {
	type input = calc.PatternUniformityInput
	cup := unit.Length(0.1)
	pattern := calc.NozzlePattern{CupSpacing: cup, Volumes: []unit.Volume{1, 2, 1}}
	for want, in := range map[string]input{
		"readings: required":                          {},
		"readings: too_few":                           {Readings: cupsOf(1)},
		"readings: all_empty":                         {Readings: cupsOf(0, 0, 0)},
		"readings[1].volume: not_positive":            {Readings: cupsOf(3, -1)},
		"readings[0].volume: not_finite":              {Readings: cupsOf(noNumber, 1)},
		"spacing: not_positive":                       {Readings: cupsOf(1, 1), Spacing: -1},
		"maxCoefficientOfVariation: not_positive":     {Readings: cupsOf(1, 1), MaxCoefficientOfVariation: -1},
		"maxPlaceDeviation: not_finite":               {Readings: cupsOf(1, 1), MaxPlaceDeviation: unit.Ratio(endless)},
		"nozzlePattern: required":                     {Readings: cupsOf(1, 1), NozzleSpacing: 1},
		"nozzleSpacing: required":                     {NozzlePattern: pattern},
		"nozzleSpacing: closer_than_cups":             {NozzlePattern: pattern, NozzleSpacing: 0.09},
		"nozzleSpacing: not_finite":                   {NozzlePattern: pattern, NozzleSpacing: unit.Length(endless)},
		"readings: required; spacing: not_positive":   {NozzlePattern: pattern, NozzleSpacing: 1, Spacing: -1},
		"nozzlePattern.cupSpacing: required":          {NozzlePattern: calc.NozzlePattern{Volumes: pattern.Volumes}, NozzleSpacing: 1},
		"nozzlePattern.volumes: too_few":              {NozzlePattern: calc.NozzlePattern{CupSpacing: cup, Volumes: []unit.Volume{1}}, NozzleSpacing: 1},
		"nozzlePattern.volumes: all_empty":            {NozzlePattern: calc.NozzlePattern{CupSpacing: cup, Volumes: []unit.Volume{0, 0}}, NozzleSpacing: 1},
		"nozzlePattern.volumes[1]: not_positive":      {NozzlePattern: calc.NozzlePattern{CupSpacing: cup, Volumes: []unit.Volume{2, -1}}, NozzleSpacing: 1},
		"spacingRange.low: range_inverted":            {NozzlePattern: pattern, SpacingRange: calc.SpacingRange{Low: 2, High: 1, Steps: 2}},
		"spacingRange.low: closer_than_cups":          {NozzlePattern: pattern, SpacingRange: calc.SpacingRange{Low: 0.05, High: 1, Steps: 2}},
		"spacingRange.steps: too_few":                 {NozzlePattern: pattern, SpacingRange: calc.SpacingRange{Low: 1, High: 1, Steps: 1}},
		"spacingRange.low: required":                  {NozzlePattern: pattern, SpacingRange: calc.SpacingRange{High: 1, Steps: 2}},
		"spacingRange.high: not_positive":             {NozzlePattern: pattern, SpacingRange: calc.SpacingRange{Low: 1, High: -1, Steps: 2}},
		"readings: required; nozzlePattern: required": {SpacingRange: calc.SpacingRange{Low: 1, High: 2, Steps: 2}},
	} {
		if _, err := calc.PatternUniformity(limited(in)); refusal(err) != want {
			t.Errorf("refused with %q, want %q", refusal(err), want)
		}
	}
}

// TestReferenceOnePlaceOutside, by hand: 19 cups of 100 mL and one of 130 have a mean of 101.5
// and a CV of sqrt(30^2 / 20) / 101.5 = 6.609 %, within 10; the one is 28.08 % over, beyond 20.
func TestReferenceOnePlaceOutside(t *testing.T) {
	in := calc.PatternUniformityInput{MaxCoefficientOfVariation: 0.1, MaxPlaceDeviation: 0.2}
	for range 19 {
		in.Readings = append(in.Readings, calc.PatternReading{Volume: 100e-6})
	}
	in.Readings = append(in.Readings, calc.PatternReading{Volume: 130e-6})
	r, err := calc.PatternUniformity(in)
	if err != nil {
		t.Fatal(err)
	}
	agrees(t, "CV", float64(r.CoefficientOfVariation), 0.0660907, 1e-5)
	if r.PlacesOutside != 1 || r.Worst != 19 || r.Even != finding.Outside {
		t.Errorf("%d outside, even %v", r.PlacesOutside, r.Even)
	}
}

// TestPatternOfCupsAlone: cups without their spacing are a pattern, and one is too few.
func TestPatternOfCupsAlone(t *testing.T) {
	in := calc.PatternUniformityInput{MaxCoefficientOfVariation: 0.1, MaxPlaceDeviation: 0.2, NozzleSpacing: 1}
	for want, volumes := range map[string][]unit.Volume{
		"nozzlePattern.cupSpacing: required; nozzlePattern.volumes: too_few":                                   {1},
		"nozzlePattern.cupSpacing: required; nozzlePattern.volumes: too_few; nozzlePattern.volumes: all_empty": {0},
		"nozzlePattern.cupSpacing: required":                                                                   {1, 1},
	} {
		in.NozzlePattern.Volumes = volumes
		if _, err := calc.PatternUniformity(in); refusal(err) != want {
			t.Errorf("%v: %q, want %q", volumes, refusal(err), want)
		}
	}
	in.NozzlePattern = calc.NozzlePattern{CupSpacing: 0.1} // a spacing of no cups
	if _, err := calc.PatternUniformity(in); refusal(err) != "nozzlePattern.volumes: too_few" {
		t.Errorf("no cups: %q", refusal(err))
	}
}
