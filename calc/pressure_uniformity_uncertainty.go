package calc

import (
	"math"

	"wetrun/calc/certainty"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// PressureUncertainty is how well pressures are known.
type PressureUncertainty struct {
	Mean, Spread, CabOffset certainty.Uncertainty // CabOffset is zero without a cab reading
	FlowSpread              certainty.Uncertainty
	Readings                []certainty.Uncertainty
	// Even is the probability that the spread truly is within MaxDifference, and
	// MeanInRange that the mean is in the nozzle's range.
	Even, MeanInRange certainty.Conformity

	mean certainty.Propagation // of the mean, as a share
}

// uncertainty works out how well the pressures are known by the gauges that they were
// read from. A gauge's scale error is in the mean by the share of its readings; in the
// spread, p_max - p_min, it comes to its share of the spread when one gauge read both.
// The cab offset follows the scales of the gauges at the boom, not that of the cab
// gauge, which it is there to find; the cab gauge is read like the default one.
//
// Source: GUM 4.3.7, 5.1.2, 5.2.2.
func (r *PressureUniformityResult) uncertainty(in *PressureUniformityInput) *PressureUncertainty {
	e := in.Measuring.Evaluate()
	u := &PressureUncertainty{Readings: make([]certainty.Uncertainty, len(in.Readings))}
	var total unit.Pressure
	high, low := 0, len(in.Readings)-1
	for i, p := range in.Readings {
		total += p
		if p > in.Readings[high] {
			high = i
		}
		if p < in.Readings[low] {
			low = i
		}
	}
	for i, p := range in.Readings {
		own := gaugeErrors(e, in.gauge(i), p)
		u.Readings[i] = own.Uncertainty(e, float64(p))
		u.mean.Accumulate(float64(p/total), &own)
	}
	mean := float64(r.Mean)
	u.Mean = u.mean.Uncertainty(e, mean)
	if r.MeanInRange != finding.NotJudged {
		within := in.PressureRange
		u.MeanInRange.Judge(mean, &u.Mean, float64(within.Low), float64(within.High), certainty.Repeats{Read: len(in.Readings), Readings: certainty.MeasureReadings})
	}
	if len(in.Readings) > 1 {
		r.spreadUncertainty(in, u, e, high, low)
	}
	if in.CabPressure != 0 {
		var p certainty.Propagation
		p.AddReading(e.Default(certainty.Gauge), float64(in.CabPressure/r.Mean), float64(in.CabPressure))
		p.Add(-1, &u.mean)
		u.CabOffset = p.Uncertainty(e, mean)
	}
	return u
}

func (r *PressureUniformityResult) spreadUncertainty(in *PressureUniformityInput, u *PressureUncertainty, e *certainty.Evaluation, high, low int) {
	top, bottom := gaugeErrors(e, in.gauge(high), in.Readings[high]), gaugeErrors(e, in.gauge(low), in.Readings[low])
	var p certainty.Propagation
	p.Add(float64(r.Highest/r.Mean), &top)
	p.Add(-float64(r.Lowest/r.Mean), &bottom)
	p.DropCancelled()
	u.Spread = p.Uncertainty(e, float64(r.Mean))
	spread, most := float64(r.Spread), float64(r.MaxDifference)
	u.Even.Judge(spread, &u.Spread, certainty.Unlimited, most, certainty.Repeats{Readings: certainty.MeasureReadings, Spread: true})

	var f certainty.Propagation
	by := math.Sqrt(float64(r.Highest/r.Lowest)) / 2
	f.Add(by, &top)
	f.Add(-by, &bottom)
	f.DropCancelled()
	u.FlowSpread = f.Uncertainty(e, 1)
}

// gauge is the id of the gauge that a reading names.
func (in *PressureUniformityInput) gauge(i int) string {
	if i < len(in.Gauges) {
		return in.Gauges[i]
	}
	return ""
}
