package calc

import (
	"math"

	"gonum.org/v1/gonum/stat"

	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// PatternUniformityInput is what a row of cups under the boom caught, what one
// nozzle alone gave over such a row, or both.
type PatternUniformityInput struct {
	// Readings are the cups of the row, in order, at least two. An empty cup is a
	// reading of zero.
	Readings []PatternReading
	// Spacing is the distance of the cups, center to center. It may be left out;
	// with it the worst place has a distance.
	Spacing unit.Length
	// NozzlePattern is what one nozzle alone gave. It asks for NozzleSpacing or
	// SpacingRange, or both.
	NozzlePattern NozzlePattern
	NozzleSpacing unit.Length
	SpacingRange  SpacingRange
	// MaxCoefficientOfVariation and MaxPlaceDeviation are the limits. Nothing stands
	// in for them; what an inspection protocol asks is listed by Tolerances.
	MaxCoefficientOfVariation unit.Ratio
	MaxPlaceDeviation         unit.Ratio
}

// A PatternReading is what one cup of the row caught.
type PatternReading struct{ Volume unit.Volume }

// PatternUniformityResult tells how even the spray falls along the boom.
type PatternUniformityResult struct {
	MaxCoefficientOfVariation unit.Ratio // the one applied
	MaxPlaceDeviation         unit.Ratio // the one applied

	// Of Readings; zero without them.
	Mean, StandardDeviation unit.Volume // n - 1
	CoefficientOfVariation  unit.Ratio
	Places                  []Place // in the order of the input
	PlacesOutside           int
	Worst                   int             // the index of the place farthest from the mean, the first of equals
	WorstDistance           unit.Length     // from the first cup; zero without a Spacing
	Even                    finding.Verdict // NotJudged without readings

	// Of NozzlePattern.
	Boom      BoomPattern   // at NozzleSpacing; zero without one
	Spacings  []BoomPattern // over SpacingRange, nil without one
	Best      int           // the index in Spacings of the lowest variation, the widest of equals
	BestFound bool
	Warnings  []finding.Warning
}

// Place is how far one cup lies from the mean of all.
type Place struct {
	Deviation unit.Ratio // -1 for an empty cup
	Even      finding.Verdict
}

// Codes of PatternUniformity.
const (
	CodeAllEmpty       = "all_empty"        // every cup is empty: there is no mean
	CodeCloserThanCups = "closer_than_cups" // nozzles closer than the cups that show their pattern

	WarnFewPlaces     = "few_places"          // fewer than fewPlaces cups
	WarnPatternCutOff = "pattern_cut_off"     // the row ended before the pattern did
	WarnGap           = "gap_between_nozzles" // the patterns do not meet
)

// fewPlaces is the number of cups below which a row is warned of. Our own choice,
// no published source.
const fewPlaces = 5

// PatternUniformity judges how even spray falls along the boom from what a row of
// cups caught, by the coefficient of variation and by each cup:
//
//	CV = sqrt(sum of (v - mean)^2 / (n - 1)) / mean
//	deviation = v / mean - 1
//
// Even means that the CV does not exceed MaxCoefficientOfVariation and no cup is
// farther from the mean than MaxPlaceDeviation. What one nozzle gave alone is
// overlapped with itself to a boom, see BoomPattern; the same limits judge it.
//
// Volumes are in cubic metres, finite, zero or above; lengths in metres, finite
// and above zero. finding.Invalid otherwise, with codes required, too_few, not_positive,
// not_finite, and
//
//	required          neither readings nor a pattern; a pattern without a spacing; a
//	                  spacing of what is not given
//	all_empty         no cup of a row caught anything
//	range_inverted    SpacingRange
//	closer_than_cups  a nozzle spacing below the spacing of the cups
//
// Source: the CV with n - 1 is held against NIST Statistical Reference Datasets,
// testdata/published/pattern-uniformity. The limits of an inspection protocol, that of
// Balcarce, stand in publishedRules.
func PatternUniformity(in PatternUniformityInput) (PatternUniformityResult, error) {
	if err := in.check(); err != nil {
		return PatternUniformityResult{}, err
	}
	r := PatternUniformityResult{
		MaxCoefficientOfVariation: in.MaxCoefficientOfVariation, MaxPlaceDeviation: in.MaxPlaceDeviation,
	}
	if len(in.Readings) > 0 {
		r.judgeRow(in)
	}
	if in.NozzlePattern.given() {
		r.overlap(in)
	}
	return r, nil
}

func (r *PatternUniformityResult) judgeRow(in PatternUniformityInput) {
	volumes := make([]float64, len(in.Readings))
	for i, x := range in.Readings {
		volumes[i] = float64(x.Volume)
	}
	mean, sd := stat.MeanStdDev(volumes, nil)
	if sd < finding.Slack*mean {
		sd = 0
	}
	r.Mean, r.StandardDeviation, r.CoefficientOfVariation = unit.Volume(mean), unit.Volume(sd), unit.Ratio(sd/mean)
	r.Places = make([]Place, len(volumes))
	worst := -1.0
	for i, v := range volumes {
		d := finding.Deviation(v, mean)
		r.Places[i] = Place{unit.Ratio(d), finding.Judge(d, float64(r.MaxPlaceDeviation))}
		if r.Places[i].Even == finding.Outside {
			r.PlacesOutside++
		}
		if !finding.AtMost(math.Abs(d), worst) {
			worst, r.Worst = math.Abs(d), i
		}
	}
	r.WorstDistance = in.Spacing * unit.Length(r.Worst)
	r.Even = finding.Judge(float64(r.CoefficientOfVariation), float64(r.MaxCoefficientOfVariation))
	if r.PlacesOutside > 0 {
		r.Even = finding.Outside
	}
	if len(volumes) < fewPlaces {
		r.Warnings = append(r.Warnings, finding.Warning{Place: finding.Member("readings"), Code: WarnFewPlaces})
	}
}

func (in PatternUniformityInput) check() error {
	var v finding.Invalid
	pattern := in.NozzlePattern.given()
	switch n := len(in.Readings); {
	case n == 1:
		v.Add(finding.Member("readings"), finding.CodeTooFew)
	case n == 0 && !pattern:
		v.RequiredUnless(finding.Member("readings"), finding.Member("nozzlePattern"))
	case n == 0 && in.Spacing != 0:
		v.RequiredBy(finding.Member("readings"), finding.Member("spacing"))
	}
	var sum float64
	for i, x := range in.Readings {
		sum += float64(x.Volume)
		v.OptionalIn(float64(x.Volume), "readings", i, "volume")
	}
	if sum/float64(len(in.Readings)) == 0 { // of no cups that is no number
		v.Add(finding.Member("readings"), CodeAllEmpty)
	}
	v.Optional(float64(in.Spacing), finding.Member("spacing"))
	v.Optional(float64(in.NozzleSpacing), finding.Member("nozzleSpacing"))
	v.Positive(float64(in.MaxCoefficientOfVariation), finding.Member("maxCoefficientOfVariation"))
	v.Positive(float64(in.MaxPlaceDeviation), finding.Member("maxPlaceDeviation"))
	ranged := in.SpacingRange != (SpacingRange{})
	if ranged {
		v = append(v, in.SpacingRange.check(in.NozzlePattern.CupSpacing).Under(finding.Member("spacingRange"))...)
	}
	switch {
	case pattern:
		v = append(v, in.NozzlePattern.check().Under(finding.Member("nozzlePattern"))...)
		if in.NozzleSpacing == 0 && !ranged {
			v.RequiredUnless(finding.Member("nozzleSpacing"), finding.Member("spacingRange"))
		}
		if in.NozzleSpacing > 0 && in.NozzlePattern.finer(in.NozzleSpacing) {
			v.Add(finding.Member("nozzleSpacing"), CodeCloserThanCups)
		}
	case in.NozzleSpacing != 0:
		v.RequiredBy(finding.Member("nozzlePattern"), finding.Member("nozzleSpacing"))
	case ranged:
		v.RequiredBy(finding.Member("nozzlePattern"), finding.Member("spacingRange"))
	}
	return v.Err()
}
