package api

import (
	"wetrun/calc"
	"wetrun/calc/unit"
)

func (r *PressureUniformityRequest) methods(x *calc.PressureUniformityResult) methodSet {
	s := methodsOf(calc.MethodHighestPressure, calc.MethodLowestPressure, calc.MethodMeanPressure, calc.MethodPressureSpread, calc.MethodFlowSpread)
	s.addIf(r.largest().Unit != r.units().pressure, calc.MethodUnitConversion)
	s.addIf(x.MaxDifference < 2*x.Mean, calc.MethodFlowSpreadAtLimit)
	s.addIf(x.HasCab, calc.MethodCabOffset)
	s.addIf(x.CabIfHoseLoss != 0, calc.MethodCabIfHoseLoss)
	s.addIf(x.CabIfGaugeError != 0, calc.MethodCabIfGaugeError)
	return s
}

// largest is the difference that is allowed, as given or as people speak of it.
func (r *PressureUniformityRequest) largest() Quantity {
	return r.MaxDifference.or(in(calc.DefaultPressureDifference, unit.IDPsi))
}

func (r *PressureUniformityRequest) work(w *working, a *PressureUniformityResponse) {
	readings := make([]Quantity, len(r.Readings))
	for i := range readings {
		readings[i] = r.Readings[i].Pressure
	}
	w.line(calc.MethodHighestPressure, "/highest", a.Highest, putEach("p_i", readings))
	w.line(calc.MethodLowestPressure, "/lowest", a.Lowest, putEach("p_i", readings))
	w.line(calc.MethodMeanPressure, "/mean", a.Mean, putEach("p_i", readings), putNumber("n", len(readings)))
	high, low := put("p_h", a.Highest), put("p_l", a.Lowest)
	w.line(calc.MethodPressureSpread, "/spread", a.Spread, high, low)
	w.line(calc.MethodFlowSpread, "/flowSpread", a.FlowSpread, high, low)
	w.workConversion("/maxDifference", a.MaxDifference, r.largest())
	mean := put("p", a.Mean)
	if a.FlowSpreadAtMaxDifference.given() {
		w.line(calc.MethodFlowSpreadAtLimit, "/flowSpreadAtMaxDifference", a.FlowSpreadAtMaxDifference, mean, put("d", a.MaxDifference))
	}
	if a.CabOffset.given() {
		w.line(calc.MethodCabOffset, "/cabOffset", a.CabOffset, put("p_c", r.CabPressure), mean)
	}
	if wanted := a.CabPressureForTarget; wanted.IfHoseLoss.given() {
		w.line(calc.MethodCabIfHoseLoss, "/cabPressureForTarget/ifHoseLoss", wanted.IfHoseLoss, put("p_t", r.TargetPressure), put("p_c", r.CabPressure), mean)
		if wanted.IfGaugeError.given() {
			w.line(calc.MethodCabIfGaugeError, "/cabPressureForTarget/ifGaugeError", wanted.IfGaugeError, put("p_t", r.TargetPressure), put("c", a.CabOffset))
		}
	}
	r.workUncertainty(w, a)
}

func (r *PressureUniformityRequest) workUncertainty(w *working, a *PressureUniformityResponse) {
	u := a.Uncertainty
	if u == nil {
		return
	}
	for i := range a.Readings {
		w.uncertain(w.item("/readings", i, "/uncertainty/pressure"), &a.Readings[i].Uncertainty.Pressure)
	}
	w.uncertain("/uncertainty/mean", &u.Mean)
	w.uncertain("/uncertainty/spread", &u.Spread)
	w.uncertain("/uncertainty/flowSpread", &u.FlowSpread)
	w.uncertain("/uncertainty/cabOffset", &u.CabOffset)
	w.conforms("", &a.ConformanceResponse, a.Spread, &u.Spread, Quantity{}, a.MaxDifference)
	if a.MeanConformance != nil {
		w.conforms("/meanConformance", a.MeanConformance, a.Mean, &u.Mean, r.PressureRange.Low, r.PressureRange.High)
	}
}
