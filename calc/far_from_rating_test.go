package calc_test

import (
	"strings"
	"testing"

	"wetrun/calc"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// TestReferenceFarFromRating: a flow rated at 40 psi is warned of beyond 80 and below 20, in
// every operation that moves it; the ratio is own judgement. 1000 psi is the most that is
// usual for pressure-uniformity, common practice, and so it is here.
func TestReferenceFarFromRating(t *testing.T) {
	const psi = unit.PoundPerSquareInch
	for at, want := range map[unit.Pressure]string{
		20: "", 40: "", 80: "", 19.9: "far", 80.1: "far", 400: "far", 1000: "far", 1001: "far unusual", 4.9: "far unusual",
	} {
		nozzle := gallonsAt40(0.3)
		chart := calc.Nozzle{FlowChart: []calc.FlowPoint{
			{Pressure: 1 * psi, FlowRate: 1e-6}, {Pressure: 40 * psi, FlowRate: 6e-6}, {Pressure: 2000 * psi, FlowRate: 4e-5},
		}}
		forEach := func(n calc.Nozzle) map[string][]finding.Warning {
			catches := caught(30*unit.Second, 1, 1)
			pump, err := calc.PumpDemand(calc.PumpDemandInput{Nozzles: 10, Nozzle: n, SprayPressure: at * psi})
			if err != nil {
				t.Fatal(err)
			}
			wear := wearOf([]float64{0, 100, 200}, []float64{1000, 1020, 1040})
			wear.Nozzle, wear.NewFlowRate, wear.SprayPressure = n, 0, at*psi
			return map[string][]finding.Warning{
				"acceptance": mustAccept(t, calc.NozzleAcceptanceInput{Nozzle: n, SprayPressure: at * psi, Catches: catches}).Warnings,
				"rate": mustApplicationRate(t, calc.ApplicationRateInput{
					Nozzle: n, SprayPressure: at * psi, GroundSpeed: 5 * unit.MilePerHour, SprayedWidthPerNozzle: 20 * unit.Inch,
				}).Warnings,
				"pump": pump.Warnings, "wear": mustWearForecast(t, wear).Warnings,
			}
		}
		for operation, warnings := range forEach(nozzle) {
			var got []string
			if strings.Contains(warned(warnings), "sprayPressure: far_from_rating") {
				got = append(got, "far")
			}
			if strings.Contains(warned(warnings), "sprayPressure: unusual_pressure") {
				got = append(got, "unusual")
			}
			expected := want
			if operation == "pump" || operation == "wear" { // they leave what is unusual to the others
				expected = strings.TrimSuffix(want, " unusual")
			}
			if strings.Join(got, " ") != expected {
				t.Errorf("%s at %v psi: %q, want %q", operation, float64(at), got, expected)
			}
		}
		for operation, warnings := range forEach(chart) {
			if strings.Contains(warned(warnings), "far_from_rating") {
				t.Errorf("%s at %v psi: a chart is far from nothing", operation, float64(at))
			}
		}
	}
}

// TestReferenceFarCatch: catches brought to 3 bar, or where there is no common pressure to
// the lowest of theirs, from more than twice of it.
func TestReferenceFarCatch(t *testing.T) {
	in := litreRated(0.1, 1, 1)
	in.Nozzle.RatedPressure = 4 * unit.Bar
	for bar, want := range map[unit.Pressure]string{6: "", 6.1: "catches[1].sprayPressure: far_pressure", 1.5: "", 1.4: "catches[1].sprayPressure: far_from_rating; catches[1].sprayPressure: far_pressure"} {
		in.SprayPressure, in.Catches[1].SprayPressure = 3*unit.Bar, bar*unit.Bar
		if got := warned(mustAccept(t, in).Warnings); !strings.HasPrefix(got, want) && want != "" || want == "" && strings.Contains(got, "far_pressure") {
			t.Errorf("%v bar: warned of %q", bar, got)
		}
	}
	in.SprayPressure, in.Catches[0].SprayPressure, in.Catches[1].SprayPressure = 0, 2.2*unit.Bar, 5*unit.Bar
	if got := warned(mustAccept(t, in).Warnings); got != "catches[1].sprayPressure: far_pressure" {
		t.Errorf("without a common one: warned of %q", got)
	}
}
