package calc_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"wetrun/calc"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// anyThree draws flow, speed and width per nozzle of any size.
func anyThree(t *rapid.T) calc.ApplicationRateInput {
	return calc.ApplicationRateInput{
		NozzleFlowRate:        unit.FlowRate(anySize(t, "flow")),
		GroundSpeed:           unit.Speed(anySize(t, "speed")),
		SprayedWidthPerNozzle: unit.Length(anySize(t, "width")),
	}
}

// TestPropertyAnyThreeGiveTheFourth: each of the four comes back from the other
// three, whether the width is given per nozzle or whole.
func TestPropertyAnyThreeGiveTheFourth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := anyThree(t)
		all := mustApplicationRate(t, in)
		in.ApplicationRate = all.ApplicationRate
		withoutFlow, withoutSpeed, withoutWidth := in, in, in
		withoutFlow.NozzleFlowRate, withoutSpeed.GroundSpeed, withoutWidth.SprayedWidthPerNozzle = 0, 0, 0
		withoutFlow.Nozzles = rapid.IntRange(1, 1<<40).Draw(t, "nozzles")
		whole := in
		whole.ApplicationRate, whole.SprayedWidthPerNozzle = 0, 0
		whole.Nozzles = withoutFlow.Nozzles
		whole.Width = in.SprayedWidthPerNozzle * unit.Length(whole.Nozzles)
		for _, c := range []struct {
			in     calc.ApplicationRateInput
			solved calc.Solved
		}{
			{withoutFlow, calc.SolvedNozzleFlowRate},
			{withoutSpeed, calc.SolvedGroundSpeed},
			{withoutWidth, calc.SolvedSprayedWidthPerNozzle},
			{whole, calc.SolvedApplicationRate},
		} {
			r := mustApplicationRate(t, c.in)
			if r.SolvedFor != c.solved {
				t.Errorf("solved for %v, want %v", r.SolvedFor, c.solved)
			}
			agrees(t, "flow", float64(r.NozzleFlowRate), float64(in.NozzleFlowRate), 1e-14)
			agrees(t, "speed", float64(r.GroundSpeed), float64(in.GroundSpeed), 1e-14)
			agrees(t, "width", float64(r.SprayedWidthPerNozzle), float64(in.SprayedWidthPerNozzle), 1e-14)
			agrees(t, "rate", float64(r.ApplicationRate), float64(in.ApplicationRate), 1e-14)
			if c.in.Nozzles != 0 {
				agrees(t, "whole width", float64(r.Width), float64(whole.Width), 1e-14)
			}
		}
	})
}

// TestPropertyDoubleSpeedHalvesTheRate, and so does double width; double flow
// doubles it.
func TestPropertyDoubleSpeedHalvesTheRate(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := anyThree(t)
		rate := float64(mustApplicationRate(t, in).ApplicationRate)
		faster, wider, more := in, in, in
		faster.GroundSpeed *= 2
		wider.SprayedWidthPerNozzle *= 2
		more.NozzleFlowRate *= 2
		agrees(t, "faster", float64(mustApplicationRate(t, faster).ApplicationRate), rate/2, 1e-15)
		agrees(t, "wider", float64(mustApplicationRate(t, wider).ApplicationRate), rate/2, 1e-15)
		agrees(t, "more", float64(mustApplicationRate(t, more).ApplicationRate), 2*rate, 1e-15)
	})
}

// TestPropertyUnitsDoNotMatter: written in any unit of the table, the same three
// give the same rate, and the rate is the same in any unit.
func TestPropertyUnitsDoNotMatter(t *testing.T) {
	factor := func(t *rapid.T, k unit.Kind) float64 {
		return unit.Lookup(rapid.SampledFrom(k.Symbols()).Draw(t, k.String())).Factor()
	}
	rapid.Check(t, func(t *rapid.T) {
		si := anyThree(t)
		flow, speed := factor(t, unit.KindFlowRate), factor(t, unit.KindSpeed)
		width, rate := factor(t, unit.KindLength), factor(t, unit.KindApplicationRate)
		written := calc.ApplicationRateInput{
			NozzleFlowRate:        unit.FlowRate(float64(si.NozzleFlowRate) / flow * flow),
			GroundSpeed:           unit.Speed(float64(si.GroundSpeed) / speed * speed),
			SprayedWidthPerNozzle: unit.Length(float64(si.SprayedWidthPerNozzle) / width * width),
		}
		number := mustApplicationRate(t, written).ApplicationRate.In(unit.ApplicationRate(rate))
		// R = q / (v w) in numbers: the factors make one constant, such as 5940 or 600.
		constant := flow / (speed * width * rate)
		want := constant * (float64(si.NozzleFlowRate) / flow) / ((float64(si.GroundSpeed) / speed) * (float64(si.SprayedWidthPerNozzle) / width))
		agrees(t, "rate", number, want, 1e-14)
	})
}

// TestPropertyApplicationRateIsFinite: whatever the sizes, nothing overflows, and
// a target that is the rate itself is met exactly, on either basis.
func TestPropertyApplicationRateIsFinite(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := anyThree(t)
		in.NozzleFlowRate = 0
		in.Nozzle = calc.Nozzle{
			RatedFlowRate: unit.FlowRate(anySize(t, "rated flow")),
			RatedPressure: unit.Pressure(anySize(t, "rated pressure")),
		}
		in.SprayPressure = unit.Pressure(anySize(t, "pressure"))
		in.Nozzles = rapid.IntRange(1, math.MaxInt).Draw(t, "nozzles")
		in.RowSpacing = unit.Length(anySize(t, "row spacing"))
		in.LiquidDensity = unit.Density(anySize(t, "density"))
		in.RateBasis = rapid.SampledFrom([]calc.RateBasis{calc.RateBasisTreated, calc.RateBasisField}).Draw(t, "basis")
		in.TargetApplicationRate = unit.ApplicationRate(anySize(t, "target"))
		in.LabelMaximum = in.TargetApplicationRate
		r := mustApplicationRate(t, in)
		for what, x := range map[string]float64{
			"flow": float64(r.NozzleFlowRate), "water": float64(r.WaterEquivalentFlowRate), "width": float64(r.Width),
			"rate": float64(r.ApplicationRate), "field rate": float64(r.FieldApplicationRate), "1 + deviation": 1 + float64(r.Deviation),
		} {
			if !(x >= 0) || math.IsInf(x, 0) || x == 0 && what != "1 + deviation" {
				t.Errorf("%s is %v", what, x)
			}
		}
		// The label is over exactly when the deviation is, the target being the same.
		if (r.LabelVerdict == finding.Outside) != (r.Deviation > 0) {
			t.Errorf("deviation %v, label %v", r.Deviation, r.LabelVerdict)
		}

		in.TargetApplicationRate = r.ApplicationRate
		if in.RateBasis == calc.RateBasisField {
			in.TargetApplicationRate = r.FieldApplicationRate
		}
		in.LabelMaximum = in.TargetApplicationRate
		r = mustApplicationRate(t, in)
		if r.Deviation != 0 || r.Verdict != finding.Within || r.LabelVerdict != finding.Within {
			t.Errorf("its own target: deviation %v, verdict %v, label %v", r.Deviation, r.Verdict, r.LabelVerdict)
		}
	})
}
