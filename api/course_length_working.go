package api

import "wetrun/calc/method"

func (r *CourseLengthRequest) work(w working, a *CourseLengthAnswer) {
	w.line(method.CourseArea, "/area", a.Area).
		count("m", max(r.Multiple, 1)).with("V_u", Quantity{1, r.ReadingUnit}).with("R_u", Quantity{1, r.RateUnit})
	w.line(method.CourseLength, "/courseLength", a.CourseLength).with("A", a.Area).with("W", r.Width)
	if a.Time.given() {
		w.line(method.CourseTime, "/time", a.Time).with("L", a.CourseLength).with("v", r.GroundSpeed)
	}
}
