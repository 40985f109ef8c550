package calc_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"wetrun/calc"
	"wetrun/calc/unit"
)

// near is what rounding may leave behind.
const near = 1 + 1e-7

// outside tells whether x lies outside a range that is given.
func outside(x, low, high float64) bool {
	return low != 0 && x*near < low || high != 0 && x > high*near
}

// bench is a sprayer of its own, which plans are tried on. It knows nozzles, pump,
// gears and engine, and works out the rate from what flows and how fast it drives.
type bench struct{ in calc.CorrectionsInput }

// flow is what the boom gives, by the rating of its nozzles, at a pressure that is
// kept; with a pump that follows the engine it changes with the engine's speed.
func (b bench) flow(nozzle calc.LabeledNozzle, pressure, duty, engine float64) float64 {
	flow, rated, _ := nozzle.Rating()
	q := float64(flow)
	if pressure != 0 {
		q = float64(flow) * math.Exp(b.exponent()*math.Log(pressure/float64(rated)))
	}
	if duty != 0 {
		q *= duty
	}
	if p := b.in.Pump; p.Drive == calc.ShaftDrive && p.Regulation == calc.NoRegulation && engine != 0 {
		q *= engine / float64(b.in.Measured.EngineSpeed)
	}
	return q
}

func (b bench) exponent() float64 {
	if b.in.PressureExponent == 0 {
		return 0.5
	}
	return b.in.PressureExponent
}

// speedAt is the ground speed in a gear, counted from 1, or in the present one, 0.
func (b bench) speedAt(gear int, engine float64) float64 {
	if gear == 0 {
		return float64(b.in.Measured.GroundSpeed) * engine / float64(b.in.Measured.EngineSpeed)
	}
	g := b.in.Gears[gear-1]
	return float64(g.GroundSpeed) * engine / float64(g.EngineSpeed)
}

// try carries out a plan and reports the rate that comes of it, or what is wrong.
func (b bench) try(p calc.Plan) (rate float64, wrong string) {
	m := b.in.Measured
	speed, pressure, duty, engine := float64(m.GroundSpeed), float64(m.SprayPressure), float64(m.DutyCycle), float64(m.EngineSpeed)
	nozzle := b.in.Nozzle
	if p.Changes.Has(calc.ChangeNozzle) {
		nozzle = b.in.Nozzles[p.Nozzle-1]
	}
	if p.Changes.Has(calc.ChangePressure) {
		pressure = float64(p.SprayPressure)
	}
	if p.Changes.Has(calc.ChangeDutyCycle) {
		duty = float64(p.DutyCycle)
	}
	switch {
	case p.Changes.Has(calc.ChangeEngineSpeed) || p.Changes.Has(calc.ChangeGear):
		engine = float64(p.EngineSpeed)
		speed = b.speedAt(p.Gear, engine)
		if math.Abs(speed/float64(p.GroundSpeed)-1) > 1e-7 {
			return 0, fmt.Sprintf("drives at %v", speed)
		}
	case p.Changes.Has(calc.ChangeSpeed):
		speed = float64(p.GroundSpeed)
		if engine = b.engineFor(speed); engine < 0 {
			return 0, "no gear drives like that"
		}
	}
	rate = float64(m.ApplicationRate) * b.flow(nozzle, pressure, duty, engine) / b.flow(b.in.Nozzle, float64(m.SprayPressure), float64(m.DutyCycle), float64(m.EngineSpeed)) *
		float64(m.GroundSpeed) / speed
	return rate, b.unlawful(nozzle, speed, pressure, duty, engine)
}

// engineFor looks for a gear for a speed: the engine speed in it, 0 when that is
// left open, below 0 when there is none.
func (b bench) engineFor(speed float64) float64 {
	m := b.in.Measured
	follows := b.in.Pump.Drive == calc.ShaftDrive && b.in.Pump.Regulation == calc.NoRegulation
	if len(b.in.Gears) == 0 {
		if follows {
			return float64(m.EngineSpeed) // as the plan warns
		}
		return 0
	}
	for gear := range len(b.in.Gears) + 1 {
		e := speed / b.speedAt(gear, 1)
		if follows && math.Abs(e/float64(m.EngineSpeed)-1) > 1e-7 {
			continue
		}
		if !outside(e, float64(b.in.EngineSpeedLimits.Low), float64(b.in.EngineSpeedLimits.High)) && !outside(e, 0, float64(b.in.RatedShaft.EngineSpeed)) {
			return e
		}
	}
	return -1
}

// unlawful names what lies outside a limit.
func (b bench) unlawful(nozzle calc.LabeledNozzle, speed, pressure, duty, engine float64) string {
	in := b.in
	switch {
	case outside(speed, float64(in.Limits.GroundSpeed.Low), float64(in.Limits.GroundSpeed.High)):
		return "speed"
	case pressure != 0 && outside(pressure, float64(in.Limits.SprayPressure.Low), float64(in.Limits.SprayPressure.High)):
		return "pressure of the system"
	case pressure != 0 && outside(pressure, float64(nozzle.PressureRange.Low), float64(nozzle.PressureRange.High)):
		return "pressure of the nozzle"
	case duty != 0 && outside(duty, float64(in.DutyCycleLimits.Low), float64(in.DutyCycleLimits.High)):
		return "duty cycle"
	case engine != 0 && outside(engine, float64(in.EngineSpeedLimits.Low), float64(in.EngineSpeedLimits.High)):
		return "engine speed"
	case engine != 0 && outside(engine, 0, float64(in.RatedShaft.EngineSpeed)):
		return "rated shaft speed"
	}
	for _, row := range in.DropletChart {
		if row.Label == nozzle.Label && pressure > float64(row.PressureRange.Low)*near && pressure*near < float64(row.PressureRange.High) &&
			len(in.AllowedDropletClasses) > 0 && !slices.Contains(in.AllowedDropletClasses, row.DropletClass) {
			return "droplet class"
		}
	}
	return ""
}

// anySprayer draws a sprayer that is off its target.
func anySprayer(t *rapid.T) calc.CorrectionsInput {
	f := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
	often := func(name string) bool { return rapid.IntRange(0, 3).Draw(t, name) > 0 }
	pressures := func(name string) calc.PressureRange {
		low := f(name, 0.5e5, 3e5)
		return calc.PressureRange{Low: unit.Pressure(low), High: unit.Pressure(low * f(name+" width", 1, 6))}
	}
	nozzle := func(label string) calc.LabeledNozzle {
		n := calc.LabeledNozzle{Label: label}
		if rapid.Bool().Draw(t, "size") {
			n.Size, n.SizeRating = rapid.SampledFrom([]calc.SizeName{"015", "02", "03", "04", "06"}).Draw(t, "size"), rapid.SampledFrom([]calc.SizeRating{"", calc.ISO3Bar, calc.US40PSI}).Draw(t, "rating")
		} else {
			n.RatedFlowRate, n.RatedPressure = unit.FlowRate(f("flow", 0.4, 4))*unit.LitrePerMinute, unit.Pressure(f("rated", 2e5, 4e5))
		}
		if often("own range") {
			n.PressureRange = pressures("own")
		}
		return n
	}
	in := calc.CorrectionsInput{
		TargetApplicationRate: 200 * unit.LitrePerHectare,
		RateTolerance:         unit.Ratio(f("tolerance", 0.01, 0.2)),
		Measured: calc.MeasuredState{
			ApplicationRate: unit.ApplicationRate(f("rate", 80, 400)) * unit.LitrePerHectare,
			GroundSpeed:     unit.Speed(f("speed", 1, 5)), SprayPressure: unit.Pressure(f("pressure", 1e5, 5e5)),
		},
		Nozzle: nozzle("now"),
	}
	if often("exponent given") {
		in.PressureExponent = f("exponent", 0.3, 0.7)
	}
	if often("speed limits") {
		in.Limits.GroundSpeed = calc.SpeedRange{Low: unit.Speed(f("slowest", 0.5, 3)), High: unit.Speed(f("fastest", 3, 8))}
	}
	if often("pressure limits") {
		in.Limits.SprayPressure = pressures("system")
	}
	for i := range rapid.IntRange(0, 3).Draw(t, "nozzles") {
		in.Nozzles = append(in.Nozzles, nozzle(fmt.Sprint("shelf ", i)))
	}
	if often("engine") {
		engine := func(name string, low, high float64) unit.RotationalSpeed {
			return unit.RotationalSpeed(f(name, low, high)) * unit.RevolutionPerMinute
		}
		in.Measured.EngineSpeed = engine("engine", 1200, 2200)
		for i := range rapid.IntRange(0, 4).Draw(t, "gears") {
			in.Gears = append(in.Gears, calc.Gear{Label: fmt.Sprint(i), GroundSpeed: unit.Speed(f("in gear", 0.8, 6)), EngineSpeed: engine("known at", 1500, 2200)})
		}
		if often("engine limits") {
			in.EngineSpeedLimits = calc.EngineSpeedRange{Low: engine("lowest", 1000, 1500), High: engine("highest", 1500, 2500)}
		}
		if often("shaft") {
			in.RatedShaft.EngineSpeed = engine("rated shaft", 1400, 2300)
		}
	}
	if often("pump") {
		in.Pump = calc.Pump{
			Type: rapid.SampledFrom([]calc.PumpType{calc.PositiveDisplacement, calc.Centrifugal}).Draw(t, "type"), Drive: rapid.SampledFrom([]calc.PumpDrive{calc.ShaftDrive, calc.IndependentDrive}).Draw(t, "drive"),
			Regulation: rapid.SampledFrom([]calc.PumpRegulation{calc.ReliefValve, calc.NoRegulation}).Draw(t, "regulation"),
		}
	}
	if rapid.Bool().Draw(t, "pulsing") {
		in.Measured.DutyCycle = unit.Ratio(f("duty", 0.2, 1))
		in.DutyCycleLimits = calc.DutyCycleRange{Low: unit.Ratio(f("least open", 0.1, 0.5)), High: unit.Ratio(f("most open", 0.5, 1))}
	}
	if rapid.Bool().Draw(t, "label") {
		in.LabelMaximum = in.TargetApplicationRate * unit.ApplicationRate(f("maximum", 1, 1.2))
		in.LabelMinimum = in.TargetApplicationRate * unit.ApplicationRate(f("minimum", 0.8, 1))
		in.Guard = unit.Ratio(rapid.SampledFrom([]float64{0, 0.01, 0.05}).Draw(t, "guard"))
		in.SprayVolumeRange = calc.RateRange{
			Low:  in.TargetApplicationRate * unit.ApplicationRate(f("label low", 0.8, 1)),
			High: in.TargetApplicationRate * unit.ApplicationRate(f("label high", 1, 1.3)),
		}
		for _, n := range append([]calc.LabeledNozzle{in.Nozzle}, in.Nozzles...) {
			between := unit.Pressure(f("class changes", 1e5, 5e5))
			in.DropletChart = append(in.DropletChart,
				calc.DropletEntry{Label: n.Label, PressureRange: calc.PressureRange{Low: 1e5, High: between}, DropletClass: rapid.SampledFrom([]calc.DropletClass{calc.Coarse, calc.VeryCoarse, calc.ExtremelyCoarse, calc.UltraCoarse}).Draw(t, "coarser")},
				calc.DropletEntry{Label: n.Label, PressureRange: calc.PressureRange{Low: between, High: 5e5}, DropletClass: rapid.SampledFrom([]calc.DropletClass{calc.ExtremelyFine, calc.VeryFine, calc.Fine, calc.Medium, calc.Coarse}).Draw(t, "finer")})
		}
		in.AllowedDropletClasses = []calc.DropletClass{calc.Medium, calc.Coarse, calc.VeryCoarse, calc.UltraCoarse}
	}
	return in
}

// TestPropertyAnyPlanHolds: whatever the sprayer, any plan carried out on the bench
// lands on what it says, inside the tolerance and inside every limit; plans come
// least change first; what is said to miss the target does.
func TestPropertyAnyPlanHolds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := anySprayer(t)
		b, r := bench{in}, mustCorrect(t, in)
		last := 0.0
		for _, p := range r.Plans {
			rate, wrong := b.try(p)
			if wrong != "" {
				t.Fatalf("%s: %+v", wrong, p)
			}
			agrees(t, "prediction", float64(p.PredictedApplicationRate), rate, 1e-7)
			if off := rate/float64(in.TargetApplicationRate) - 1; math.Abs(off) > float64(in.RateTolerance)+1e-7 || math.Abs(off-float64(p.Deviation)) > 1e-7 {
				t.Fatalf("lands %v off: %+v", off, p)
			}
			if outside(rate, float64(in.SprayVolumeRange.Low), float64(in.SprayVolumeRange.High)) ||
				outside(rate, float64(in.LabelMinimum)*(1+float64(in.Guard)), float64(in.LabelMaximum)*(1-float64(in.Guard))) {
				t.Fatalf("not lawful: %+v", p)
			}
			cost := p.Size + math.Abs(math.Log(rate/float64(in.TargetApplicationRate)))
			if p.AtLimit && math.Abs(float64(p.Deviation)) > math.Abs(float64(r.Deviation))+1e-9 {
				cost += 1e6 // what leaves the rate worse than it is comes after the others
			}
			if cost < last-1e-8 {
				t.Fatalf("a smaller change comes later: %+v", r.Plans)
			}
			last = cost
		}
		for _, no := range r.Rejected {
			off := math.Max(math.Abs(float64(no.Deviation)), math.Abs(float64(no.DeviationAtLimit)))
			if no.Reason == calc.ReasonOutsideTolerance && off <= float64(in.RateTolerance) {
				t.Fatalf("rejected though within tolerance: %+v", no)
			}
		}
		if len(r.Plans) > calc.MostPlans || len(r.Rejected) > calc.MostRejected ||
			r.PlansLeftOut > 0 && len(r.Plans) < calc.MostPlans || r.RejectedLeftOut > 0 && len(r.Rejected) < calc.MostRejected {
			t.Fatalf("%d plans of %d more, %d rejected of %d more", len(r.Plans), r.PlansLeftOut, len(r.Rejected), r.RejectedLeftOut)
		}
	})
}
