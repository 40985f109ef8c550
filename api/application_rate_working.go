package api

import (
	"wetrun/calc"
	"wetrun/calc/unit"
)

var solvedMethods = map[calc.Solved]calc.MethodID{
	calc.SolvedNozzleFlowRate:  calc.MethodNozzleFlowForRate,
	calc.SolvedGroundSpeed:     calc.MethodSpeedForRate,
	calc.SolvedWidth:           calc.MethodWidthForRate,
	calc.SolvedApplicationRate: calc.MethodApplicationRate,
}

func (r *ApplicationRateRequest) methods(x *calc.ApplicationRateResult) methodSet {
	s := methodsOf(solvedMethods[x.SolvedFor])
	dense := r.RelativeDensity.given() || r.LiquidDensity.given()
	if x.SolvedFor != calc.SolvedNozzleFlowRate && !r.NozzleFlowRate.given() {
		s.join(r.Nozzle.flowMethods(unit.Pressure(r.SprayPressure.si())))
		s.addIf(dense, calc.MethodLiquidFlow)
	}
	s.addIf(r.LiquidDensity.given(), calc.MethodRelativeDensity)
	s.addIf(dense, calc.MethodWaterEquivalentFlow)
	s.addIf(r.Width.given(), calc.MethodWidthPerNozzle)
	s.addIf(x.Width != 0 && !r.Width.given(), calc.MethodTreatedWidth)
	s.addIf(x.FieldApplicationRate != 0, calc.MethodFieldRate)
	s.addIf(x.Verdict != calc.NotJudged, calc.MethodRateDeviation)
	return s
}

func (r *ApplicationRateRequest) work(w *working, x *calc.ApplicationRateResult, a *ApplicationRateResponse) {
	rd := w.workDensity(r.RelativeDensity, r.LiquidDensity)
	if x.SolvedFor != calc.SolvedNozzleFlowRate && !r.NozzleFlowRate.given() {
		r.workFlow(w, rd, a.NozzleFlowRate)
	}
	if r.Width.given() {
		w.line(calc.MethodWidthPerNozzle, "/sprayedWidthPerNozzle", a.SprayedWidthPerNozzle, put("W", r.Width), putNumber("n", r.Nozzles))
	}
	result := map[calc.Solved]Quantity{
		calc.SolvedNozzleFlowRate: a.NozzleFlowRate, calc.SolvedGroundSpeed: a.GroundSpeed,
		calc.SolvedWidth: a.SprayedWidthPerNozzle, calc.SolvedApplicationRate: a.ApplicationRate,
	}[x.SolvedFor]
	w.line(solvedMethods[x.SolvedFor], "/"+solvedNames[x.SolvedFor], result,
		put("q", a.NozzleFlowRate), put("v", a.GroundSpeed), put("w", a.SprayedWidthPerNozzle), put("R", a.ApplicationRate))
	if x.Width != 0 && !r.Width.given() {
		w.line(calc.MethodTreatedWidth, "/width", a.Width, put("w", a.SprayedWidthPerNozzle), putNumber("n", r.Nozzles))
	}
	if a.FieldApplicationRate.given() {
		w.line(calc.MethodFieldRate, "/fieldApplicationRate", a.FieldApplicationRate,
			put("R", a.ApplicationRate), put("W", a.Width), put("b", r.RowSpacing))
	}
	if a.WaterEquivalentFlowRate.given() {
		w.line(calc.MethodWaterEquivalentFlow, "/waterEquivalentFlowRate", a.WaterEquivalentFlowRate, put("q", a.NozzleFlowRate), put("s", rd))
	}
	if a.Deviation.given() {
		rate := a.ApplicationRate
		if r.RateBasis == calc.RateBasisField {
			rate = a.FieldApplicationRate
		}
		w.line(calc.MethodRateDeviation, "/deviation", a.Deviation, put("R", rate), put("R_t", r.TargetApplicationRate))
	}
	r.workUncertainty(w, a)
}

// workUncertainty adds how well the rate is known. Where the rate was given and
// something else solved for, its own uncertainty is a step between.
func (r *ApplicationRateRequest) workUncertainty(w *working, a *ApplicationRateResponse) {
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
	w.conformsEitherWay("", &a.ConformanceResponse, a.Deviation, &u.Deviation, a.RateTolerance)
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
func (r *ApplicationRateRequest) workFlow(w *working, rd, result Quantity) {
	if !rd.given() {
		r.Nozzle.workFlow(w, "/nozzleFlowRate", result, r.SprayPressure)
		return
	}
	n := r.Nozzle.input()
	water := in(n.FlowAt(unit.Pressure(r.SprayPressure.si())), result.Unit)
	r.Nozzle.workFlow(w, "", water, r.SprayPressure)
	w.line(calc.MethodLiquidFlow, "/nozzleFlowRate", result, put("q_w", water), put("s", rd))
}
