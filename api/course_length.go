package api

import (
	"context"

	"wetrun/calc"
	"wetrun/calc/unit"
)

// CourseLengthRequest is the body of POST /v1/course-length. ReadingUnit and
// RateUnit are symbols on the wire.
type CourseLengthRequest struct {
	Width       Quantity `json:"width" validate:"required" is:"length"`
	ReadingUnit unit.ID  `json:"readingUnit" validate:"required" is:"volume"`
	RateUnit    unit.ID  `json:"rateUnit" validate:"required" is:"application_rate"`
	Multiple    int      `json:"multiple,omitzero" range:"1..1000"`
	GroundSpeed Quantity `json:"groundSpeed,omitzero" is:"speed"`
	Results
}

// CourseLengthAnswer is the answer.
type CourseLengthAnswer struct {
	CourseLength Quantity  `json:"courseLength"`
	Area         Quantity  `json:"area"`
	Time         Quantity  `json:"time,omitzero"`
	Warnings     []warning `json:"warnings,omitzero"`
	Explained
}

func courseLength(ctx context.Context, r *CourseLengthRequest) (CourseLengthAnswer, error) {
	result, err := calc.CourseLength(calc.CourseLengthInput{
		Width:       unit.Length(r.Width.si()),
		ReadingUnit: unit.Volume(r.ReadingUnit.Factor()),
		RateUnit:    unit.ApplicationRate(r.RateUnit.Factor()),
		Multiple:    r.Multiple,
		GroundSpeed: unit.Speed(r.GroundSpeed.si()),
	})
	if err != nil {
		return CourseLengthAnswer{}, err
	}
	units := r.units()
	a := CourseLengthAnswer{
		CourseLength: in(result.CourseLength, units.length),
		Area:         in(result.Area, units.area),
		Warnings:     warnings(ctx, result.Warnings),
	}
	if r.GroundSpeed.given() {
		a.Time = in(result.Time, unit.IDS)
	}
	w := explaining(r.shows())
	r.work(w, &a)
	a.Explained = w.answer()
	return a, nil
}
