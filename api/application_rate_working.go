package api

import (
	"wetrun/calc"
	"wetrun/calc/method"
)

func (r *ApplicationRateRequest) work(w working, x *calc.ApplicationRateResult, a *ApplicationRateAnswer) {
	rd := w.density(r.RelativeDensity, r.LiquidDensity)
	if x.SolvedFor != calc.SolvedNozzleFlowRate && !r.NozzleFlowRate.given() {
		r.workFlow(w, rd, a.NozzleFlowRate)
	}
	if r.Width.given() {
		w.line(method.WidthPerNozzle, "/sprayedWidthPerNozzle", a.SprayedWidthPerNozzle).with("W", r.Width).count("n", r.Nozzles)
	}
	a.solved(w, x.SolvedFor).
		with("q", a.NozzleFlowRate).with("v", a.GroundSpeed).with("w", a.SprayedWidthPerNozzle).with("R", a.ApplicationRate)
	if x.Width != 0 && !r.Width.given() {
		w.line(method.TreatedWidth, "/width", a.Width).with("w", a.SprayedWidthPerNozzle).count("n", r.Nozzles)
	}
	if a.FieldApplicationRate.given() {
		w.line(method.FieldRate, "/fieldApplicationRate", a.FieldApplicationRate).
			with("R", a.ApplicationRate).with("W", a.Width).with("b", r.RowSpacing)
	}
	if a.WaterEquivalentFlowRate.given() {
		w.line(method.WaterEquivalentFlow, "/waterEquivalentFlowRate", a.WaterEquivalentFlowRate).with("q", a.NozzleFlowRate).with("s", rd)
	}
	if a.Deviation.given() {
		rate := a.ApplicationRate
		if r.RateBasis == calc.RateBasisField {
			rate = a.FieldApplicationRate
		}
		w.line(method.RateDeviation, "/deviation", a.Deviation).with("R", rate).with("R_t", r.TargetApplicationRate)
	}
	r.workUncertainty(w, a)
}

// solved begins the line of the figure that was solved for.
func (a *ApplicationRateAnswer) solved(w working, figure calc.Solved) *line {
	switch figure {
	case calc.SolvedNozzleFlowRate:
		return w.line(method.NozzleFlowForRate, "/nozzleFlowRate", a.NozzleFlowRate)
	case calc.SolvedGroundSpeed:
		return w.line(method.SpeedForRate, "/groundSpeed", a.GroundSpeed)
	case calc.SolvedSprayedWidthPerNozzle:
		return w.line(method.WidthForRate, "/sprayedWidthPerNozzle", a.SprayedWidthPerNozzle)
	}
	return w.line(method.ApplicationRate, "/applicationRate", a.ApplicationRate)
}

// workUncertainty adds how well the rate is known. Where the rate was given and
// something else solved for, its own uncertainty is a number between.
func (r *ApplicationRateRequest) workUncertainty(w working, a *ApplicationRateAnswer) {
	u := a.Uncertainty
	if u == nil {
		return
	}
	w.uncertain("/uncertainty/nozzleFlowRate", &u.NozzleFlowRate)
	w.uncertain("/uncertainty/groundSpeed", &u.GroundSpeed)
	w.uncertain("/uncertainty/sprayedWidthPerNozzle", &u.SprayedWidthPerNozzle)
	w.uncertain("/uncertainty/applicationRate", &u.ApplicationRate)
	w.uncertain("/uncertainty/fieldApplicationRate", &u.FieldApplicationRate)
	w.uncertain("/uncertainty/deviation", &u.Deviation)
	w.conformsEitherWay("", &a.ConformanceAnswer, a.Deviation, &u.Deviation, a.RateTolerance)
	if a.LabelConformance == nil {
		return
	}
	rate, known := a.ApplicationRate, &u.rate
	if r.RateBasis == calc.RateBasisField {
		rate, known = a.FieldApplicationRate, &u.FieldApplicationRate
	} else if u.ApplicationRate.of == nil {
		w.uncertain("", known)
	}
	w.conforms("/labelConformance", a.LabelConformance, rate, known, Quantity{}, r.LabelMaximum)
}

// workFlow adds the lines of the nozzle that stands in for its flow.
func (r *ApplicationRateRequest) workFlow(w working, rd, result Quantity) {
	if !rd.given() {
		r.Nozzle.workFlow(w, "/nozzleFlowRate", result, r.SprayPressure)
		return
	}
	water := r.Nozzle.flowAt(w, r.SprayPressure, result.Unit)
	r.Nozzle.workFlow(w, "", water, r.SprayPressure)
	w.line(method.LiquidFlow, "/nozzleFlowRate", result).with("q_w", water).with("s", rd)
}
