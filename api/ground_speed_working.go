package api

import (
	"strconv"

	"wetrun/calc"
	"wetrun/calc/method"
)

func groundSpeedMethods(x *calc.GroundSpeedResult) methodSet {
	s := methodsOf(method.RunSpeed, method.GroundSpeed, method.TotalLength, method.TotalTime)
	s.addIf(x.TargetTimes != nil, method.CourseTime)
	s.addIf(x.Repeatable != calc.NotJudged, method.RunSpread)
	return s
}

func (r *GroundSpeedRequest) work(w *working, a *GroundSpeedResponse) {
	var lengths, times, speeds []Quantity
	for i, run := range r.Runs {
		at := "/runs/" + strconv.Itoa(i)
		w.line(method.RunSpeed, at+"/groundSpeed", a.Runs[i].GroundSpeed, put("L", run.CourseLength), put("t", run.Time))
		if a.Runs[i].TargetTime.given() {
			w.line(method.CourseTime, at+"/targetTime", a.Runs[i].TargetTime, put("L", run.CourseLength), put("v", r.TargetGroundSpeed))
		}
		lengths, times, speeds = append(lengths, run.CourseLength), append(times, run.Time), append(speeds, a.Runs[i].GroundSpeed)
	}
	w.line(method.TotalLength, "/totalLength", a.TotalLength, putEach("L_i", lengths))
	w.line(method.TotalTime, "/totalTime", a.TotalTime, putEach("t_i", times))
	w.line(method.GroundSpeed, "/groundSpeed", a.GroundSpeed, put("L", a.TotalLength), put("t", a.TotalTime))
	if a.Spread.given() {
		w.line(method.RunSpread, "/spread", a.Spread, putEach("v_i", speeds), put("v", a.GroundSpeed))
	}
	r.workUncertainty(w, a)
}

func (r *GroundSpeedRequest) workUncertainty(w *working, a *GroundSpeedResponse) {
	if a.Uncertainty == nil {
		return
	}
	for i := range a.Runs {
		w.uncertain(w.item("/runs", i, "/uncertainty/groundSpeed"), &a.Runs[i].Uncertainty.GroundSpeed)
	}
	w.uncertain("/uncertainty/groundSpeed", &a.Uncertainty.GroundSpeed)
	if a.Uncertainty.Spread != nil {
		w.uncertain("/uncertainty/spread", a.Uncertainty.Spread)
		w.conforms("", &a.ConformanceResponse, a.Spread, a.Uncertainty.Spread, Quantity{}, a.RunTolerance)
	}
}
