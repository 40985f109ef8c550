package operation

import (
	"context"

	"wetrun/api/wire"
	"wetrun/api/working"
	"wetrun/calc"
	"wetrun/calc/finding"
	"wetrun/calc/method"
	"wetrun/calc/unit"
)

// AreaCheckRequest is the body of POST /v1/area-check: what the tank lost over an
// area, which is given itself or as a course.
type AreaCheckRequest struct {
	VolumeUsed              wire.Quantity `json:"volumeUsed" validate:"required" is:"volume"`
	Area                    wire.Quantity `json:"area,omitzero" is:"area"`
	CourseLength            wire.Quantity `json:"courseLength,omitzero" is:"length"`
	Width                   wire.Quantity `json:"width,omitzero" is:"length"`
	Passes                  int           `json:"passes,omitzero" range:"1..1000"`
	ExpectedApplicationRate wire.Quantity `json:"expectedApplicationRate,omitzero" is:"application_rate"`
	RateTolerance           wire.Quantity `json:"rateTolerance,omitzero" is:"ratio"`
	StandardUncertainties   AreaStandards `json:"standardUncertainties,omitzero"`
	Results
}

// AreaStandards are relative standard uncertainties of the figures of an area check.
type AreaStandards struct {
	VolumeUsed              wire.Quantity `json:"volumeUsed,omitzero" is:"ratio"`
	Area                    wire.Quantity `json:"area,omitzero" is:"ratio"`
	CourseLength            wire.Quantity `json:"courseLength,omitzero" is:"ratio"`
	Width                   wire.Quantity `json:"width,omitzero" is:"ratio"`
	ExpectedApplicationRate wire.Quantity `json:"expectedApplicationRate,omitzero" is:"ratio"`
}

func (s *AreaStandards) input() calc.AreaStandards {
	return calc.AreaStandards{
		VolumeUsed: unit.Ratio(s.VolumeUsed.SI()), Area: unit.Ratio(s.Area.SI()), CourseLength: unit.Ratio(s.CourseLength.SI()),
		Width: unit.Ratio(s.Width.SI()), ExpectedApplicationRate: unit.Ratio(s.ExpectedApplicationRate.SI()),
	}
}

// AreaCheckAnswer is the answer of POST /v1/area-check.
type AreaCheckAnswer struct {
	Area                    wire.Quantity `json:"area"`
	ApplicationRate         wire.Quantity `json:"applicationRate"`
	ExpectedApplicationRate wire.Quantity `json:"expectedApplicationRate,omitzero"`
	RateTolerance           wire.Quantity `json:"rateTolerance,omitzero"`
	Deviation               wire.Quantity `json:"deviation,omitzero"`
	WithinTolerance         *bool         `json:"withinTolerance,omitzero"`
	working.ConformanceAnswer
	Uncertainty *AreaCheckUncertainty `json:"uncertainty,omitzero"`
	Cautions    []Notice              `json:"cautions"`
	Warnings    []Warning             `json:"warnings,omitzero"`
	working.Explained
}

// AreaCheckUncertainty is how well the members of its names are known.
type AreaCheckUncertainty struct {
	ApplicationRate working.UncertaintyAnswer `json:"applicationRate"`
	Deviation       working.UncertaintyAnswer `json:"deviation,omitzero"`
}

func areaCheck(ctx context.Context, r *AreaCheckRequest) (AreaCheckAnswer, error) {
	result, err := calc.AreaCheck(calc.AreaCheckInput{
		VolumeUsed:              unit.Volume(r.VolumeUsed.SI()),
		Area:                    unit.Area(r.Area.SI()),
		CourseLength:            unit.Length(r.CourseLength.SI()),
		Width:                   unit.Length(r.Width.SI()),
		Passes:                  r.Passes,
		ExpectedApplicationRate: unit.ApplicationRate(r.ExpectedApplicationRate.SI()),
		RateTolerance:           unit.Ratio(r.RateTolerance.SI()),
		StandardUncertainties:   r.StandardUncertainties.input(),
	})
	if err != nil {
		return AreaCheckAnswer{}, err
	}
	units := r.units()
	a := AreaCheckAnswer{
		Area:                    r.Area.Or(wire.In(result.Area, units.area)),
		ApplicationRate:         wire.In(result.ApplicationRate, units.rate),
		ExpectedApplicationRate: r.ExpectedApplicationRate,
		WithinTolerance:         within(result.Verdict),
		Cautions:                areaCautions.in(ctx),
		Warnings:                warnings(ctx, result.Warnings),
	}
	if result.Verdict != finding.NotJudged {
		a.Deviation = percent(result.Deviation)
		a.RateTolerance = r.RateTolerance.Or(percent(result.RateTolerance))
	}
	if u := result.Uncertainty; u != nil {
		a.ConformanceAnswer = conformance(ctx, u.Within)
		a.Uncertainty = &AreaCheckUncertainty{working.UncertaintyIn(&u.ApplicationRate, units.rate), working.UncertaintyIn(&u.Deviation, unit.IDPct)}
	}
	w := working.New(r.shows())
	r.work(w, &a)
	a.Explained = w.Answer()
	return a, nil
}

func (r *AreaCheckRequest) work(w working.Working, a *AreaCheckAnswer) {
	if !r.Area.Given() {
		w.Line(method.CourseTreatedArea, "/area", a.Area).With("L", r.CourseLength).With("W", r.Width).Count("n", max(r.Passes, 1))
	}
	w.Line(method.RateFromTank, "/applicationRate", a.ApplicationRate).With("V", r.VolumeUsed).With("A", a.Area)
	if a.Deviation.Given() {
		w.Line(method.RateDeviation, "/deviation", a.Deviation).With("R", a.ApplicationRate).With("R_t", r.ExpectedApplicationRate)
	}
	if u := a.Uncertainty; u != nil {
		w.Uncertain("/uncertainty/applicationRate", &u.ApplicationRate)
		w.Uncertain("/uncertainty/deviation", &u.Deviation)
		w.ConformsEitherWay("", &a.ConformanceAnswer, a.Deviation, &u.Deviation, a.RateTolerance)
	}
}
