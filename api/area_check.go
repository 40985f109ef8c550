package api

import (
	"context"

	"wetrun/calc"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// AreaCheckRequest is the body of POST /v1/area-check: what the tank lost over an
// area, which is given itself or as a course.
type AreaCheckRequest struct {
	VolumeUsed              Quantity      `json:"volumeUsed" validate:"required"`
	Area                    Quantity      `json:"area,omitzero"`
	CourseLength            Quantity      `json:"courseLength,omitzero"`
	Width                   Quantity      `json:"width,omitzero"`
	Passes                  int           `json:"passes,omitzero"`
	ExpectedApplicationRate Quantity      `json:"expectedApplicationRate,omitzero"`
	RateTolerance           Quantity      `json:"rateTolerance,omitzero"`
	StandardUncertainties   AreaStandards `json:"standardUncertainties,omitzero"`
	Results
}

// AreaStandards are relative standard uncertainties of the figures of an area check.
type AreaStandards struct {
	VolumeUsed              Quantity `json:"volumeUsed,omitzero"`
	Area                    Quantity `json:"area,omitzero"`
	CourseLength            Quantity `json:"courseLength,omitzero"`
	Width                   Quantity `json:"width,omitzero"`
	ExpectedApplicationRate Quantity `json:"expectedApplicationRate,omitzero"`
}

var areaStandardsTable = objectOf(
	quantity("volumeUsed", func(s *AreaStandards) *Quantity { return &s.VolumeUsed }, unit.KindRatio),
	quantity("area", func(s *AreaStandards) *Quantity { return &s.Area }, unit.KindRatio),
	quantity("courseLength", func(s *AreaStandards) *Quantity { return &s.CourseLength }, unit.KindRatio),
	quantity("width", func(s *AreaStandards) *Quantity { return &s.Width }, unit.KindRatio),
	quantity("expectedApplicationRate", func(s *AreaStandards) *Quantity { return &s.ExpectedApplicationRate }, unit.KindRatio),
)

func (s *AreaStandards) input() calc.AreaStandards {
	return calc.AreaStandards{
		VolumeUsed: unit.Ratio(s.VolumeUsed.si()), Area: unit.Ratio(s.Area.si()), CourseLength: unit.Ratio(s.CourseLength.si()),
		Width: unit.Ratio(s.Width.si()), ExpectedApplicationRate: unit.Ratio(s.ExpectedApplicationRate.si()),
	}
}

// AreaCheckResponse is the answer.
type AreaCheckResponse struct {
	Area                    Quantity `json:"area"`
	ApplicationRate         Quantity `json:"applicationRate"`
	ExpectedApplicationRate Quantity `json:"expectedApplicationRate,omitzero"`
	RateTolerance           Quantity `json:"rateTolerance,omitzero"`
	Deviation               Quantity `json:"deviation,omitzero"`
	WithinTolerance         *bool    `json:"withinTolerance,omitzero"`
	ConformanceResponse
	Uncertainty *AreaCheckUncertainty `json:"uncertainty,omitzero"`
	Cautions    []notice              `json:"cautions"`
	Warnings    []warning             `json:"warnings,omitzero"`
	Explained
}

// AreaCheckUncertainty is how well the members of its names are known.
type AreaCheckUncertainty struct {
	ApplicationRate UncertaintyResponse `json:"applicationRate"`
	Deviation       UncertaintyResponse `json:"deviation,omitzero"`
}

var areaCheckTable = objectOf(
	quantity("volumeUsed", func(r *AreaCheckRequest) *Quantity { return &r.VolumeUsed }, unit.KindVolume),
	quantity("area", func(r *AreaCheckRequest) *Quantity { return &r.Area }, unit.KindArea),
	quantity("courseLength", func(r *AreaCheckRequest) *Quantity { return &r.CourseLength }, unit.KindLength),
	quantity("width", func(r *AreaCheckRequest) *Quantity { return &r.Width }, unit.KindLength),
	count("passes", func(r *AreaCheckRequest) *int { return &r.Passes }, 1, mostPasses),
	quantity("expectedApplicationRate", func(r *AreaCheckRequest) *Quantity { return &r.ExpectedApplicationRate }, unit.KindApplicationRate),
	quantity("rateTolerance", func(r *AreaCheckRequest) *Quantity { return &r.RateTolerance }, unit.KindRatio),
	nested("standardUncertainties", func(r *AreaCheckRequest) *AreaStandards { return &r.StandardUncertainties }, areaStandardsTable),
	results(func(r *AreaCheckRequest) *Results { return &r.Results }),
	showing(func(r *AreaCheckRequest) *Showing { return &r.Showing }),
)

func areaCheck(ctx context.Context, r *AreaCheckRequest) (AreaCheckResponse, error) {
	result, err := calc.AreaCheck(calc.AreaCheckInput{
		VolumeUsed:              unit.Volume(r.VolumeUsed.si()),
		Area:                    unit.Area(r.Area.si()),
		CourseLength:            unit.Length(r.CourseLength.si()),
		Width:                   unit.Length(r.Width.si()),
		Passes:                  r.Passes,
		ExpectedApplicationRate: unit.ApplicationRate(r.ExpectedApplicationRate.si()),
		RateTolerance:           unit.Ratio(r.RateTolerance.si()),
		StandardUncertainties:   r.StandardUncertainties.input(),
	})
	if err != nil {
		return AreaCheckResponse{}, err
	}
	units := r.units()
	a := AreaCheckResponse{
		Area:                    r.Area.or(in(result.Area, units.area)),
		ApplicationRate:         in(result.ApplicationRate, units.rate),
		ExpectedApplicationRate: r.ExpectedApplicationRate,
		WithinTolerance:         within(result.Verdict),
		Cautions:                rateCautions.in(ctx),
		Warnings:                warnings(ctx, result.Warnings),
	}
	if result.Verdict != finding.NotJudged {
		a.Deviation = percent(result.Deviation)
		a.RateTolerance = r.RateTolerance.or(percent(result.RateTolerance))
	}
	if u := result.Uncertainty; u != nil {
		a.ConformanceResponse = conformance(ctx, u.Within)
		a.Uncertainty = &AreaCheckUncertainty{uncertain(&u.ApplicationRate, units.rate), uncertain(&u.Deviation, unit.IDPct)}
	}
	w := explaining(r.shows())
	r.work(w, &a)
	a.Explained = w.answer()
	return a, nil
}
