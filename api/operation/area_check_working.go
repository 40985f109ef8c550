package operation

import (
	"wetrun/api/working"
	"wetrun/calc/method"
)

func (r *AreaCheckRequest) work(w working.Working, a *AreaCheckAnswer) {
	if !r.Area.Given() {
		w.Line(method.CourseTreatedArea, "/area", a.Area).With("L", r.CourseLength).With("W", r.Width).Count("n", max(r.Passes, 1))
	}
	w.Line(method.RateFromTank, "/applicationRate", a.ApplicationRate).With("V", r.VolumeUsed).With("A", a.Area)
	if a.Deviation.Given() {
		w.Line(method.RateDeviation, "/deviation", a.Deviation).With("R", a.ApplicationRate).With("R_t", r.ExpectedApplicationRate)
	}
	if u := a.Uncertainty; u != nil {
		w.Uncertain("/uncertainty/applicationRate", &u.ApplicationRate)
		w.Uncertain("/uncertainty/deviation", &u.Deviation)
		w.ConformsEitherWay("", &a.ConformanceAnswer, a.Deviation, &u.Deviation, a.RateTolerance)
	}
}
