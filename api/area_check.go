package api

import (
	"context"

	"wetrun/calc"
	"wetrun/calc/unit"
)

// AreaCheckRequest is the body of POST /v1/area-check: what the tank lost over an
// area, which is given itself or as a course.
type AreaCheckRequest struct {
	VolumeUsed              Quantity `json:"volumeUsed" validate:"required"`
	Area                    Quantity `json:"area,omitzero"`
	CourseLength            Quantity `json:"courseLength,omitzero"`
	Width                   Quantity `json:"width,omitzero"`
	Passes                  int      `json:"passes,omitzero"`
	ExpectedApplicationRate Quantity `json:"expectedApplicationRate,omitzero"`
	RateTolerance           Quantity `json:"rateTolerance,omitzero"`
	Results
}

// AreaCheckResponse is the answer.
type AreaCheckResponse struct {
	Area                    Quantity  `json:"area"`
	ApplicationRate         Quantity  `json:"applicationRate"`
	ExpectedApplicationRate Quantity  `json:"expectedApplicationRate,omitzero"`
	RateTolerance           Quantity  `json:"rateTolerance,omitzero"`
	Deviation               Quantity  `json:"deviation,omitzero"`
	WithinTolerance         *bool     `json:"withinTolerance,omitzero"`
	Cautions                []notice  `json:"cautions"`
	Warnings                []warning `json:"warnings,omitzero"`
}

var areaCheckTable = objectOf(
	quantity("volumeUsed", func(r *AreaCheckRequest) *Quantity { return &r.VolumeUsed }, unit.KindVolume),
	quantity("area", func(r *AreaCheckRequest) *Quantity { return &r.Area }, unit.KindArea),
	quantity("courseLength", func(r *AreaCheckRequest) *Quantity { return &r.CourseLength }, unit.KindLength),
	quantity("width", func(r *AreaCheckRequest) *Quantity { return &r.Width }, unit.KindLength),
	count("passes", func(r *AreaCheckRequest) *int { return &r.Passes }, 1, mostPasses),
	quantity("expectedApplicationRate", func(r *AreaCheckRequest) *Quantity { return &r.ExpectedApplicationRate }, unit.KindApplicationRate),
	quantity("rateTolerance", func(r *AreaCheckRequest) *Quantity { return &r.RateTolerance }, unit.KindRatio),
	results(func(r *AreaCheckRequest) *Results { return &r.Results }),
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
		Cautions:                cautions(ctx, rateCautions...),
		Warnings:                warnings(ctx, result.Warnings),
	}
	if result.Verdict != calc.NotJudged {
		a.Deviation = percent(result.Deviation)
		a.RateTolerance = r.RateTolerance.or(percent(result.RateTolerance))
	}
	return a, nil
}
