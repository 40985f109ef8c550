package calc_test

import (
	"testing"

	"wetrun/calc"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

func TestReferenceApplicationRate(t *testing.T) {
	r := mustApplicationRate(t, calc.ApplicationRateInput{
		NozzleFlowRate: 0.24 * unit.USGallonPerMinute, GroundSpeed: 3 * unit.MilePerHour,
		Width: 40 * unit.Inch, Nozzles: 9, RowSpacing: 64 * unit.Inch,
		TargetApplicationRate: 100 * unit.USGallonPerAcre, RateBasis: calc.RateBasisTreated, RateTolerance: 10 * unit.Percent,
	})
	// hand-checked reference: value from exact unit definitions
	agrees(t, "rate", r.ApplicationRate.In(unit.USGallonPerAcre), 106.92, 1e-5)
	agrees(t, "width per nozzle", r.SprayedWidthPerNozzle.In(unit.Inch), 4.44444, 1e-5)
	agrees(t, "field rate", r.FieldApplicationRate.In(unit.USGallonPerAcre), 66.825, 1e-5)
	agrees(t, "deviation", r.Deviation.In(unit.Percent), 6.92, 1e-5)
	if r.Verdict != finding.Within || r.SolvedFor != calc.SolvedApplicationRate || r.LabelVerdict != finding.NotJudged {
		t.Errorf("verdict %v, solved for %v, label %v", r.Verdict, r.SolvedFor, r.LabelVerdict)
	}
	agrees(t, "width", r.Width.In(unit.Inch), 40, 1e-15)
	if r.WaterEquivalentFlowRate != 0 || r.Warnings != nil {
		t.Errorf("not asked for: %v, %v", r.WaterEquivalentFlowRate, r.Warnings)
	}
}

func TestReferenceApplicationRateFlow(t *testing.T) {
	r := mustApplicationRate(t, calc.ApplicationRateInput{
		ApplicationRate: 200 * unit.LitrePerHectare, GroundSpeed: 8 * unit.KilometrePerHour, SprayedWidthPerNozzle: 50 * unit.Centimetre,
	})
	// hand-checked reference: value from exact unit definitions
	agrees(t, "flow", r.NozzleFlowRate.In(unit.LitrePerMinute), 1.33333, 1e-5)
	if r.SolvedFor != calc.SolvedNozzleFlowRate || r.Verdict != finding.NotJudged || r.RateTolerance != 0 || r.Width != 0 {
		t.Errorf("solved for %v, verdict %v, tolerance %v, width %v", r.SolvedFor, r.Verdict, r.RateTolerance, r.Width)
	}
}

// TestReferenceWidthFromNozzles: 1 L/min at 6 km/h and 200 L/ha is 600 x 1 / (6 x
// 200) = 0.5 m per nozzle, and 12 of them are 6 m. On beds 8 m apart that is
// 200 x 6/8 = 150 L/ha of field.
func TestReferenceWidthFromNozzles(t *testing.T) {
	r := mustApplicationRate(t, calc.ApplicationRateInput{
		NozzleFlowRate: 1 * unit.LitrePerMinute, GroundSpeed: 6 * unit.KilometrePerHour, ApplicationRate: 200 * unit.LitrePerHectare,
		Nozzles: 12, RowSpacing: 8,
	})
	agrees(t, "width per nozzle", float64(r.SprayedWidthPerNozzle), 0.5, 1e-14)
	agrees(t, "width", float64(r.Width), 6, 1e-14)
	agrees(t, "field rate", r.FieldApplicationRate.In(unit.LitrePerHectare), 150, 1e-14)
	if r.SolvedFor != calc.SolvedSprayedWidthPerNozzle {
		t.Errorf("solved for %v", r.SolvedFor)
	}
}

// TestReferenceNozzleOfALiquid: 0.8 L/min at 3 bar is 0.4 at a quarter of it; a
// liquid of 1.5625 = 1.25^2 flows 0.4 / 1.25 = 0.32; 600 x 0.32 / (6 x 0.5) = 64
// L/ha.
func TestReferenceNozzleOfALiquid(t *testing.T) {
	in := calc.ApplicationRateInput{
		Nozzle:        calc.Nozzle{RatedFlowRate: 0.8 * unit.LitrePerMinute, RatedPressure: 3 * unit.Bar},
		SprayPressure: 0.75 * unit.Bar, GroundSpeed: 6 * unit.KilometrePerHour, SprayedWidthPerNozzle: 0.5, RelativeDensity: 1.5625,
	}
	other := in
	other.RelativeDensity, other.LiquidDensity = 0, 1562.5*unit.KilogramPerCubicMetre
	// The flow of the liquid itself, given as such, gives the same water.
	third := calc.ApplicationRateInput{
		NozzleFlowRate: 0.32 * unit.LitrePerMinute, GroundSpeed: in.GroundSpeed, SprayedWidthPerNozzle: 0.5, RelativeDensity: 1.5625,
	}
	for _, in := range []calc.ApplicationRateInput{in, other, third} {
		r := mustApplicationRate(t, in)
		agrees(t, "flow", r.NozzleFlowRate.In(unit.LitrePerMinute), 0.32, 1e-14)
		agrees(t, "rate", r.ApplicationRate.In(unit.LitrePerHectare), 64, 1e-14)
		agrees(t, "water", r.WaterEquivalentFlowRate.In(unit.LitrePerMinute), 0.4, 1e-14)
	}
}

// TestReferenceRateVerdicts: 1 L/min at 6 km/h on 0.5 m is 200 L/ha; two nozzles
// on beds 2 m apart make 100 L/ha of field. A limit itself is inside.
func TestReferenceRateVerdicts(t *testing.T) {
	rate := func(lha float64) unit.ApplicationRate { return unit.ApplicationRate(lha) * unit.LitrePerHectare }
	for _, c := range []struct {
		basis         calc.RateBasis
		target        float64 // L/ha
		tolerance     unit.Ratio
		label         float64 // L/ha
		deviation     float64 // %
		verdict, over finding.Verdict
	}{
		{calc.RateBasisTreated, 200, 0, 200, 0, finding.Within, finding.Within},
		{calc.RateBasisTreated, 160, 0.25, 199.9, 25, finding.Within, finding.Outside},
		{calc.RateBasisTreated, 160, 0.2499, 200.1, 25, finding.Outside, finding.Within},
		{calc.RateBasisTreated, 250, 0, 0, -20, finding.Outside, finding.NotJudged},
		{calc.RateBasisField, 100, 0, 100, 0, finding.Within, finding.Within},
		{calc.RateBasisField, 80, 0.25, 99.9, 25, finding.Within, finding.Outside},
		{calc.RateBasisField, 200, 0.2, 200, -50, finding.Outside, finding.Within},
		{calc.RateBasisTreated, 0, 0, 150, 0, finding.NotJudged, finding.Outside},
		{calc.RateBasisField, 0, 0, 150, 0, finding.NotJudged, finding.Within},
	} {
		r := mustApplicationRate(t, calc.ApplicationRateInput{
			NozzleFlowRate: 1 * unit.LitrePerMinute, GroundSpeed: 6 * unit.KilometrePerHour, SprayedWidthPerNozzle: 0.5, Nozzles: 2,
			RowSpacing: 2, RateBasis: c.basis, TargetApplicationRate: rate(c.target), RateTolerance: c.tolerance, LabelMaximum: rate(c.label),
		})
		agrees(t, "deviation", r.Deviation.In(unit.Percent), c.deviation, 1e-12)
		if r.Verdict != c.verdict || r.LabelVerdict != c.over {
			t.Errorf("%+v: verdict %v, label %v", c, r.Verdict, r.LabelVerdict)
		}
		applied := c.tolerance
		switch {
		case c.target == 0:
			applied = 0
		case applied == 0:
			applied = 10 * unit.Percent // common practice, no published source
		}
		if r.RateTolerance != applied {
			t.Errorf("%+v: tolerance %v applied, want %v", c, r.RateTolerance, applied)
		}
	}
}

// TestReferenceApplicationRateWarnings stands on both sides of each limit; a limit
// itself is not warned of.
func TestReferenceApplicationRateWarnings(t *testing.T) {
	mph, lha := unit.MilePerHour, unit.LitrePerHectare
	// What flows at a rate and a speed on half a metre.
	at := func(rate unit.ApplicationRate, v unit.Speed) calc.ApplicationRateInput {
		return calc.ApplicationRateInput{
			NozzleFlowRate: unit.FlowRate(float64(rate) * float64(v) * 0.5), GroundSpeed: v, SprayedWidthPerNozzle: 0.5,
		}
	}
	solvingSpeed := at(100*lha, 25*mph)
	solvingSpeed.ApplicationRate, solvingSpeed.GroundSpeed = 100*lha, 0
	givenRate := at(5000*lha, 5*mph)
	givenRate.ApplicationRate, givenRate.NozzleFlowRate = 5000*lha, 0
	rows := func(spacing unit.Length) calc.ApplicationRateInput {
		in := at(100*lha, 5*mph)
		in.Nozzles, in.RowSpacing = 4, spacing
		return in
	}
	pressed := func(p unit.Pressure, nozzle calc.Nozzle) calc.ApplicationRateInput {
		in := at(100*lha, 5*mph)
		in.SprayPressure, in.Nozzle = p, nozzle
		if nozzle.Size != "" {
			in.NozzleFlowRate = 0
		}
		return in
	}
	size := calc.Nozzle{Size: "03", PressureRange: calc.PressureRange{Low: 1 * unit.Bar, High: 4 * unit.Bar}}
	tolerated := at(100*lha, 5*mph)
	tolerated.RateTolerance = 0.05
	rangeOnly := calc.Nozzle{PressureRange: size.PressureRange}
	for _, c := range []struct {
		in   calc.ApplicationRateInput
		want string
	}{
		{at(100*lha, 1*mph), ""},
		{at(100*lha, 0.99*mph), "groundSpeed: unusual_speed"},
		{at(100*lha, 20*mph), ""},
		{at(100*lha, 20.1*mph), "groundSpeed: unusual_speed"},
		{solvingSpeed, "groundSpeed: unusual_speed"},
		{at(1*lha, 5*mph), ""},
		{at(0.99*lha, 5*mph), "applicationRate: unusual_rate"},
		{at(2000*lha, 5*mph), ""},
		{at(2001*lha, 5*mph), "applicationRate: unusual_rate"},
		{givenRate, ""}, // asked for, not solved
		{rows(2), ""},
		{rows(1.99), "width: width_exceeds_row_spacing"},
		{tolerated, "rateTolerance: tolerance_unused"},
		{pressed(3*unit.Bar, calc.Nozzle{}), "sprayPressure: spray_pressure_unused"},
		{pressed(3*unit.Bar, calc.Nozzle{Size: "03"}), ""}, // used, and no range known
		{pressed(4*unit.Bar, size), ""},
		{pressed(4.01*unit.Bar, size), "sprayPressure: pressure_outside_nozzle_range"},
		{pressed(1*unit.Bar, rangeOnly), ""},
		{pressed(0.99*unit.Bar, rangeOnly), "sprayPressure: pressure_outside_nozzle_range"},
	} {
		if got := warned(mustApplicationRate(t, c.in).Warnings); got != c.want {
			t.Errorf("%+v: warned of %q, want %q", c.in, got, c.want)
		}
	}
}
