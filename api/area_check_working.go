package api

import (
	"wetrun/calc"
	"wetrun/calc/method"
)

func (r *AreaCheckRequest) methods(x *calc.AreaCheckResult) methodSet {
	s := methodsOf(method.RateFromTank)
	s.addIf(!r.Area.given(), method.CourseTreatedArea)
	s.addIf(x.Verdict != calc.NotJudged, method.RateDeviation)
	return s
}

func (r *AreaCheckRequest) work(w *working, a *AreaCheckResponse) {
	if !r.Area.given() {
		w.line(method.CourseTreatedArea, "/area", a.Area, put("L", r.CourseLength), put("W", r.Width), putNumber("n", max(r.Passes, 1)))
	}
	w.line(method.RateFromTank, "/applicationRate", a.ApplicationRate, put("V", r.VolumeUsed), put("A", a.Area))
	if a.Deviation.given() {
		w.line(method.RateDeviation, "/deviation", a.Deviation, put("R", a.ApplicationRate), put("R_t", r.ExpectedApplicationRate))
	}
	a.workUncertainty(w)
}

func (a *AreaCheckResponse) workUncertainty(w *working) {
	if u := a.Uncertainty; u != nil {
		w.uncertain("/uncertainty/applicationRate", &u.ApplicationRate)
		w.uncertain("/uncertainty/deviation", &u.Deviation)
		w.conformsEitherWay("", &a.ConformanceResponse, a.Deviation, &u.Deviation, a.RateTolerance)
	}
}
