package calc_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"wetrun/calc"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

var pressureUnits = []unit.Pressure{unit.PoundPerSquareInch, unit.Bar, unit.Kilopascal}

// TestReferencePressureWarnings: what is unusual is named where it stands.
func TestReferencePressureWarnings(t *testing.T) {
	psi := unit.PoundPerSquareInch
	low, high := 30*psi, 60*psi
	for _, c := range []struct {
		what string
		in   calc.PressureUniformityInput
		even finding.Verdict
		want string
	}{
		{"one", calc.PressureUniformityInput{Readings: readingsOf(psi, 40)}, finding.NotJudged, "readings: single_reading"},
		{"two", calc.PressureUniformityInput{Readings: readingsOf(psi, 40, 51)}, finding.Outside, "readings: few_readings"},
		// 10 of a mean of 100 psi are 10 %, 10 of 99.9 are more; so are 10 psi of 28.5.
		{"a tenth", calc.PressureUniformityInput{Readings: readingsOf(psi, 95, 100, 105)}, finding.Within, ""},
		{"more than a tenth", calc.PressureUniformityInput{Readings: readingsOf(psi, 95, 99.7, 105)}, finding.Within, "readings: pressure_share_wide"},
		{"usual", calc.PressureUniformityInput{Readings: readingsOf(psi, 22.73, 30, 32.73)}, finding.Within, "readings: pressure_share_wide"},
		// The roots of 36 / 25 and of 36.1 / 25: 20 % and a little more, twice the tolerance of nozzles.
		{"alike enough", calc.PressureUniformityInput{Readings: readingsOf(psi, 25, 30, 36), MaxDifference: 11.1 * psi}, finding.Within, "readings: pressure_share_wide"},
		{"even, but not in flow", calc.PressureUniformityInput{Readings: readingsOf(psi, 25, 30, 36.1), MaxDifference: 11.1 * psi}, finding.Within, "readings: flow_spread_wide; readings: pressure_share_wide"},
		{"uneven", calc.PressureUniformityInput{Readings: readingsOf(psi, 25, 30, 36.2), MaxDifference: 11.1 * psi}, finding.Outside, ""},
		{"strong", calc.PressureUniformityInput{Readings: readingsOf(psi, 1000, 1000, 1001)}, finding.Within, "readings[2]: unusual_pressure"},
		{
			"faint", calc.PressureUniformityInput{Readings: readingsOf(psi, 4.9, 5, 5), CabPressure: 4.9 * psi, TargetPressure: 4.9 * psi},
			finding.Within, "readings[0]: unusual_pressure; cabPressure: unusual_pressure; targetPressure: unusual_pressure",
		},
		{
			"range", calc.PressureUniformityInput{
				Readings: readingsOf(psi, 29, 30, 31, 60), MaxDifference: 40 * psi,
				TargetPressure: 61 * psi, PressureRange: calc.PressureRange{Low: low, High: high},
			},
			finding.Within, "readings: flow_spread_wide; readings: pressure_share_wide; readings[0]: pressure_outside_nozzle_range; targetPressure: pressure_outside_nozzle_range",
		},
	} {
		r := mustPressureUniformity(t, c.in)
		if w := warned(r.Warnings); w != c.want || r.Even != c.even {
			t.Errorf("%s: even %v, warned of %q, want %v, %q", c.what, r.Even, w, c.even, c.want)
		}
	}
}

// TestReferenceReadingsInRange: the mean of 29, 60 and 31 psi is 40, inside 30 to
// 60 psi although 29 is not.
func TestReferenceReadingsInRange(t *testing.T) {
	psi := unit.PoundPerSquareInch
	in := calc.PressureUniformityInput{Readings: readingsOf(psi, 29, 60, 31)}
	r := mustPressureUniformity(t, in)
	if r.ReadingInRange != nil || r.MeanInRange != finding.NotJudged {
		t.Errorf("judged without a range: %v, mean %v", r.ReadingInRange, r.MeanInRange)
	}
	in.PressureRange = calc.PressureRange{Low: 30 * psi, High: 60 * psi}
	r = mustPressureUniformity(t, in)
	want := []finding.Verdict{finding.Outside, finding.Within, finding.Within}
	for i, v := range r.ReadingInRange {
		if v != want[i] {
			t.Errorf("reading %d: %v, want %v", i, v, want[i])
		}
	}
	if len(r.ReadingInRange) != len(want) || r.MeanInRange != finding.Within {
		t.Errorf("%d readings judged, mean %v", len(r.ReadingInRange), r.MeanInRange)
	}
}

// TestPropertySpreadOnItsLimit: readings apart by exactly the limit are even, in
// every unit, and so is a cab gauge off by exactly a tenth; a millionth more is
// not.
func TestPropertySpreadOnItsLimit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		u, other := rapid.SampledFrom(pressureUnits).Draw(t, "unit"), rapid.SampledFrom(pressureUnits).Draw(t, "other")
		low := float64(rapid.IntRange(1, 3000).Draw(t, "low")) / 10
		apart := float64(rapid.IntRange(1, 300).Draw(t, "apart")) / 10
		in := calc.PressureUniformityInput{
			Readings: readingsOf(u, low, low+apart),
			// Through another unit and back, as a conversion would leave it.
			MaxDifference: unit.Pressure((unit.Pressure(apart) * u).In(other)) * other,
		}
		r, _ := calc.PressureUniformity(in)
		if r.Even != finding.Within {
			t.Fatalf("%v and %v: even %v", low, low+apart, r.Even)
		}
		in.CabPressure = r.Mean * 1.1
		if r, _ = calc.PressureUniformity(in); r.CabDiffers != finding.Within {
			t.Fatalf("cab at 1.1 of the mean: %v", r.CabDiffers)
		}
		in.CabPressure *= 1 + 1e-6
		in.MaxDifference *= 1 - 1e-6
		if r, _ = calc.PressureUniformity(in); r.CabDiffers != finding.Outside || r.Even != finding.Outside {
			t.Fatalf("beyond the limits: cab %v, even %v", r.CabDiffers, r.Even)
		}
	})
}

// TestPropertyPressureUniformity: neither the order of the readings nor their unit
// changes what they say; the mean lies among them; both readings of the cab are
// the cab's own where the target is the mean; the flow spread is the flow law's.
func TestPropertyPressureUniformity(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		psi := rapid.SliceOfN(rapid.Float64Range(5, 300), 1, 8).Draw(t, "psi")
		scale := rapid.Float64Range(0.01, 100).Draw(t, "scale")
		in := calc.PressureUniformityInput{Readings: readingsOf(unit.PoundPerSquareInch, psi...), MaxDifference: unit.Bar, CabPressure: 3 * unit.Bar}
		in.TargetPressure = mustPressureUniformity(t, in).Mean
		r := mustPressureUniformity(t, in)
		const close = 1e-12
		if r.Mean < r.Lowest*(1-close) || r.Mean > r.Highest*(1+close) {
			t.Fatalf("mean %v not in %v to %v", r.Mean, r.Lowest, r.Highest)
		}
		agrees(t, "cab, gauge error", float64(r.CabIfGaugeError), float64(in.CabPressure), 1e-9)
		agrees(t, "cab, hose loss", float64(r.CabIfHoseLoss), float64(in.CabPressure), close)
		more := calc.FlowAtPressure(unit.LitrePerMinute, r.Lowest, r.Highest, calc.SquareRoot)
		agrees(t, "flow spread", 1+float64(r.FlowSpread), more.In(unit.LitrePerMinute), 1e-9)

		other := in
		other.Readings = make([]unit.Pressure, len(psi))
		for i, p := range in.Readings {
			other.Readings[len(psi)-1-i] = p * unit.Pressure(scale)
		}
		other.MaxDifference *= unit.Pressure(scale)
		other.CabPressure *= unit.Pressure(scale)
		s := mustPressureUniformity(t, other)
		agrees(t, "mean", float64(s.Mean), float64(r.Mean)*scale, close)
		agrees(t, "flow at the limit", float64(s.FlowAtMaxDifference), float64(r.FlowAtMaxDifference), 1e-9)
		if d := math.Abs(float64(r.FlowSpread - s.FlowSpread)); d > 1e-9 || s.Even != r.Even || s.CabDiffers != r.CabDiffers {
			t.Fatalf("flow spread apart by %v; even %v and %v, cab %v and %v", d, r.Even, s.Even, r.CabDiffers, s.CabDiffers)
		}
	})
}

func TestPressureUniformityRefuses(t *testing.T) {
	bar := unit.Bar
	for _, c := range []struct {
		in   calc.PressureUniformityInput
		want string
	}{
		{calc.PressureUniformityInput{}, "readings: too_few"},
		{
			calc.PressureUniformityInput{Readings: []unit.Pressure{bar, 0, -bar, unit.Pressure(math.NaN())}},
			"readings[1]: required; readings[2]: not_positive; readings[3]: not_finite",
		},
		{
			calc.PressureUniformityInput{
				Readings: []unit.Pressure{bar}, MaxDifference: -bar, CabPressure: -bar, TargetPressure: unit.Pressure(math.Inf(1)),
				PressureRange: calc.PressureRange{Low: 2 * bar, High: bar},
			},
			"maxDifference: not_positive; cabPressure: not_positive; targetPressure: not_finite; pressureRange.low: range_inverted",
		},
	} {
		if _, err := calc.PressureUniformity(c.in); refusal(err) != c.want {
			t.Errorf("refused with %q, want %q", refusal(err), c.want)
		}
	}
}
