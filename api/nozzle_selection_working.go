package api

import (
	"wetrun/calc"
	"wetrun/calc/method"
	"wetrun/calc/unit"
)

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

func (r *NozzleSelectionRequest) work(w working, x *calc.NozzleSelectionResult, a *NozzleSelectionAnswer) {
	units := r.units()
	if !r.SpeedRange.IsZero() {
		w.line(method.MiddleSpeed, "/groundSpeed", a.GroundSpeed).with("v_l", r.SpeedRange.Low).with("v_h", r.SpeedRange.High)
	}
	if r.Width.given() {
		w.line(method.WidthPerNozzle, "/sprayedWidthPerNozzle", a.SprayedWidthPerNozzle).with("W", r.Width).count("n", r.Nozzles)
	}
	rd := w.density(r.RelativeDensity, r.LiquidDensity)
	// needs adds the flow that a speed asks for, and returns that of water.
	needs := func(member, waterMember string, flow, speed Quantity) Quantity {
		w.line(method.NozzleFlowForRate, member, flow).with("R", r.TargetApplicationRate).with("v", speed).with("w", a.SprayedWidthPerNozzle)
		if !rd.given() {
			return flow
		}
		water := in(calc.WaterEquivalent(unit.FlowRate(flow.si()), unit.Ratio(rd.si())), units.flow)
		w.line(method.WaterEquivalentFlow, waterMember, water).with("q", flow).with("s", rd)
		return water
	}
	middle := needs("/requiredNozzleFlowRate", "/waterEquivalentFlowRate", a.RequiredNozzleFlowRate, a.GroundSpeed)
	var low, high Quantity
	if !r.SpeedRange.IsZero() {
		low = needs("/requiredNozzleFlowRates/low", "", a.RequiredNozzleFlowRates.Low, r.SpeedRange.Low)
		high = needs("/requiredNozzleFlowRates/high", "", a.RequiredNozzleFlowRates.High, r.SpeedRange.High)
	}
	if a.TotalFlowRate.given() {
		w.line(method.TotalFlow, "/totalFlowRate", a.TotalFlowRate).count("n", r.Nozzles).with("q", a.RequiredNozzleFlowRate)
	}
	for i := range a.Candidates {
		c, w := &a.Candidates[i], w.item("/candidates", i)
		pressure := func(member string, result, flow Quantity) {
			w.line(method.PressureForFlow, member, result).with("p_0", c.RatedPressure).with("q", flow).with("q_0", c.RatedFlowRate)
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
			w.line(method.RangeLow, "/pressureRange/low", c.PressureRange.Low).both("p_i", r.PressureRange.Low, own.Low)
			w.line(method.RangeHigh, "/pressureRange/high", c.PressureRange.High).both("p_i", r.PressureRange.High, own.High)
		}
		w.line(method.SpeedAtPressure, "/speedWindow/low", c.SpeedWindow.Low).
			with("v_0", a.GroundSpeed).with("p", c.PressureRange.Low).with("p_0", c.SprayPressure)
		w.line(method.SpeedAtPressure, "/speedWindow/high", c.SpeedWindow.High).
			with("v_0", a.GroundSpeed).with("p", c.PressureRange.High).with("p_0", c.SprayPressure)
	}
	if a.WouldFit != nil {
		if end := r.wouldFitEnd(x); end.given() {
			w.conversion("/wouldFit/sprayPressure", a.WouldFit.SprayPressure, end)
		}
	}
}
