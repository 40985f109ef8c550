package calc_test

import (
	"testing"

	"wetrun/calc"
	"wetrun/calc/certainty"
	"wetrun/calc/unit"
)

// twelveCatches is an invented sheet: a dozen single nozzles a little apart, two runs.
func twelveCatches() calc.FieldSheetInput {
	in := wholeSheet()
	in.Output.Catches, in.Output.CatchPointsOnBoom = nil, 0
	for i, ml := range []float64{940, 960, 951, 972, 933, 948, 955, 966, 939, 944, 957, 949} {
		in.Output.Catches = append(in.Output.Catches, calc.AcceptanceCatch{
			Catch:    calc.Catch{Volume: unit.Volume(ml) * unit.Millilitre, Time: unit.Minute},
			Position: []certainty.Position{certainty.Left, certainty.Center, certainty.Right}[i/4],
		})
	}
	in.Speed.Runs[1].Time = 20.4 * unit.Second
	return in
}

// BenchmarkFieldSheetUncertainty: without uncertainty the same sheet takes about 4.5 us
// on the machine that this was written on; with it, the target is 40 us.
func BenchmarkFieldSheetUncertainty(b *testing.B) {
	for name, wanted := range map[string]bool{"without": false, "with": true} {
		b.Run(name, func(b *testing.B) {
			in := twelveCatches()
			in.Measuring.Uncertainty = wanted
			b.ReportAllocs()
			for b.Loop() {
				if _, err := calc.FieldSheet(in); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// TestSheetAllocations: what a sheet of twelve catches allocates; more is a decision, not
// an accident.
func TestSheetAllocations(t *testing.T) {
	for wanted, most := range map[bool]float64{false: 21, true: 32} {
		in := twelveCatches()
		in.Measuring.Uncertainty = wanted
		if n := testing.AllocsPerRun(100, func() {
			if _, err := calc.FieldSheet(in); err != nil {
				t.Fatal(err)
			}
		}); n > most {
			t.Errorf("with uncertainty %v: %v allocations, %v before", wanted, n, most)
		}
	}
}
