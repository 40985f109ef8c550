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

// TestPropertyBestOfEachKind: of a long shelf the best plan of each kind of change is kept,
// and then the best of all others, and the rest is counted. What there is of all is seen by
// asking for one nozzle of the shelf at a time, where nothing is left out.
func TestPropertyBestOfEachKind(t *testing.T) {
	leftOut := 0
	rapid.Check(t, func(t *rapid.T) {
		in := geared()
		in.Gears, in.Measured.Gear = nil, ""
		in.RateTolerance = unit.Ratio(rapid.Float64Range(0.02, 0.2).Draw(t, "tolerance"))
		in.Measured.ApplicationRate = unit.ApplicationRate(rapid.Float64Range(120, 320).Draw(t, "rate")) * unit.LitrePerHectare
		in.Nozzle = calc.LabeledNozzle{Label: "now", Nozzle: calc.Nozzle{Size: "03"}}
		for i := range rapid.IntRange(1, 12).Draw(t, "nozzles") {
			flow := unit.FlowRate(rapid.Float64Range(0.5, 3).Draw(t, "flow")) * unit.LitrePerMinute
			in.Nozzles = append(in.Nozzles, calc.LabeledNozzle{Label: fmt.Sprint(i), Nozzle: calc.Nozzle{RatedFlowRate: flow, RatedPressure: 3 * unit.Bar}})
		}
		cost := func(p calc.Plan) float64 {
			return p.Size + math.Abs(math.Log(float64(p.PredictedApplicationRate/in.TargetApplicationRate)))
		}
		var all []calc.Plan
		for i := range in.Nozzles {
			one := in
			one.Nozzles = in.Nozzles[i : i+1]
			part := mustCorrect(t, one)
			if part.PlansLeftOut > 0 {
				t.Fatalf("%d plans of one nozzle", len(part.Plans)+part.PlansLeftOut)
			}
			all = append(all, slices.DeleteFunc(part.Plans, func(p calc.Plan) bool { return p.Nozzle == 0 && i > 0 })...)
		}
		slices.SortFunc(all, func(a, b calc.Plan) int { return int(math.Copysign(1, cost(a)-cost(b))) })
		var firsts, others []float64
		known := map[calc.Changes]bool{}
		for _, p := range all {
			if known[p.Changes] {
				others = append(others, cost(p))
			} else {
				firsts = append(firsts, cost(p))
			}
			known[p.Changes] = true
		}
		want := append(firsts, others...)
		want = want[:min(len(want), calc.MostPlans)]
		slices.Sort(want)
		r := mustCorrect(t, in)
		if len(r.Plans) != len(want) || len(r.Plans)+r.PlansLeftOut != len(all) {
			t.Fatalf("%d plans and %d left out, of %d", len(r.Plans), r.PlansLeftOut, len(all))
		}
		for i, p := range r.Plans {
			agrees(t, "cost", cost(p), want[i], 1e-7)
		}
		leftOut += r.PlansLeftOut
	})
	if leftOut == 0 {
		t.Error("nothing was left out")
	}
}

// TestReferenceNearestRejected, by hand: none of twenty nozzles of 2.1 to 4 L/min at 3 bar,
// in the place of 1.2, comes to 200 of 230 at the only speed, pressure and engine speed that
// there are. Of those by nozzle alone the nearest, 230 x 2.1 / 1.2 = 402.5, is kept.
func TestReferenceNearestRejected(t *testing.T) {
	in := geared()
	in.Gears, in.Measured.Gear = nil, ""
	in.Limits.GroundSpeed = calc.SpeedRange{Low: 6 * unit.KilometrePerHour, High: 6 * unit.KilometrePerHour}
	in.Limits.SprayPressure = calc.PressureRange{Low: 3 * unit.Bar, High: 3 * unit.Bar}
	in.Nozzle = calc.LabeledNozzle{Label: "now", Nozzle: calc.Nozzle{Size: "03"}}
	for i := range 20 {
		flow := unit.FlowRate(4-0.1*float64(i)) * unit.LitrePerMinute
		in.Nozzles = append(in.Nozzles, calc.LabeledNozzle{Label: fmt.Sprint(i), Nozzle: calc.Nozzle{RatedFlowRate: flow, RatedPressure: 3 * unit.Bar}})
	}
	r := mustCorrect(t, in)
	if len(r.Plans) != 0 || len(r.Rejected) != calc.MostRejected || len(r.Rejected)+r.RejectedLeftOut != 3+3*20 {
		t.Fatalf("%d plans, %d rejected and %d left out", len(r.Plans), len(r.Rejected), r.RejectedLeftOut)
	}
	_, nearest := ofNozzle(r, 20, calc.ChangeNozzle)
	_, furthest := ofNozzle(r, 1, calc.ChangeNozzle)
	if nearest == nil || furthest != nil || rejected(r, 0, calc.ChangeSpeed) == nil {
		t.Fatalf("%+v", r.Rejected)
	}
	agrees(t, "rate", nearest.PredictedApplicationRate.In(unit.LitrePerHectare), 402.5, 1e-12)
}
