package calc_test

import (
	"testing"

	"wetrun/calc"
	"wetrun/calc/certainty"
	"wetrun/calc/unit"
)

// twoSlopes is a chart in which flow goes with the power 0.6 of pressure from 1 to 2 bar
// and 0.4 from 2 to 4: 2^0.6 = 1.5157166, times 2^0.4 = 1.3195079 is 2.
func twoSlopes() calc.Nozzle {
	return calc.Nozzle{FlowChart: []calc.FlowPoint{
		{Pressure: 1 * unit.Bar, FlowRate: 1 * unit.LitrePerMinute}, {Pressure: 2 * unit.Bar, FlowRate: 1.5157165665 * unit.LitrePerMinute},
		{Pressure: 4 * unit.Bar, FlowRate: 2 * unit.LitrePerMinute},
	}}
}

// TestReferenceChartUncertainty, by hand: what a chart says follows the gauge's scale, off
// by up to 3 %, by the power of the span that the pressure is in, a half outside the
// chart, and at a point of it by that of the span below.
func TestReferenceChartUncertainty(t *testing.T) {
	for bar, power := range map[unit.Pressure]float64{0.8: 0.5, 1.5: 0.6, 2: 0.6, 3: 0.4, 4: 0.4, 5: 0.5} {
		in := calc.NozzleAcceptanceInput{
			Nozzle: twoSlopes(), SprayPressure: bar * unit.Bar, Tolerance: calc.OutputTolerance{Basis: calc.RatedBasis},
			Catches:   []calc.AcceptanceCatch{{Catch: calc.Catch{Volume: 1.5e-3, Time: 60}}},
			Measuring: certainty.Measuring{Uncertainty: true, Instruments: []certainty.Instrument{exact("g", certainty.Gauge, 0.03)}},
		}
		r := must(calc.NozzleAcceptance(in))
		got := r.Uncertainty.Catches[0].DeviationFromRated.Budget[certainty.SourceGaugeScale].Standard
		agrees(t, "power", got/(0.03/1.7320508), power, 1e-6)
	}
}

// TestReferenceMovedDrop, by hand: a drop of one nozzle rated 1 L/min at 3 bar and two of
// the chart gives sqrt(2/3) + 2 x 1.5157166 = 3.8479297 at 2 bar and sqrt(4/3) + 2 x 2 =
// 5.1547005 at 4. A catch of 3 L in a minute at 2 bar is 3 x 5.1547005 / 3.8479297 =
// 4.0188108 L/min at 4 bar, a third of it from each.
func TestReferenceMovedDrop(t *testing.T) {
	like := calc.Nozzle{RatedFlowRate: 1 * unit.LitrePerMinute, RatedPressure: 3 * unit.Bar}
	at := func(bar unit.Pressure) calc.NozzleAcceptanceResult {
		return must(calc.NozzleAcceptance(calc.NozzleAcceptanceInput{
			Nozzle: like, SprayPressure: 4 * unit.Bar, Tolerance: calc.OutputTolerance{Basis: calc.RatedBasis},
			Catches: []calc.AcceptanceCatch{
				{Catch: calc.Catch{Volume: 3e-3, Time: 60, SprayPressure: bar * unit.Bar}, NozzlesOnDrop: []calc.DropNozzle{{Nozzle: like, Count: 1}, {Nozzle: twoSlopes(), Count: 2}}},
				{Catch: calc.Catch{Volume: 1.2e-3, Time: 60, SprayPressure: 4 * unit.Bar}},
			},
		}))
	}
	agrees(t, "moved", at(2).Catches[0].NozzleFlowRateAtPressure.In(unit.LitrePerMinute), 4.0188108/3, 1e-7)
	agrees(t, "where it is", at(4).Catches[0].NozzleFlowRateAtPressure.In(unit.LitrePerMinute), 1, 1e-12)
	agrees(t, "from rated", float64(at(2).Catches[0].DeviationFromRated), 3/3.8479297-1, 1e-6)
}
