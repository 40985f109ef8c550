package api

import "wetrun/calc/method"

func (r *CourseLengthRequest) methods() methodSet {
	s := methodsOf(method.CourseArea, method.CourseLength)
	s.addIf(r.GroundSpeed.given(), method.CourseTime)
	return s
}

func (r *CourseLengthRequest) work(w *working, a *CourseLengthResponse) {
	w.line(method.CourseArea, "/area", a.Area,
		putNumber("m", max(r.Multiple, 1)), put("V_u", Quantity{1, r.ReadingUnit}), put("R_u", Quantity{1, r.RateUnit}))
	w.line(method.CourseLength, "/courseLength", a.CourseLength, put("A", a.Area), put("W", r.Width))
	if a.Time.given() {
		w.line(method.CourseTime, "/time", a.Time, put("L", a.CourseLength), put("v", r.GroundSpeed))
	}
}
