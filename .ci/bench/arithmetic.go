package main

import (
	"fmt"

	"wetrun/calc"
	"wetrun/calc/certainty"
	"wetrun/calc/unit"
)

// arithmetic is what the plain server calculates for each request, with inputs made
// once: it takes nothing from its structs and fills no answer, which is in its favour.
func arithmetic(operation string) (func() error, error) {
	switch operation {
	case "nozzle-acceptance":
		input := calc.NozzleAcceptanceInput{
			Nozzle:        calc.Nozzle{RatedFlowRate: si[unit.FlowRate](0.5, "gal_us/min"), RatedPressure: si[unit.Pressure](40, "psi")},
			SprayPressure: si[unit.Pressure](60, "psi"),
			Catches:       round(112, 4),
			Tolerance:     calc.OutputTolerance{Limit: si[unit.Ratio](10, "%"), Basis: calc.BothBases},
		}
		return func() error { _, err := calc.NozzleAcceptance(input); return err }, nil
	case "calibrations":
		input := wholeSheet()
		return func() error { _, err := calc.FieldSheet(input); return err }, nil
	}
	return nil, fmt.Errorf("nothing is calculated for %s here", operation)
}

func si[T ~float64](x float64, symbol string) T { return T(x * unit.Lookup(symbol).Factor()) }

// round is a round of twelve catches of three nozzles in 30 s, in US fluid ounces.
func round(first, step float64) (all []calc.AcceptanceCatch) {
	for i := range 12 {
		all = append(all, calc.AcceptanceCatch{
			Catch:    calc.Catch{Volume: si[unit.Volume](first+step*float64(i), "fl_oz_us"), Time: 30, Nozzles: 3},
			Position: []certainty.Position{certainty.Left, certainty.Center, certainty.Right}[i/4],
		})
	}
	return all
}

// wholeSheet has the parts of testdata/demo/ready.json, invented.
func wholeSheet() calc.FieldSheetInput {
	run := func(seconds unit.Time) calc.Run {
		return calc.Run{CourseLength: si[unit.Length](100, "ft"), Time: seconds}
	}
	psi := func(x float64) unit.Pressure { return si[unit.Pressure](x, "psi") }
	rate := func(x float64) unit.ApplicationRate { return si[unit.ApplicationRate](x, "gal_us/acre") }
	return calc.FieldSheetInput{
		Machine: calc.Machine{BedWidth: si[unit.Length](40, "in"), NozzlesPerBed: 9, RowSpacing: si[unit.Length](64, "in")},
		Nozzle: calc.Nozzle{
			RatedFlowRate: si[unit.FlowRate](0.2, "gal_us/min"), RatedPressure: psi(40),
			PressureRange: calc.PressureRange{Low: psi(30), High: psi(90)},
		},
		Maintenance: calc.SheetMaintenance{Beds: []calc.BedInspection{{Clean: 2, Done: true}, {}, {Replace: 1, Done: true}}},
		Pressure:    calc.PressureUniformityInput{Readings: []unit.Pressure{psi(60), psi(61), psi(59)}, CabPressure: psi(62)},
		Output: calc.SheetOutput{
			Catches: round(46.2, 0.1), CatchPointsOnBoom: 27,
			Tolerance: calc.OutputTolerance{Limit: si[unit.Ratio](10, "%"), Basis: calc.RatedBasis},
		},
		Speed: calc.GroundSpeedInput{Runs: []calc.Run{run(22.8), run(23.4)}},
		Target: calc.SheetTarget{
			ApplicationRate: rate(105), RateTolerance: si[unit.Ratio](10, "%"), LabelMaximum: rate(126), RateBasis: calc.RateBasisTreated,
		},
		AreaCheck: calc.AreaCheckInput{
			VolumeUsed: si[unit.Volume](27.3, "gal_us"), CourseLength: si[unit.Length](363, "ft"), Width: si[unit.Length](30, "ft"),
		},
		Cost: calc.SheetCost{PerArea: 25 / unit.Lookup("acre").Factor(), Area: si[unit.Area](40, "acre")},
	}
}
