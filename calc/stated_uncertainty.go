package calc

import (
	"math"

	"wetrun/calc/certainty"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// RateUncertainty is how well a rate is known, and what was solved for.
type RateUncertainty struct {
	Solved               certainty.Uncertainty // of what was solved for
	ApplicationRate      certainty.Uncertainty // zero where it was given without any
	FieldApplicationRate certainty.Uncertainty // zero without RowSpacing
	Deviation            certainty.Uncertainty // zero without a target
	// Within is the probability that the rate truly is within its tolerance, and
	// UnderLabel that it keeps what the label allows, not above its maximum and not below its
	// minimum.
	Within, UnderLabel certainty.Conformity
}

// RateStandards are relative standard uncertainties of the four that make a rate, as
// far as they are known. Zero where they are not: it then counts as exact.
type RateStandards struct {
	NozzleFlowRate, GroundSpeed, SprayedWidthPerNozzle, ApplicationRate unit.Ratio
}

// uncertainty is that of a product or quotient of figures whose relative standard
// uncertainties were stated: their root sum of squares (GUM 5.1.6), with no end of
// degrees of freedom. Nil without any.
func (r *ApplicationRateResult) uncertainty(in *ApplicationRateInput) *RateUncertainty {
	s := in.StandardUncertainties
	if s == (RateStandards{}) {
		return nil
	}
	var b certainty.Budget
	b[certainty.SourceNozzleFlowRate].Standard = float64(s.NozzleFlowRate)
	b[certainty.SourceGroundSpeed].Standard = float64(s.GroundSpeed)
	b[certainty.SourceSprayedWidth].Standard = float64(s.SprayedWidthPerNozzle)
	b[certainty.SourceApplicationRate].Standard = float64(s.ApplicationRate)
	u := &RateUncertainty{}
	u.Solved = b.Combine(r.solved(), certainty.Widest{})
	if r.SolvedFor != SolvedApplicationRate {
		b = certainty.Budget{}
		b[certainty.SourceApplicationRate].Standard = float64(s.ApplicationRate)
	}
	u.rate(r, in, b.Combine(float64(r.ApplicationRate), certainty.Widest{}), b.Combine(float64(r.FieldApplicationRate), certainty.Widest{}), certainty.Repeats{})
	return u
}

// solved is the value of what was solved for.
func (r *ApplicationRateResult) solved() float64 {
	switch r.SolvedFor {
	case SolvedNozzleFlowRate:
		return float64(r.NozzleFlowRate)
	case SolvedGroundSpeed:
		return float64(r.GroundSpeed)
	case SolvedSprayedWidthPerNozzle:
		return float64(r.SprayedWidthPerNozzle)
	}
	return float64(r.ApplicationRate)
}

// rate fills in what follows from the uncertainties of the rate per treated and per
// field area.
func (u *RateUncertainty) rate(r *ApplicationRateResult, in *ApplicationRateInput, treated, field certainty.Uncertainty, n certainty.Repeats) {
	u.ApplicationRate = treated
	if r.FieldApplicationRate != 0 {
		u.FieldApplicationRate = field
	}
	rate, judged := float64(r.ApplicationRate), treated
	if in.RateBasis == RateBasisField {
		rate, judged = float64(r.FieldApplicationRate), field
	}
	if judged.Standard == 0 {
		return
	}
	if r.Verdict != finding.NotJudged {
		d, limit := float64(r.Deviation), float64(r.RateTolerance)
		u.Deviation = judged.ForResult(1 + d)
		u.Within.Judge(d, &u.Deviation, -limit, limit, n)
	}
	if in.LabelMaximum+in.LabelMinimum != 0 {
		low, high := certainty.Unlimited, -certainty.Unlimited
		if in.LabelMaximum != 0 {
			high = float64(in.LabelMaximum) / rate
		}
		if in.LabelMinimum != 0 {
			low = float64(in.LabelMinimum) / rate
		}
		label := judged.ForResult(1)
		u.UnderLabel.Judge(1, &label, low, high, n)
	}
}

func (s RateStandards) check(v *finding.Invalid, solved Solved) {
	for _, x := range [...]struct {
		of    Solved
		value unit.Ratio
		name  string
	}{
		{SolvedNozzleFlowRate, s.NozzleFlowRate, "nozzleFlowRate"}, {SolvedGroundSpeed, s.GroundSpeed, "groundSpeed"},
		{SolvedSprayedWidthPerNozzle, s.SprayedWidthPerNozzle, "sprayedWidthPerNozzle"},
		{SolvedApplicationRate, s.ApplicationRate, "applicationRate"},
	} {
		if x.value == 0 {
			continue
		}
		stated := finding.Member("standardUncertainties").Member(x.name)
		v.Optional(float64(x.value), stated)
		if solved == x.of {
			v.RequiredBy(finding.Member(x.name), stated)
		}
	}
}

// AreaStandards are relative standard uncertainties of what AreaCheck takes. Zero
// where they are not known: it then counts as exact.
type AreaStandards struct {
	VolumeUsed, Area, CourseLength, Width, ExpectedApplicationRate unit.Ratio
}

// AreaCheckUncertainty is how well the rate from the tank is known.
type AreaCheckUncertainty struct {
	ApplicationRate certainty.Uncertainty
	Deviation       certainty.Uncertainty // zero without an expected rate
	Within          certainty.Conformity
}

// uncertainty is as for ApplicationRateResult. Nil without any.
func (r *AreaCheckResult) uncertainty(in *AreaCheckInput) *AreaCheckUncertainty {
	s := in.StandardUncertainties
	if s == (AreaStandards{}) {
		return nil
	}
	var b certainty.Budget
	b[certainty.SourceVolumeUsed].Standard = float64(s.VolumeUsed)
	b[certainty.SourceArea].Standard = float64(s.Area)
	if in.Area == 0 {
		b[certainty.SourceArea].Standard = math.Hypot(float64(s.CourseLength), float64(s.Width))
	}
	u := &AreaCheckUncertainty{ApplicationRate: b.Combine(float64(r.ApplicationRate), certainty.Widest{})}
	if r.Verdict == finding.NotJudged {
		return u
	}
	b[certainty.SourceExpectedRate].Standard = float64(s.ExpectedApplicationRate)
	d, limit := float64(r.Deviation), float64(r.RateTolerance)
	u.Deviation = b.Combine(1+d, certainty.Widest{})
	u.Within.Judge(d, &u.Deviation, -limit, limit, certainty.Repeats{})
	return u
}

func (s AreaStandards) check(v *finding.Invalid, in *AreaCheckInput) {
	for _, x := range [...]struct {
		value unit.Ratio
		name  string
		given bool
	}{
		{s.VolumeUsed, "volumeUsed", true}, {s.Area, "area", in.Area != 0},
		{s.CourseLength, "courseLength", in.CourseLength != 0}, {s.Width, "width", in.Width != 0},
		{s.ExpectedApplicationRate, "expectedApplicationRate", in.ExpectedApplicationRate != 0},
	} {
		if x.value == 0 {
			continue
		}
		stated := finding.Member("standardUncertainties").Member(x.name)
		v.Optional(float64(x.value), stated)
		if !x.given {
			v.RequiredBy(finding.Member(x.name), stated)
		}
	}
}
