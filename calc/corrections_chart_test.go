package calc_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"wetrun/calc"
	"wetrun/calc/unit"
)

// charted has nozzles of sheet at 8 bar, where they give 1.6 L/min, and with them
// 160 L/ha: each L/min of the chart is 100 L/ha.
func charted(target unit.ApplicationRate) calc.CorrectionsInput {
	return calc.CorrectionsInput{
		Measured: calc.MeasuredState{
			ApplicationRate: 160 * unit.LitrePerHectare, GroundSpeed: 6 * unit.KilometrePerHour, SprayPressure: 8 * unit.Bar,
		},
		TargetApplicationRate: target * unit.LitrePerHectare, BoomEven: calc.BoomEven,
		Limits: calc.CorrectionLimits{
			GroundSpeed:   calc.SpeedRange{Low: 5 * unit.KilometrePerHour, High: 7 * unit.KilometrePerHour},
			SprayPressure: calc.PressureRange{Low: 0.4 * unit.Bar, High: 20 * unit.Bar},
		},
		Nozzle: calc.LabeledNozzle{Label: "chart", Nozzle: sheet()},
	}
}

// TestReferencePressureByChart, worked by hand on the chart of 0.8 at 2, 1.25 at 4.5 and
// 1.6 L/min at 8 bar: 80 and 125 L/ha are at its points; 1 L/min is the geometric mean of
// 0.8 and 1.25, so 100 L/ha is at that of 2 and 4.5 bar, 3. Beyond its ends the
// square-root law: half of 0.8 at 2 / 4 bar, and 2 L/min at 8 (2 / 1.6)^2 = 12.5.
func TestReferencePressureByChart(t *testing.T) {
	for target, bar := range map[unit.ApplicationRate]float64{80: 2, 100: 3, 125: 4.5, 40: 0.5, 200: 12.5} {
		in := charted(target)
		plan, _ := ofNozzle(mustCorrect(t, in), 0, calc.ChangePressure)
		if plan == nil {
			t.Fatalf("%v: no plan by pressure", target)
		}
		agrees(t, "pressure", plan.SprayPressure.In(unit.Bar), bar, 1e-12)
		agrees(t, "rate", plan.PredictedApplicationRate.In(unit.LitrePerHectare), float64(target), 1e-12)
		if got, outside := warned(plan.Warnings), target < 80 || target > 160; outside != (got == "dropletChart: droplet_class_unknown; nozzle.flowChart: outside_flow_chart") {
			t.Errorf("%v: warned of %q", target, got)
		}
	}
	// An exponent that catches of this very nozzle gave goes before the maker's chart:
	// 8 (100 / 160)^2 = 3.125.
	in := charted(100)
	in.PressureExponent = 0.5
	plan, _ := ofNozzle(mustCorrect(t, in), 0, calc.ChangePressure)
	agrees(t, "pressure by exponent", plan.SprayPressure.In(unit.Bar), 3.125, 1e-12)
	// A limit of 2 bar stops 70 L/ha at the 80 of the chart there, 80 / 70 - 1 over.
	in = charted(70)
	in.Limits.SprayPressure.Low = 2 * unit.Bar
	_, no := ofNozzle(mustCorrect(t, in), 0, calc.ChangePressure)
	agrees(t, "rate at the limit", no.ApplicationRateAtLimit.In(unit.LitrePerHectare), 80, 1e-12)
	agrees(t, "off at the limit", no.DeviationAtLimit.In(unit.Percent), 100.0/7, 1e-9)
	agrees(t, "needed", no.NeededPressure.In(unit.Bar), 2*0.875*0.875, 1e-12)
	// At 18 bar the chart says nothing of what was measured: 1.6 x 1.5 = 2.4 L/min there,
	// and two thirds of it are the 1.6 of 8 bar.
	in = charted(160.0 * 2 / 3)
	in.Measured.SprayPressure = 18 * unit.Bar
	r := mustCorrect(t, in)
	plan, _ = ofNozzle(r, 0, calc.ChangePressure)
	agrees(t, "pressure from outside", plan.SprayPressure.In(unit.Bar), 8, 1e-12)
	if warned(r.Warnings) != "nozzle.flowChart: outside_flow_chart" {
		t.Errorf("warned of %v", r.Warnings)
	}
}

// TestReferencePressureByChartOnTheShelf, by hand: in place of a nozzle that gives 0.8 L/min
// at 4.5 bar, and 80 L/ha, the chart gives 1.25 and 125 there, and 100 L/ha at 3 bar. The
// other way round a nozzle of 0.8 L/min at 2 bar takes the place of the chart: 80 L/ha are
// at 2 bar, whatever the exponent of it.
func TestReferencePressureByChartOnTheShelf(t *testing.T) {
	rated := func(litres unit.FlowRate, bar unit.Pressure) calc.Nozzle {
		return calc.Nozzle{RatedFlowRate: litres * unit.LitrePerMinute, RatedPressure: bar * unit.Bar}
	}
	in := charted(100)
	in.Measured.ApplicationRate, in.Measured.SprayPressure = 80*unit.LitrePerHectare, 4.5*unit.Bar
	in.Nozzle.Nozzle = rated(0.8, 4.5)
	in.Nozzles = []calc.LabeledNozzle{{Label: "other", Nozzle: sheet()}}
	r := mustCorrect(t, in)
	_, no := ofNozzle(r, 1, calc.ChangeNozzle)
	agrees(t, "rate as it is", no.PredictedApplicationRate.In(unit.LitrePerHectare), 125, 1e-12)
	plan, _ := ofNozzle(r, 1, calc.ChangeNozzle, calc.ChangePressure)
	agrees(t, "pressure of the other", plan.SprayPressure.In(unit.Bar), 3, 1e-12)

	in.TargetApplicationRate = 200 * unit.LitrePerHectare // 2 L/min, at 12.5 bar beyond the chart
	in.Nozzles = append([]calc.LabeledNozzle{{Label: "small", Nozzle: rated(0.1, 4.5)}}, in.Nozzles...)
	plan, _ = ofNozzle(mustCorrect(t, in), 2, calc.ChangeNozzle, calc.ChangePressure)
	if plan == nil || !strings.Contains(warned(plan.Warnings), "nozzles[1].flowChart: "+calc.WarnOutsideFlowChart) {
		t.Errorf("%+v", plan)
	}

	for _, exponent := range []float64{0, 0.6} {
		in = charted(80)
		in.PressureExponent = exponent
		in.Nozzles = []calc.LabeledNozzle{{Label: "other", Nozzle: rated(0.8, 2)}}
		plan, _ = ofNozzle(mustCorrect(t, in), 1, calc.ChangeNozzle, calc.ChangePressure)
		agrees(t, "pressure of the rated one", plan.SprayPressure.In(unit.Bar), 2, 1e-12)
	}
}

// TestReferencePressureByChartOfASheet: the sheet of 8 bar and 1.6 L/min over half a metre
// at 6 km/h puts on 1.6 x 600 / (6 x 0.5) = 320 L/ha; 200 are at the 1 L/min of 3 bar.
func TestReferencePressureByChartOfASheet(t *testing.T) {
	run := calc.Run{CourseLength: 100 * unit.Metre, Time: 60 * unit.Second}
	r, err := calc.FieldSheet(calc.FieldSheetInput{
		Nozzle:  sheet(),
		Machine: calc.Machine{SprayedWidthPerNozzle: 0.5 * unit.Metre},
		Output:  calc.SheetOutput{SprayPressure: 8 * unit.Bar, Catches: caught(60*unit.Second, 1.6*unit.Litre, 1.6*unit.Litre), CatchPointsOnBoom: 2},
		Speed:   calc.GroundSpeedInput{Runs: []calc.Run{run, run}},
		Target:  calc.SheetTarget{ApplicationRate: 200 * unit.LitrePerHectare},
		Limits:  calc.CorrectionLimits{SprayPressure: calc.PressureRange{Low: 1 * unit.Bar, High: 10 * unit.Bar}},
	})
	if err != nil || r.Correction == nil {
		t.Fatal(err, r)
	}
	plan, _ := ofNozzle(*r.Correction, 0, calc.ChangePressure)
	agrees(t, "pressure", plan.SprayPressure.In(unit.Bar), 3, 1e-12)
}

// TestReferenceChartThatFalls: 1 L/min at 1 and at 4 bar, 2 at 2: 1.5 is reached twice, by
// the powers through the points at 1.5 bar and at 4 / 1.5; 2 is at its own point.
func TestReferenceChartThatFalls(t *testing.T) {
	line := func(bar unit.Pressure, litres unit.FlowRate) calc.FlowPoint {
		return calc.FlowPoint{Pressure: bar * unit.Bar, FlowRate: litres * unit.LitrePerMinute}
	}
	n := calc.Nozzle{FlowChart: []calc.FlowPoint{line(1, 1), line(2, 2), line(4, 1), line(8, 1)}}
	for _, c := range []struct {
		litres unit.FlowRate
		near   unit.Pressure
		bar    float64
		above  int
	}{{1.5, 1, 1.5, 1}, {1.5, 3, 4 / 1.5, 2}, {4, 2, 128, 4}, {0.5, 4, 0.25, 0}, {1, 3, 4, 2}, {1, 1.2, 1, 1}, {1, 9, 8, 4}, {2, 2, 2, 1}} {
		p, above := n.ChartPressure(c.litres*unit.LitrePerMinute, c.near*unit.Bar)
		agrees(t, "pressure", p.In(unit.Bar), c.bar, 1e-12)
		if above != c.above {
			t.Errorf("%v near %v: under the point %d, want %d", c.litres, c.near, above, c.above)
		}
	}
}

// TestChartPressureInverts: whatever the chart, the nozzle has the flow at the pressure
// found, and where its flow rises no other pressure does.
func TestChartPressureInverts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var n calc.Nozzle
		p, q, rises := 1e5, 1e-5, rapid.Bool().Draw(t, "rises")
		for range rapid.IntRange(2, 6).Draw(t, "points") {
			p *= rapid.Float64Range(1.1, 3).Draw(t, "pressure")
			if rises {
				q *= rapid.Float64Range(1.01, 2).Draw(t, "more")
			} else {
				q = rapid.Float64Range(1e-6, 1e-4).Draw(t, "flow")
			}
			n.FlowChart = append(n.FlowChart, calc.FlowPoint{Pressure: unit.Pressure(p), FlowRate: unit.FlowRate(q)})
		}
		at := unit.Pressure(rapid.Float64Range(5e4, 5e6).Draw(t, "at"))
		near := unit.Pressure(rapid.Float64Range(5e4, 5e6).Draw(t, "near"))
		wanted := n.FlowAt(at)
		found, _ := n.ChartPressure(wanted, near)
		if off := float64(n.FlowAt(found)/wanted) - 1; math.Abs(off) > 1e-9 {
			t.Errorf("the flow of %v is off by %v", found, off)
		}
		if off := float64(found/at) - 1; rises && math.Abs(off) > 1e-9 {
			t.Errorf("found %v, want %v", found, at)
		}
	})
}
