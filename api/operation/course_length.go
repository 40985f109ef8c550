package operation

import (
	"context"

	"wetrun/api/wire"
	"wetrun/api/working"
	"wetrun/calc"
	"wetrun/calc/method"
	"wetrun/calc/unit"
)

// CourseLengthRequest is the body of POST /v1/course-length. ReadingUnit and
// RateUnit are symbols on the wire.
type CourseLengthRequest struct {
	Width       wire.Quantity `json:"width" validate:"required" is:"length"`
	ReadingUnit unit.ID       `json:"readingUnit" validate:"required" is:"volume"`
	RateUnit    unit.ID       `json:"rateUnit" validate:"required" is:"application_rate"`
	Multiple    int           `json:"multiple,omitzero" range:"1..1000"`
	GroundSpeed wire.Quantity `json:"groundSpeed,omitzero" is:"speed"`
	Results
}

// CourseLengthAnswer is the answer of POST /v1/course-length.
type CourseLengthAnswer struct {
	CourseLength wire.Quantity `json:"courseLength"`
	Area         wire.Quantity `json:"area"`
	Time         wire.Quantity `json:"time,omitzero"`
	Cautions     []Notice      `json:"cautions"`
	Warnings     []Warning     `json:"warnings,omitzero"`
	working.Explained
}

func courseLength(ctx context.Context, r *CourseLengthRequest) (CourseLengthAnswer, error) {
	result, err := calc.CourseLength(calc.CourseLengthInput{
		Width:       unit.Length(r.Width.SI()),
		ReadingUnit: unit.Volume(r.ReadingUnit.Factor()),
		RateUnit:    unit.ApplicationRate(r.RateUnit.Factor()),
		Multiple:    r.Multiple,
		GroundSpeed: unit.Speed(r.GroundSpeed.SI()),
	})
	if err != nil {
		return CourseLengthAnswer{}, err
	}
	units := r.units()
	a := CourseLengthAnswer{
		CourseLength: wire.In(result.CourseLength, units.length),
		Area:         wire.In(result.Area, units.area),
		Cautions:     speedCautions.in(ctx),
		Warnings:     warnings(ctx, result.Warnings),
	}
	if r.GroundSpeed.Given() {
		a.Time = wire.In(result.Time, unit.IDS)
	}
	w := working.New(r.shows())
	r.work(w, &a)
	a.Explained = w.Answer()
	return a, nil
}

func (r *CourseLengthRequest) work(w working.Working, a *CourseLengthAnswer) {
	w.Line(method.CourseArea, "/area", a.Area).
		Count("m", max(r.Multiple, 1)).With("V_u", wire.Quantity{Value: 1, Unit: r.ReadingUnit}).With("R_u", wire.Quantity{Value: 1, Unit: r.RateUnit})
	w.Line(method.CourseLength, "/courseLength", a.CourseLength).With("A", a.Area).With("W", r.Width)
	if a.Time.Given() {
		w.Line(method.CourseTime, "/time", a.Time).With("L", a.CourseLength).With("v", r.GroundSpeed)
	}
}
