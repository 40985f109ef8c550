package calc

import (
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// AreaCheckInput is what the tank lost over a measured area.
type AreaCheckInput struct {
	// VolumeUsed is what it takes to refill the tank to the mark it started from.
	VolumeUsed unit.Volume
	// Area is the area treated. CourseLength, Width and Passes stand in for it.
	Area         unit.Area
	CourseLength unit.Length // of one pass
	Width        unit.Length // treated in one pass
	Passes       int         // over fresh ground; zero stands for one
	// ExpectedApplicationRate, when given, is what the rate is held against, such
	// as the one from flow and speed, per the same area.
	ExpectedApplicationRate unit.ApplicationRate
	// RateTolerance is the deviation that still counts as agreement. Zero stands
	// for DefaultRateTolerance.
	RateTolerance unit.Ratio
	// StandardUncertainties are those of the figures given, where they are known.
	StandardUncertainties AreaStandards
}

// AreaCheckResult is the rate that the tank tells.
type AreaCheckResult struct {
	Area            unit.Area
	ApplicationRate unit.ApplicationRate
	Expected        unit.ApplicationRate // as given
	RateTolerance   unit.Ratio           // the one applied; zero without an expected rate
	Deviation       unit.Ratio           // (rate - expected) / expected
	Verdict         finding.Verdict      // NotJudged without an expected rate
	Warnings        []finding.Warning

	Uncertainty *AreaCheckUncertainty // nil where nothing is known of it
}

// AreaCheck returns the rate from the volume used,
//
//	R = V / A,   A = length x width x passes
//
// and holds it against the rate expected. It checks flow, speed and width all at
// once, and the tank's marks with them.
//
// Volume and lengths must be above zero. The error is finding.Invalid, with codes
// not_positive, not_finite, required (on Area when there is no area in either
// form, or on the half that is missing of a course), and conflict on Area when
// any of CourseLength, Width and Passes stands beside it. A rate outside 1 to
// 2000 L/ha is warned of: unusual_rate; a tolerance without an expected rate:
// tolerance_unused.
//
// Sources: refill volume over a tenth of an acre, Mesa County Weed and Pest,
// https://www.mesacounty.us/pest/controlling-weeds/sprayer-calibration-methods/refill-method-for-boom-sprayer-calibration/ ;
// L / m2 x 10000, IRRI Rice Knowledge Bank,
// http://www.knowledgebank.irri.org/ipm/index.php/calibration
func AreaCheck(in AreaCheckInput) (AreaCheckResult, error) {
	if err := in.check(); err != nil {
		return AreaCheckResult{}, err
	}
	r := AreaCheckResult{Area: in.Area, Expected: in.ExpectedApplicationRate}
	if r.Area == 0 {
		r.Area = unit.Area(float64(in.CourseLength) * float64(in.Width) * float64(max(in.Passes, 1)))
	}
	r.ApplicationRate = unit.ApplicationRate(float64(in.VolumeUsed) / float64(r.Area))
	if unusualRate(r.ApplicationRate) {
		r.Warnings = []finding.Warning{{Place: finding.Member("volumeUsed"), Code: WarnUnusualRate}}
	}
	if in.ExpectedApplicationRate != 0 {
		r.Deviation, r.RateTolerance, r.Verdict = rateVerdict(
			float64(r.ApplicationRate), in.ExpectedApplicationRate, in.RateTolerance)
	} else if in.RateTolerance != 0 {
		r.Warnings = append(r.Warnings, finding.Warning{Place: finding.Member("rateTolerance"), Code: WarnToleranceUnused})
	}
	r.Uncertainty = r.uncertainty(&in)
	return r, nil
}

func (in AreaCheckInput) check() error {
	var v finding.Invalid
	v.Positive(float64(in.VolumeUsed), finding.Member("volumeUsed"))
	course := in.CourseLength != 0 || in.Width != 0 || in.Passes != 0
	switch {
	case in.Area != 0 && course:
		v.Conflict(finding.Member("area"), in.ofCourse())
		fallthrough
	case in.Area != 0:
		v.Optional(float64(in.Area), finding.Member("area"))
		v.Optional(float64(in.CourseLength), finding.Member("courseLength"))
		v.Optional(float64(in.Width), finding.Member("width"))
	case course:
		by := in.ofCourse()
		v.PositiveFor(float64(in.CourseLength), finding.Member("courseLength"), by)
		v.PositiveFor(float64(in.Width), finding.Member("width"), by)
	default:
		v.RequiredUnless(finding.Member("area"), finding.Member("courseLength"), finding.Member("width"))
	}
	if in.Passes < 0 {
		v.Add(finding.Member("passes"), finding.CodeNotPositive)
	}
	v.Optional(float64(in.ExpectedApplicationRate), finding.Member("expectedApplicationRate"))
	v.Optional(float64(in.RateTolerance), finding.Member("rateTolerance"))
	in.StandardUncertainties.check(&v, &in)
	return v.Err()
}

// ofCourse is the first member of a course that is given.
func (in AreaCheckInput) ofCourse() finding.Place {
	switch {
	case in.CourseLength != 0:
		return finding.Member("courseLength")
	case in.Width != 0:
		return finding.Member("width")
	}
	return finding.Member("passes")
}
