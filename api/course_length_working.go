package api

import "wetrun/calc"

func (r *CourseLengthRequest) methods() methodSet {
	s := methodsOf(calc.MethodCourseArea, calc.MethodCourseLength)
	s.addIf(r.GroundSpeed.given(), calc.MethodCourseTime)
	return s
}

func (r *CourseLengthRequest) work(w *working, a *CourseLengthResponse) {
	w.line(calc.MethodCourseArea, "/area", a.Area,
		putNumber("m", max(r.Multiple, 1)), put("V_u", Quantity{1, r.ReadingUnit}), put("R_u", Quantity{1, r.RateUnit}))
	w.line(calc.MethodCourseLength, "/courseLength", a.CourseLength, put("A", a.Area), put("W", r.Width))
	if a.Time.given() {
		w.line(calc.MethodCourseTime, "/time", a.Time, put("L", a.CourseLength), put("v", r.GroundSpeed))
	}
}
