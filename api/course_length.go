package api

import (
	"context"

	"wetrun/calc"
	"wetrun/calc/unit"
)

// CourseLengthRequest is the body of POST /v1/course-length. ReadingUnit and
// RateUnit are symbols on the wire.
type CourseLengthRequest struct {
	Width       Quantity `json:"width" validate:"required"`
	ReadingUnit unit.ID  `json:"readingUnit" validate:"required"`
	RateUnit    unit.ID  `json:"rateUnit" validate:"required"`
	Multiple    int      `json:"multiple,omitzero"`
	GroundSpeed Quantity `json:"groundSpeed,omitzero"`
	Results
}

// CourseLengthResponse is the answer.
type CourseLengthResponse struct {
	CourseLength Quantity  `json:"courseLength"`
	Area         Quantity  `json:"area"`
	Time         Quantity  `json:"time,omitzero"`
	Warnings     []warning `json:"warnings,omitzero"`
	Explained
}

var courseLengthTable = objectOf(
	quantity("width", func(r *CourseLengthRequest) *Quantity { return &r.Width }, unit.KindLength),
	symbol("readingUnit", func(r *CourseLengthRequest) *unit.ID { return &r.ReadingUnit }, unit.KindVolume),
	symbol("rateUnit", func(r *CourseLengthRequest) *unit.ID { return &r.RateUnit }, unit.KindApplicationRate),
	count("multiple", func(r *CourseLengthRequest) *int { return &r.Multiple }, 1, mostMultiple),
	quantity("groundSpeed", func(r *CourseLengthRequest) *Quantity { return &r.GroundSpeed }, unit.KindSpeed),
	results(func(r *CourseLengthRequest) *Results { return &r.Results }),
	showing(func(r *CourseLengthRequest) *Showing { return &r.Showing }),
)

func courseLength(ctx context.Context, r *CourseLengthRequest) (CourseLengthResponse, error) {
	result, err := calc.CourseLength(calc.CourseLengthInput{
		Width:       unit.Length(r.Width.si()),
		ReadingUnit: unit.Volume(r.ReadingUnit.Factor()),
		RateUnit:    unit.ApplicationRate(r.RateUnit.Factor()),
		Multiple:    r.Multiple,
		GroundSpeed: unit.Speed(r.GroundSpeed.si()),
	})
	if err != nil {
		return CourseLengthResponse{}, err
	}
	units := r.units()
	a := CourseLengthResponse{
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
