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
	VolumeUsed              Quantity      `json:"volumeUsed" validate:"required" is:"volume"`
	Area                    Quantity      `json:"area,omitzero" is:"area"`
	CourseLength            Quantity      `json:"courseLength,omitzero" is:"length"`
	Width                   Quantity      `json:"width,omitzero" is:"length"`
	Passes                  int           `json:"passes,omitzero" range:"1..1000"`
	ExpectedApplicationRate Quantity      `json:"expectedApplicationRate,omitzero" is:"application_rate"`
	RateTolerance           Quantity      `json:"rateTolerance,omitzero" is:"ratio"`
	StandardUncertainties   AreaStandards `json:"standardUncertainties,omitzero"`
	Results
}

// AreaStandards are relative standard uncertainties of the figures of an area check.
type AreaStandards struct {
	VolumeUsed              Quantity `json:"volumeUsed,omitzero" is:"ratio"`
	Area                    Quantity `json:"area,omitzero" is:"ratio"`
	CourseLength            Quantity `json:"courseLength,omitzero" is:"ratio"`
	Width                   Quantity `json:"width,omitzero" is:"ratio"`
	ExpectedApplicationRate Quantity `json:"expectedApplicationRate,omitzero" is:"ratio"`
}

func (s *AreaStandards) input() calc.AreaStandards {
	return calc.AreaStandards{
		VolumeUsed: unit.Ratio(s.VolumeUsed.si()), Area: unit.Ratio(s.Area.si()), CourseLength: unit.Ratio(s.CourseLength.si()),
		Width: unit.Ratio(s.Width.si()), ExpectedApplicationRate: unit.Ratio(s.ExpectedApplicationRate.si()),
	}
}

// AreaCheckAnswer is the answer.
type AreaCheckAnswer struct {
	Area                    Quantity `json:"area"`
	ApplicationRate         Quantity `json:"applicationRate"`
	ExpectedApplicationRate Quantity `json:"expectedApplicationRate,omitzero"`
	RateTolerance           Quantity `json:"rateTolerance,omitzero"`
	Deviation               Quantity `json:"deviation,omitzero"`
	WithinTolerance         *bool    `json:"withinTolerance,omitzero"`
	ConformanceAnswer
	Uncertainty *AreaCheckUncertainty `json:"uncertainty,omitzero"`
	Cautions    []notice              `json:"cautions"`
	Warnings    []warning             `json:"warnings,omitzero"`
	Explained
}

// AreaCheckUncertainty is how well the members of its names are known.
type AreaCheckUncertainty struct {
	ApplicationRate UncertaintyAnswer `json:"applicationRate"`
	Deviation       UncertaintyAnswer `json:"deviation,omitzero"`
}

func areaCheck(ctx context.Context, r *AreaCheckRequest) (AreaCheckAnswer, error) {
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
		return AreaCheckAnswer{}, err
	}
	units := r.units()
	a := AreaCheckAnswer{
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
		a.ConformanceAnswer = conformance(ctx, u.Within)
		a.Uncertainty = &AreaCheckUncertainty{uncertain(&u.ApplicationRate, units.rate), uncertain(&u.Deviation, unit.IDPct)}
	}
	w := explaining(r.shows())
	r.work(w, &a)
	a.Explained = w.answer()
	return a, nil
}
