package operation

import (
	"wetrun/api/wire"
	"wetrun/api/working"
	"wetrun/calc"
	"wetrun/calc/method"
	"wetrun/calc/unit"
)

func (r *NozzleSelectionRequest) work(w working.Working, x *calc.NozzleSelectionResult, a *NozzleSelectionAnswer) {
	units := r.units()
	if !r.SpeedRange.IsZero() {
		w.Line(method.MiddleSpeed, "/groundSpeed", a.GroundSpeed).With("v_l", r.SpeedRange.Low).With("v_h", r.SpeedRange.High)
	}
	if r.Width.Given() {
		w.Line(method.WidthPerNozzle, "/sprayedWidthPerNozzle", a.SprayedWidthPerNozzle).With("W", r.Width).Count("n", r.Nozzles)
	}
	rd := w.Density(r.RelativeDensity, r.LiquidDensity)
	// needs adds the flow that a speed asks for, and returns that of water.
	needs := func(member, waterMember string, flow, speed wire.Quantity) wire.Quantity {
		w.Line(method.NozzleFlowForRate, member, flow).With("R", r.TargetApplicationRate).With("v", speed).With("w", a.SprayedWidthPerNozzle)
		if !rd.Given() {
			return flow
		}
		water := wire.In(calc.WaterEquivalent(unit.FlowRate(flow.SI()), unit.Ratio(rd.SI())), units.flow)
		w.Line(method.WaterEquivalentFlow, waterMember, water).With("q", flow).With("s", rd)
		return water
	}
	middle := needs("/requiredNozzleFlowRate", "/waterEquivalentFlowRate", a.RequiredNozzleFlowRate, a.GroundSpeed)
	var low, high wire.Quantity
	if !r.SpeedRange.IsZero() {
		low = needs("/requiredNozzleFlowRates/low", "", a.RequiredNozzleFlowRates.Low, r.SpeedRange.Low)
		high = needs("/requiredNozzleFlowRates/high", "", a.RequiredNozzleFlowRates.High, r.SpeedRange.High)
	}
	if a.TotalFlowRate.Given() {
		w.Line(method.TotalFlow, "/totalFlowRate", a.TotalFlowRate).Count("n", r.Nozzles).With("q", a.RequiredNozzleFlowRate)
	}
	for i := range a.Candidates {
		c, w := &a.Candidates[i], w.Item("/candidates", i)
		pressure := func(member string, result, flow wire.Quantity) {
			w.Line(method.PressureForFlow, member, result).With("p_0", c.RatedPressure).With("q", flow).With("q_0", c.RatedFlowRate)
		}
		pressure("/sprayPressure", c.SprayPressure, middle)
		if c.SprayPressures.Low.Given() {
			pressure("/sprayPressures/low", c.SprayPressures.Low, low)
			pressure("/sprayPressures/high", c.SprayPressures.High, high)
		}
		if !c.PressureRange.Low.Given() {
			continue
		}
		if y := &x.Candidates[i]; y.PressureRange != pressureRange(r.PressureRange) {
			own := r.Shelf[y.Shelf].PressureRange
			w.Line(method.RangeLow, "/pressureRange/low", c.PressureRange.Low).Both("p_i", r.PressureRange.Low, own.Low)
			w.Line(method.RangeHigh, "/pressureRange/high", c.PressureRange.High).Both("p_i", r.PressureRange.High, own.High)
		}
		w.Line(method.SpeedAtPressure, "/speedWindow/low", c.SpeedWindow.Low).
			With("v_0", a.GroundSpeed).With("p", c.PressureRange.Low).With("p_0", c.SprayPressure)
		w.Line(method.SpeedAtPressure, "/speedWindow/high", c.SpeedWindow.High).
			With("v_0", a.GroundSpeed).With("p", c.PressureRange.High).With("p_0", c.SprayPressure)
	}
	if a.WouldFit != nil {
		if end := r.wouldFitEnd(x); end.Given() {
			w.Conversion("/wouldFit/sprayPressure", a.WouldFit.SprayPressure, end)
		}
	}
}

// wouldFitEnd is the end of the common range at which the nearest nozzle would work;
// none where its own range narrows it.
func (r *NozzleSelectionRequest) wouldFitEnd(x *calc.NozzleSelectionResult) wire.Quantity {
	switch {
	case x.Candidates[0].PressureRange != pressureRange(r.PressureRange):
		return wire.Quantity{}
	case float64(x.WouldFit.SprayPressure) == r.PressureRange.Low.SI():
		return r.PressureRange.Low
	}
	return r.PressureRange.High
}
