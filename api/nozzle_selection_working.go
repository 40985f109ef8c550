package api

import (
	"strconv"

	"wetrun/calc"
	"wetrun/calc/method"
	"wetrun/calc/unit"
)

func (r *NozzleSelectionRequest) methods(x *calc.NozzleSelectionResult) methodSet {
	s := methodsOf(method.NozzleFlowForRate, method.PressureForFlow)
	s.addIf(!r.SpeedRange.IsZero(), method.MiddleSpeed)
	s.addIf(r.Width.given(), method.WidthPerNozzle)
	s.addIf(r.LiquidDensity.given(), method.RelativeDensity)
	s.addIf(x.WaterEquivalentFlowRate != 0, method.WaterEquivalentFlow)
	s.addIf(x.TotalFlowRate != 0, method.TotalFlow)
	for i := range x.Candidates {
		c := &x.Candidates[i].PressureRange
		s.addIf(*c != (calc.PressureRange{}), method.SpeedAtPressure)
		s.addIf(*c != (calc.PressureRange{}) && *c != pressureRange(r.PressureRange), method.RangeLow, method.RangeHigh)
	}
	if x.WouldFit != nil {
		end := r.wouldFitEnd(x)
		s.addIf(end.given() && end.Unit != r.units().pressure, method.UnitConversion)
	}
	return s
}

// wouldFitEnd is the end of the common range at which the nearest nozzle would work;
// none where its own range narrows it.
func (r *NozzleSelectionRequest) wouldFitEnd(x *calc.NozzleSelectionResult) Quantity {
	switch {
	case x.Candidates[0].PressureRange != pressureRange(r.PressureRange):
		return Quantity{}
	case float64(x.WouldFit.SprayPressure) == r.PressureRange.Low.si():
		return r.PressureRange.Low
	}
	return r.PressureRange.High
}

func (r *NozzleSelectionRequest) work(w *working, x *calc.NozzleSelectionResult, a *NozzleSelectionResponse) {
	units := r.units()
	if !r.SpeedRange.IsZero() {
		w.line(method.MiddleSpeed, "/groundSpeed", a.GroundSpeed, put("v_l", r.SpeedRange.Low), put("v_h", r.SpeedRange.High))
	}
	if r.Width.given() {
		w.line(method.WidthPerNozzle, "/sprayedWidthPerNozzle", a.SprayedWidthPerNozzle, put("W", r.Width), putNumber("n", r.Nozzles))
	}
	rd := w.workDensity(r.RelativeDensity, r.LiquidDensity)
	// needs adds the flow that a speed asks for, and returns that of water.
	needs := func(member, waterMember string, flow, speed Quantity) Quantity {
		w.line(method.NozzleFlowForRate, member, flow, put("R", r.TargetApplicationRate), put("v", speed), put("w", a.SprayedWidthPerNozzle))
		if !rd.given() {
			return flow
		}
		water := in(calc.WaterEquivalent(unit.FlowRate(flow.si()), unit.Ratio(rd.si())), units.flow)
		w.line(method.WaterEquivalentFlow, waterMember, water, put("q", flow), put("s", rd))
		return water
	}
	middle := needs("/requiredNozzleFlowRate", "/waterEquivalentFlowRate", a.RequiredNozzleFlowRate, a.GroundSpeed)
	var low, high Quantity
	if !r.SpeedRange.IsZero() {
		low = needs("/requiredNozzleFlowRates/low", "", a.RequiredNozzleFlowRates.Low, r.SpeedRange.Low)
		high = needs("/requiredNozzleFlowRates/high", "", a.RequiredNozzleFlowRates.High, r.SpeedRange.High)
	}
	if a.TotalFlowRate.given() {
		w.line(method.TotalFlow, "/totalFlowRate", a.TotalFlowRate, putNumber("n", r.Nozzles), put("q", a.RequiredNozzleFlowRate))
	}
	for i := range a.Candidates {
		c, at := &a.Candidates[i], "/candidates/"+strconv.Itoa(i)
		pressure := func(member string, result, flow Quantity) {
			w.line(method.PressureForFlow, at+member, result, put("p_0", c.RatedPressure), put("q", flow), put("q_0", c.RatedFlowRate))
		}
		pressure("/sprayPressure", c.SprayPressure, middle)
		if c.SprayPressures.Low.given() {
			pressure("/sprayPressures/low", c.SprayPressures.Low, low)
			pressure("/sprayPressures/high", c.SprayPressures.High, high)
		}
		if !c.PressureRange.Low.given() {
			continue
		}
		if y := &x.Candidates[i]; y.PressureRange != pressureRange(r.PressureRange) {
			own := r.Shelf[y.Shelf].PressureRange
			w.line(method.RangeLow, at+"/pressureRange/low", c.PressureRange.Low, putEach("p_i", []Quantity{r.PressureRange.Low, own.Low}))
			w.line(method.RangeHigh, at+"/pressureRange/high", c.PressureRange.High, putEach("p_i", []Quantity{r.PressureRange.High, own.High}))
		}
		speed, known := put("v_0", a.GroundSpeed), put("p_0", c.SprayPressure)
		w.line(method.SpeedAtPressure, at+"/speedWindow/low", c.SpeedWindow.Low, speed, put("p", c.PressureRange.Low), known)
		w.line(method.SpeedAtPressure, at+"/speedWindow/high", c.SpeedWindow.High, speed, put("p", c.PressureRange.High), known)
	}
	if a.WouldFit != nil {
		if end := r.wouldFitEnd(x); end.given() {
			w.workConversion("/wouldFit/sprayPressure", a.WouldFit.SprayPressure, end)
		}
	}
}
