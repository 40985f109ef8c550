package api

import (
	"wetrun/calc"
	"wetrun/calc/finding"
)

func (r *AreaCheckRequest) methods(x *calc.AreaCheckResult) methodSet {
	s := methodsOf(calc.MethodRateFromTank)
	s.addIf(!r.Area.given(), calc.MethodCourseTreatedArea)
	s.addIf(x.Verdict != finding.NotJudged, calc.MethodRateDeviation)
	return s
}

func (r *AreaCheckRequest) work(w *working, a *AreaCheckResponse) {
	if !r.Area.given() {
		w.line(calc.MethodCourseTreatedArea, "/area", a.Area, put("L", r.CourseLength), put("W", r.Width), putNumber("n", max(r.Passes, 1)))
	}
	w.line(calc.MethodRateFromTank, "/applicationRate", a.ApplicationRate, put("V", r.VolumeUsed), put("A", a.Area))
	if a.Deviation.given() {
		w.line(calc.MethodRateDeviation, "/deviation", a.Deviation, put("R", a.ApplicationRate), put("R_t", r.ExpectedApplicationRate))
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
