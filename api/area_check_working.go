package api

import (
	"wetrun/calc/method"
)

func (r *AreaCheckRequest) work(w working, a *AreaCheckAnswer) {
	if !r.Area.given() {
		w.line(method.CourseTreatedArea, "/area", a.Area).with("L", r.CourseLength).with("W", r.Width).count("n", max(r.Passes, 1))
	}
	w.line(method.RateFromTank, "/applicationRate", a.ApplicationRate).with("V", r.VolumeUsed).with("A", a.Area)
	if a.Deviation.given() {
		w.line(method.RateDeviation, "/deviation", a.Deviation).with("R", a.ApplicationRate).with("R_t", r.ExpectedApplicationRate)
	}
	if u := a.Uncertainty; u != nil {
		w.uncertain("/uncertainty/applicationRate", &u.ApplicationRate)
		w.uncertain("/uncertainty/deviation", &u.Deviation)
		w.conformsEitherWay("", &a.ConformanceAnswer, a.Deviation, &u.Deviation, a.RateTolerance)
	}
}
