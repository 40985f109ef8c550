package calc_test

import (
	"math"
	"strings"
	"testing"

	"wetrun/calc"
	"wetrun/calc/unit"
)

// TestReferenceExponent fits catches whose logarithms are simple: with ln 4 = 2
// ln 2 every slope below is a fraction.
func TestReferenceExponent(t *testing.T) {
	type catch struct{ bar, litres float64 } // one nozzle, one minute
	for _, c := range []struct {
		name     string
		catches  []catch
		exponent float64
		fitted   bool
		at, want float64 // bar, L/min
		warnings string
	}{
		// ln 2 / ln 4 = 0.5; 1 x sqrt(2.25) = 1.5
		{"square root", []catch{{1, 1}, {4, 2}}, 0.5, true, 2.25, 1.5, "catches: mixed_pressures"},
		// ln 4 / ln 4 = 1, the last that is plausible; 1 x 2 = 2
		{"straight", []catch{{1, 1}, {4, 4}}, 1, true, 2, 2, "catches: mixed_pressures; catches: exponent_unusual"},
		// ln 8 / ln 4 = 1.5. By the square root: (1 + 8 / sqrt 4) / 2 = 2.5 at 1 bar, 5 at 4
		{"steeper than straight", []catch{{1, 1}, {4, 8}}, 0.5, false, 4, 5, "catches: mixed_pressures; catches: exponent_implausible"},
		// falling: ln(1/2) / ln 4 = -0.5. By the square root: (2 + 1/2) / 2 = 1.25 at 1 bar
		{"falling", []catch{{1, 2}, {4, 1}}, 0.5, false, 1, 1.25, "catches: mixed_pressures; catches: exponent_implausible"},
		// x = -L, 0, L with L = ln 4, y = 0, ln 2, ln 2:
		// slope = L ln 2 / (2 L^2) = ln 2 / (2 ln 4) = 1/4. Moved to 1 bar:
		// (1 + 2 / 4^0.25 + 2 / 16^0.25) / 3 = (1 + sqrt 2 + 1) / 3; at 16 bar twice that
		{"least squares of three", []catch{{1, 1}, {4, 2}, {16, 2}}, 0.25, true, 16, 2.276142, "catches: mixed_pressures; catches: exponent_unusual"},
		// 3 / 2 = 1.5 is enough; (3/2)^0.5 = sqrt 6 / 2 = 2.44948974278 / 2 = 1.22474487139
		{"ratio of 1.5", []catch{{2, 1}, {3, 1.22474487139}}, 0.5, true, 8.0 / 3, 1.154701, "catches: mixed_pressures"},
		// 2.99 / 2 is not: a half, although ln 1.4 / ln 1.495 = 0.837 lies in the catches;
		// 1.2227^2 = 1.49499529, 0.00000471 short of 1.495: sqrt 1.495 = 1.2227 + 0.00000471 / 2.4454
		// = 1.22270193; 1.4 / 1.22270193 = 1.14500515; (1 + 1.14500515) / 2 = 1.07250257
		{"ratio below 1.5", []catch{{2, 1}, {2.99, 1.4}}, 0.5, false, 2, 1.07250257, "catches: mixed_pressures"},
		// q^0.4: 32^0.4 = 4, the lowest that is usual, and q^0.6: 32^0.6 = 8, the highest
		{"lowest usual", []catch{{1, 1}, {32, 4}}, 0.4, true, 32, 4, "catches: mixed_pressures"},
		{"highest usual", []catch{{1, 1}, {32, 8}}, 0.6, true, 32, 8, "catches: mixed_pressures"},
		// 1024^0.1 = 2, the lowest that is plausible
		{"lowest plausible", []catch{{1, 1}, {1024, 2}}, 0.1, true, 1, 1, "catches: mixed_pressures; catches: exponent_unusual"},
	} {
		in := calc.NozzleFlowInput{PredictAt: []calc.Prediction{{SprayPressure: unit.Pressure(c.at) * unit.Bar}}}
		for _, x := range c.catches {
			in.Catches = append(in.Catches, minuteCatch(unit.FlowRate(x.litres)*unit.LitrePerMinute, unit.Pressure(x.bar)*unit.Bar))
		}
		r := mustNozzleFlow(t, in)
		agrees(t, c.name+": exponent", r.Exponent, c.exponent, 1e-9)
		if r.ExponentFitted != c.fitted {
			t.Errorf("%s: fitted is %v", c.name, r.ExponentFitted)
		}
		agrees(t, c.name+": predicted", r.Predicted[0].In(unit.LitrePerMinute), c.want, 1e-6)
		if w := warned(r.Warnings); w != c.warnings {
			t.Errorf("%s: warned of %q, want %q", c.name, w, c.warnings)
		}
	}
}

// TestReferenceFitSkipsUnknownPressure: the exponent is that of the catches whose
// pressure is known, ln 2 / ln 4; the third, unlike them, only joins the mean.
func TestReferenceFitSkipsUnknownPressure(t *testing.T) {
	r := mustNozzleFlow(t, calc.NozzleFlowInput{
		Catches: []calc.Catch{
			minuteCatch(1*unit.LitrePerMinute, 1*unit.Bar),
			minuteCatch(9*unit.LitrePerMinute, 0),
			minuteCatch(2*unit.LitrePerMinute, 4*unit.Bar),
		},
		PredictAt: []calc.Prediction{{RelativeDensity: 4}},
	})
	agrees(t, "exponent", r.Exponent, 0.5, 1e-12)
	// (1 + 9 + 2) / 3 = 4, / sqrt 4 = 2
	agrees(t, "predicted", r.Predicted[0].In(unit.LitrePerMinute), 2, 1e-12)
}

// TestReferenceNozzleFlowWarnings stands on both sides of each limit: a limit
// itself is not warned of, whatever unit it is written in.
func TestReferenceNozzleFlowWarnings(t *testing.T) {
	psi, bar := unit.PoundPerSquareInch, unit.Bar
	catch := func(seconds float64, p unit.Pressure) calc.Catch {
		return calc.Catch{Volume: unit.Litre, Time: unit.Time(seconds), SprayPressure: p}
	}
	at := func(p unit.Pressure) []calc.Prediction { return []calc.Prediction{{SprayPressure: p}} }
	for _, c := range []struct {
		in   calc.NozzleFlowInput
		want string
	}{
		{calc.NozzleFlowInput{Catches: []calc.Catch{catch(20, 0)}}, ""},
		{calc.NozzleFlowInput{Catches: []calc.Catch{catch(1.0/3*60, 0)}}, ""},
		{calc.NozzleFlowInput{Catches: []calc.Catch{catch(0.33333333333*60, 0)}}, ""},
		{calc.NozzleFlowInput{Catches: []calc.Catch{catch(30, 0), catch(19.9, 0)}}, "catches[1].time: short_catch"},

		{calc.NozzleFlowInput{Catches: []calc.Catch{catch(30, 40*psi), catch(30, 275.790291727*unit.Kilopascal)}}, ""},
		{calc.NozzleFlowInput{Catches: []calc.Catch{catch(30, 40*psi), catch(30, 41*psi)}}, "catches: mixed_pressures"},
		{calc.NozzleFlowInput{Catches: []calc.Catch{catch(30, 0), catch(30, 41*psi)}, SprayPressure: 40 * psi}, "catches: mixed_pressures"},
		{calc.NozzleFlowInput{Catches: []calc.Catch{catch(30, 0), catch(30, 0)}, SprayPressure: 40 * psi}, ""},

		{calc.NozzleFlowInput{Catches: []calc.Catch{catch(30, 3*bar)}, PredictAt: at(1.5 * bar)}, ""},
		{calc.NozzleFlowInput{Catches: []calc.Catch{catch(30, 3*bar)}, PredictAt: at(1.49 * bar)}, "predictAt[0].sprayPressure: far_prediction"},
		{calc.NozzleFlowInput{Catches: []calc.Catch{catch(30, 3*bar)}, PredictAt: at(6 * bar)}, ""},
		{calc.NozzleFlowInput{Catches: []calc.Catch{catch(30, 3*bar)}, PredictAt: at(6.01 * bar)}, "predictAt[0].sprayPressure: far_prediction"},
		// From the nearest of two: 7.9 is within twice 4, and 6.4 is anyway.
		{calc.NozzleFlowInput{Catches: []calc.Catch{catch(30, 3*bar), catch(30, 4*bar)}, PredictAt: at(7.9 * bar)}, "catches: mixed_pressures"},
	} {
		if got := warned(mustNozzleFlow(t, c.in).Warnings); got != c.want {
			t.Errorf("%+v: warned of %q, want %q", c.in, got, c.want)
		}
	}
}

// TestReferenceExponentBounds: two catches from 1 to 4 bar have exactly the exponent
// that their flows are made with. 0.4 to 0.6 is usual and 0.1 to 1 is believed, by
// judgement, no published source.
func TestReferenceExponentBounds(t *testing.T) {
	for exponent, want := range map[float64]string{
		0.42: "", 0.58: "", 0.38: "exponent_unusual", 0.62: "exponent_unusual", 0.97: "exponent_unusual", 0.11: "exponent_unusual",
		0.09: "exponent_implausible", 1.03: "exponent_implausible",
	} {
		q := unit.FlowRate(math.Pow(4, exponent)) * unit.LitrePerMinute
		r := mustNozzleFlow(t, calc.NozzleFlowInput{Catches: []calc.Catch{minuteCatch(unit.LitrePerMinute, unit.Bar), minuteCatch(q, 4*unit.Bar)}})
		if want == "exponent_implausible" {
			exponent = 0.5
		}
		agrees(t, "exponent", r.Exponent, exponent, 1e-12)
		if got := warned(r.Warnings); (want == "") == strings.Contains(got, "exponent") || !strings.Contains(got, want) {
			t.Errorf("exponent %v: warned of %q, want %q", exponent, got, want)
		}
	}
}

// TestReferenceExponentOfKnownPressures, by hand: 1 L/min at 1 bar and 4 at 32 make an
// exponent of ln 4 / ln 32 = 0.4, whatever a third gave at a pressure that nobody read.
func TestReferenceExponentOfKnownPressures(t *testing.T) {
	r := mustNozzleFlow(t, calc.NozzleFlowInput{Catches: []calc.Catch{
		minuteCatch(1*unit.LitrePerMinute, 1*unit.Bar), minuteCatch(7*unit.LitrePerMinute, 0), minuteCatch(4*unit.LitrePerMinute, 32*unit.Bar),
	}})
	agrees(t, "exponent", r.Exponent, 0.4, 1e-12)
	if !r.ExponentFitted {
		t.Error("not fitted")
	}
}
