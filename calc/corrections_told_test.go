package calc_test

import (
	"fmt"
	"strings"
	"testing"

	"wetrun/calc"
	"wetrun/calc/unit"
)

// TestReferenceWhatIsChangedIsTold, by hand: of 114 for 100 the speed is changed by 14 %, and
// nothing else is told of the plan. A rejected change tells what it needs, the limit in its
// way, and no other value.
func TestReferenceWhatIsChangedIsTold(t *testing.T) {
	p, _ := ofNozzle(mustCorrect(t, tooMuch()), 0, calc.ChangeSpeed)
	agrees(t, "change of speed", float64(p.RelativeChange), 0.14, 1e-12)
	if p.SprayPressure != 0 || p.EngineSpeed != 0 || p.DutyCycle != 0 || p.Changes.Has(calc.ChangeCombined) {
		t.Errorf("got %+v", p)
	}
	r := mustCorrect(t, geared())
	agrees(t, "change of speed by B3", float64(planned(r, 3, calc.ChangeGear).RelativeChange), 7.2/6-1, 1e-12)
	no := rejected(r, 1, calc.ChangeGear)
	if no.SprayPressure != 0 || no.DutyCycle != 0 || no.EngineSpeed != 0 {
		t.Errorf("got %+v", no)
	}
	agrees(t, "speed in B1", no.GroundSpeed.In(unit.KilometrePerHour), 5, 1e-12)
	// In the present gear 2070 rpm are 6.9 km/h. The shaft stops it at 1850, no speed does.
	in := geared()
	in.Gears, in.Measured.Gear = nil, ""
	in.RatedShaft.EngineSpeed = 1850 * unit.RevolutionPerMinute
	no = rejected(mustCorrect(t, in), 0, calc.ChangeEngineSpeed)
	agrees(t, "speed needed", no.NeededGroundSpeed.In(unit.KilometrePerHour), 6.9, 1e-12)
	if no.SpeedLimit != 0 || no.GroundSpeed != 0 || no.EngineSpeed != 0 || no.PressureLimit != 0 {
		t.Errorf("got %+v", no)
	}
}

// TestReferenceWarnsOfTheEngine: the rated shaft speed is missed where a shaft drives the pump
// and the engine speed is known. A plan by speed leaves the engine open and asks for no margin
// of the pump.
func TestReferenceWarnsOfTheEngine(t *testing.T) {
	for _, c := range []struct {
		engine unit.RotationalSpeed
		drive  calc.PumpDrive
		want   bool
	}{
		{1800 * unit.RevolutionPerMinute, calc.ShaftDrive, true},
		{1800 * unit.RevolutionPerMinute, calc.IndependentDrive, false},
		{0, calc.ShaftDrive, false},
	} {
		in := tooMuch()
		in.Measured.EngineSpeed, in.Pump = c.engine, calc.Pump{Type: calc.Centrifugal, Drive: c.drive, Regulation: calc.ReliefValve}
		r := mustCorrect(t, in)
		if got := strings.Contains(warned(r.Warnings), calc.WarnRatedShaftNotGiven); got != c.want {
			t.Errorf("%+v: warned of %q", c, warned(r.Warnings))
		}
		if p, _ := ofNozzle(r, 0, calc.ChangeSpeed); p.Warnings != nil {
			t.Errorf("%+v: warned of %q", c, warned(p.Warnings))
		}
	}
}

// TestReferenceWarnsOutsideTheChart: the chart of 2 to 8 bar says nothing of 18, and a plan by
// speed says so no second time. Where the pressure is not known, or the exponent comes from
// catches, nothing hangs on the chart.
func TestReferenceWarnsOutsideTheChart(t *testing.T) {
	for _, c := range []struct {
		bar      unit.Pressure
		exponent float64
		want     string
	}{{18, 0, "nozzle.flowChart: outside_flow_chart"}, {18, 0.5, ""}, {0, 0, ""}, {8, 0, ""}} {
		in := charted(140)
		in.Measured.SprayPressure, in.PressureExponent = c.bar*unit.Bar, c.exponent
		r := mustCorrect(t, in)
		if got := warned(r.Warnings); got != c.want {
			t.Errorf("%v bar, exponent %v: warned of %q", c.bar, c.exponent, got)
		}
		if p, _ := ofNozzle(r, 0, calc.ChangeSpeed); p == nil || p.Warnings != nil {
			t.Errorf("%v bar: got %+v", c.bar, p)
		}
	}
}

// TestReferenceStoppedShortIsNotLess, by hand: 210 of 200, outside 4 %, asks for 6.3 km/h. At
// most 6.1 leave 210 x 6 / 6.1 = 206.557: changed by ln 6.1/6 and off by ln 206.557/200, in
// all ln 1.05, as much as a duty cycle of 80 / 1.05 %, which leaves nothing and goes first.
func TestReferenceStoppedShortIsNotLess(t *testing.T) {
	in := tooMuch()
	in.Measured = calc.MeasuredState{
		ApplicationRate: 210 * unit.LitrePerHectare, GroundSpeed: 6 * unit.KilometrePerHour, SprayPressure: 3 * unit.Bar, DutyCycle: 80 * unit.Percent,
	}
	in.TargetApplicationRate, in.RateTolerance = 200*unit.LitrePerHectare, 4*unit.Percent
	in.Limits.GroundSpeed = calc.SpeedRange{Low: 4 * unit.KilometrePerHour, High: 6.1 * unit.KilometrePerHour}
	in.Limits.SprayPressure = calc.PressureRange{Low: 1 * unit.Bar, High: 6 * unit.Bar}
	in.DutyCycleLimits = calc.DutyCycleRange{Low: 40 * unit.Percent, High: 1}
	r := mustCorrect(t, in)
	if len(r.Plans) < 2 || r.Plans[0].Change != calc.ChangeDutyCycle || r.Plans[1].Change != calc.ChangeSpeed || !r.Plans[1].AtLimit {
		t.Fatalf("got %+v", r.Plans)
	}
	agrees(t, "rate at the limit", r.Plans[1].PredictedApplicationRate.In(unit.LitrePerHectare), 210*6/6.1, 1e-12)
}

// TestReferenceWorseGoesLast, by hand: the rate is right, but 10 km/h are too fast by 3 %. At
// 9.7 alone it is 200 x 10 / 9.7 = 206.2, which is worse than it was and goes last, though
// 3 (9.7 / 10)^2 = 2.8227 bar beside it are more of a change.
func TestReferenceWorseGoesLast(t *testing.T) {
	in := tooMuch()
	in.Measured = calc.MeasuredState{ApplicationRate: 200 * unit.LitrePerHectare, GroundSpeed: 10 * unit.KilometrePerHour, SprayPressure: 3 * unit.Bar}
	in.TargetApplicationRate, in.RateTolerance = 200*unit.LitrePerHectare, 5*unit.Percent
	in.Limits.GroundSpeed = calc.SpeedRange{Low: 4 * unit.KilometrePerHour, High: 9.7 * unit.KilometrePerHour}
	in.Limits.SprayPressure = calc.PressureRange{Low: 1 * unit.Bar, High: 6 * unit.Bar}
	r := mustCorrect(t, in)
	if len(r.Plans) != 2 || r.Plans[0].Change != calc.ChangeCombined || r.Plans[1].Change != calc.ChangeSpeed {
		t.Fatalf("got %+v", r.Plans)
	}
	agrees(t, "pressure", r.Plans[0].SprayPressure.In(unit.Bar), 2.8227, 1e-12)
	agrees(t, "rate at the limit", r.Plans[1].PredictedApplicationRate.In(unit.LitrePerHectare), 200*10/9.7, 1e-12)
}

// TestReferenceUnknownIsFurthest: of twelve gears that are all far too fast it is known what
// they come to, of fifteen nozzles without a pressure it is not. There is room for twenty, and
// the gears go first.
func TestReferenceUnknownIsFurthest(t *testing.T) {
	in := geared()
	in.Pump, in.Measured.Gear, in.Measured.SprayPressure, in.Gears = calc.Pump{}, "", 0, nil
	in.Nozzle = calc.LabeledNozzle{Label: "now", Nozzle: calc.Nozzle{Size: "03"}}
	for i := range 12 {
		in.Gears = append(in.Gears, calc.Gear{Label: fmt.Sprint(i), GroundSpeed: unit.Speed(20+i) * unit.KilometrePerHour, EngineSpeed: 1800 * unit.RevolutionPerMinute})
	}
	for i := range 15 {
		flow := (0.2 + 0.05*unit.FlowRate(i)) * unit.LitrePerMinute
		in.Nozzles = append(in.Nozzles, calc.LabeledNozzle{Label: fmt.Sprint(i), Nozzle: calc.Nozzle{RatedFlowRate: flow, RatedPressure: 3 * unit.Bar}})
	}
	r := mustCorrect(t, in)
	if len(r.Rejected) != calc.MostRejected || r.RejectedLeftOut == 0 {
		t.Fatalf("%d rejected and %d left out", len(r.Rejected), r.RejectedLeftOut)
	}
	for gear := 1; gear <= 12; gear++ {
		if rejected(r, gear, calc.ChangeGear) == nil {
			t.Errorf("gear %d is left out", gear)
		}
	}
}
