package calc

import "wetrun/calc/certainty"

// rateUncertainty works out how well the rate of a sheet is known, R = q / (v w):
//
//	ln R = catches (jug - stopwatch) + runs (stopwatch - tape) - width (tape)
//
// so the scale of one stopwatch for catches and runs cancels, and that of one tape for
// course and width counts twice. The rate per field area has the row spacing in the
// place of the width. The liquid's density counts as exact.
//
// Source: GUM 5.2.2 for errors that several readings share.
func (r *FieldSheetResult) rateUncertainty(in *FieldSheetInput, of *ApplicationRateInput) *RateUncertainty {
	e := in.Measuring.Evaluate()
	runs, catches := &r.Speed.Uncertainty.scatter, &r.Output.Uncertainty.scatter
	with := func(width, rate float64) certainty.Uncertainty {
		p := r.Output.Uncertainty.boom
		p.Add(-1, &r.Speed.Uncertainty.errors)
		p.AddMeasured(e.Instrument(certainty.Tape, in.Machine.Tape), -1, width)
		p.DropCancelled()
		b := certainty.Budget{certainty.SourceRuns: runs.Component(), certainty.SourceCatches: catches.Component()}
		return b.Combine(rate, p.AddTo(&b, e)).WithParts(e, &p, runs, catches)
	}
	width := float64(in.Machine.BedWidth)
	if width == 0 {
		width = float64(in.Machine.SprayedWidthPerNozzle)
	}
	u := &RateUncertainty{}
	treated, field := with(width, float64(r.Rate.ApplicationRate)), certainty.Uncertainty{}
	if in.Machine.RowSpacing != 0 {
		field = with(float64(in.Machine.RowSpacing), float64(r.Rate.FieldApplicationRate))
	}
	u.Solved = treated
	u.rate(r.Rate, of, treated, field, certainty.Repeats{
		Runs: runs, Catches: catches, Read: len(in.Output.Catches), Readings: certainty.MeasureCatches, Lengths: certainty.MeasureWidth,
	})
	return u
}
