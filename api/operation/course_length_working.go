package operation

import (
	"wetrun/api/wire"
	"wetrun/api/working"
	"wetrun/calc/method"
)

func (r *CourseLengthRequest) work(w working.Working, a *CourseLengthAnswer) {
	w.Line(method.CourseArea, "/area", a.Area).
		Count("m", max(r.Multiple, 1)).With("V_u", wire.Quantity{Value: 1, Unit: r.ReadingUnit}).With("R_u", wire.Quantity{Value: 1, Unit: r.RateUnit})
	w.Line(method.CourseLength, "/courseLength", a.CourseLength).With("A", a.Area).With("W", r.Width)
	if a.Time.Given() {
		w.Line(method.CourseTime, "/time", a.Time).With("L", a.CourseLength).With("v", r.GroundSpeed)
	}
}
