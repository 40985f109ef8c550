package calc_test

import (
	"strings"
	"testing"

	"wetrun/calc"
	"wetrun/calc/unit"
)

func TestApplicationRateRefuses(t *testing.T) {
	type input = calc.ApplicationRateInput
	good := input{NozzleFlowRate: 1e-5, GroundSpeed: 2, SprayedWidthPerNozzle: 0.5}
	but := func(change func(*input)) input {
		in := good
		change(&in)
		return in
	}
	nozzle := func(n calc.Nozzle, p unit.Pressure) input {
		return but(func(in *input) { in.NozzleFlowRate, in.Nozzle, in.SprayPressure = 0, n, p })
	}
	three := calc.Nozzle{Size: "03"}
	for want, in := range map[string]input{
		// Which of the four.
		"nozzleFlowRate: need_three_of_four":        {GroundSpeed: 2, ApplicationRate: 1e-5},
		"groundSpeed: need_three_of_four":           {NozzleFlowRate: 1e-5, SprayedWidthPerNozzle: 0.5},
		"sprayedWidthPerNozzle: need_three_of_four": {NozzleFlowRate: 1e-5, GroundSpeed: 2},
		"applicationRate: all_four_given":           but(func(in *input) { in.ApplicationRate = 1e-5 }),
		"nozzles: required; applicationRate: all_four_given": but(func(in *input) {
			in.SprayedWidthPerNozzle, in.Width, in.ApplicationRate = 0, 1, 1e-5
		}),

		// Each for itself.
		"nozzleFlowRate: not_positive":        but(func(in *input) { in.NozzleFlowRate = -1 }),
		"groundSpeed: not_finite":             but(func(in *input) { in.GroundSpeed = unit.Speed(noNumber) }),
		"sprayedWidthPerNozzle: not_positive": but(func(in *input) { in.SprayedWidthPerNozzle = -1 }),
		"width: not_positive":                 but(func(in *input) { in.SprayedWidthPerNozzle, in.Width, in.Nozzles = 0, -1, 1 }),
		"nozzles: not_positive":               but(func(in *input) { in.Nozzles = -1 }),
		"applicationRate: not_positive":       but(func(in *input) { in.NozzleFlowRate, in.ApplicationRate = 0, -1 }),
		"sprayPressure: not_positive":         but(func(in *input) { in.SprayPressure = -1 }),
		"relativeDensity: not_positive":       but(func(in *input) { in.RelativeDensity = -1 }),
		"liquidDensity: not_finite":           but(func(in *input) { in.LiquidDensity = unit.Density(endless) }),
		"rowSpacing: not_positive":            but(func(in *input) { in.RowSpacing, in.Nozzles = -1, 2 }),
		"targetApplicationRate: not_positive": but(func(in *input) { in.TargetApplicationRate = -1 }),
		"labelMaximum: not_positive":          but(func(in *input) { in.LabelMaximum = -1 }),
		"rateTolerance: not_positive":         but(func(in *input) { in.RateTolerance = -1 }),
		"rateBasis: not_allowed":              but(func(in *input) { in.RateBasis = "other" }),

		// Two ways to say the same.
		"nozzle: conflict":        but(func(in *input) { in.Nozzle, in.SprayPressure = three, 3e5 }),
		"width: conflict":         but(func(in *input) { in.Width, in.Nozzles = 1, 2 }),
		"liquidDensity: conflict": but(func(in *input) { in.RelativeDensity, in.LiquidDensity = 1, 1000 }),

		// What one asks for of another.
		"sprayPressure: required":        nozzle(three, 0),
		"nozzle.size: unknown_size":      nozzle(calc.Nozzle{Size: "3"}, 3e5),
		"nozzle.ratedPressure: required": nozzle(calc.Nozzle{RatedFlowRate: 1e-5}, 3e5),
		"nozzle.pressureRange.low: range_inverted": but(func(in *input) {
			in.Nozzle.PressureRange = calc.PressureRange{Low: 4e5, High: 1e5}
		}),
		"nozzles: required": but(func(in *input) { in.SprayedWidthPerNozzle, in.Width = 0, 1 }),
		"width: required":   but(func(in *input) { in.RowSpacing = 2 }),
		"targetApplicationRate: above_label_maximum": but(func(in *input) {
			in.TargetApplicationRate, in.LabelMaximum = 1.00001e-5, 1e-5
		}),
		"rowSpacing: required": but(func(in *input) { in.RateBasis = calc.RateBasisField }),
		"rateBasis: rate_basis_required": but(func(in *input) {
			in.Nozzles, in.RowSpacing, in.TargetApplicationRate = 2, 2, 1e-5
		}),
		// All at once.
		"sprayPressure: required; rateBasis: not_allowed; groundSpeed: need_three_of_four; width: required": {
			Nozzle: three, RateBasis: "other", ApplicationRate: 1e-5, RowSpacing: 2},
	} {
		r, err := calc.ApplicationRate(in)
		if refusal(err) != want {
			t.Errorf("got %q, want %q", refusal(err), want)
		}
		if r.SolvedFor != "" || r.ApplicationRate != 0 {
			t.Errorf("%s: a result all the same: %+v", want, r)
		}
	}
	// The label alone needs its basis, too.
	in := but(func(in *input) { in.Nozzles, in.RowSpacing, in.LabelMaximum = 2, 2, 1e-5 })
	if _, err := calc.ApplicationRate(in); refusal(err) != "rateBasis: rate_basis_required" {
		t.Errorf("label without basis: %q", refusal(err))
	}
}

// TestStatedUncertaintyIsOfWhatIsGiven: none can be stated for the one of the four that is
// solved for, which is the one left out. A nozzle with its pressure gives the flow.
func TestStatedUncertaintyIsOfWhatIsGiven(t *testing.T) {
	all := func() calc.ApplicationRateInput {
		return calc.ApplicationRateInput{
			NozzleFlowRate: unit.LitrePerMinute, GroundSpeed: 6 * unit.KilometrePerHour, SprayedWidthPerNozzle: 0.5 * unit.Metre,
			ApplicationRate: 200 * unit.LitrePerHectare,
		}
	}
	sheets := map[string]calc.ApplicationRateInput{}
	in := all()
	in.NozzleFlowRate = 0
	sheets["nozzleFlowRate"] = in
	in = all()
	in.GroundSpeed = 0
	sheets["groundSpeed"] = in
	in = all()
	in.SprayedWidthPerNozzle = 0
	sheets["sprayedWidthPerNozzle"] = in
	in.NozzleFlowRate, in.Nozzle, in.SprayPressure = 0, calc.Nozzle{Size: "02"}, 3*unit.Bar
	sheets["sprayedWidthPerNozzle of a nozzle"] = in
	in = all()
	in.ApplicationRate = 0
	sheets["applicationRate"] = in
	for missing, in := range sheets {
		missing, _, _ = strings.Cut(missing, " ")
		for of, s := range map[string]calc.RateStandards{
			"nozzleFlowRate": {NozzleFlowRate: 0.01}, "groundSpeed": {GroundSpeed: 0.01},
			"sprayedWidthPerNozzle": {SprayedWidthPerNozzle: 0.01}, "applicationRate": {ApplicationRate: 0.01},
		} {
			in.StandardUncertainties = s
			want := ""
			if of == missing {
				want = of + ": required"
			}
			if _, err := calc.ApplicationRate(in); refusal(err) != want {
				t.Errorf("without %s, stated of %s: %q, want %q", missing, of, refusal(err), want)
			}
		}
	}
}
