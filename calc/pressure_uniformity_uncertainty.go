package calc

import (
	"math"

	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// PressureUncertainty is how well pressures are known.
type PressureUncertainty struct {
	Mean, Spread, CabOffset Uncertainty // CabOffset is zero without a cab reading
	FlowSpread              Uncertainty
	Readings                []Uncertainty
	// Even is the probability that the spread truly is within MaxDifference, and
	// MeanInRange that the mean is in the nozzle's range.
	Even, MeanInRange Conformity

	mean propagation // of the mean, as a share
}

// uncertainty works out how well the pressures are known by the gauges that they were
// read from. A gauge's scale error is in the mean by the share of its readings; in the
// spread, p_max - p_min, it comes to its share of the spread when one gauge read both.
// The cab offset follows the scales of the gauges at the boom, not that of the cab
// gauge, which it is there to find; the cab gauge is read like the default one.
//
// Source: GUM 4.3.7, 5.1.2, 5.2.2.
func (r *PressureUniformityResult) uncertainty(in *PressureUniformityInput) *PressureUncertainty {
	x := in.Measuring.set()
	u := &PressureUncertainty{Readings: make([]Uncertainty, len(in.Readings))}
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
		own := readPressure(x, in.gauge(i), p)
		u.Readings[i] = own.uncertainty(x, float64(p))
		u.mean.gather(float64(p/total), &own)
	}
	mean := float64(r.Mean)
	u.Mean = u.mean.uncertainty(x, mean)
	if r.MeanInRange != finding.NotJudged {
		within := in.PressureRange
		u.MeanInRange.judge(mean, &u.Mean, float64(within.Low), float64(within.High), repeats{readings: MeasureReadings})
	}
	if len(in.Readings) > 1 {
		r.spreadUncertainty(in, u, x, high, low)
	}
	if in.CabPressure != 0 {
		var p propagation
		p.add(x, float64(in.CabPressure/r.Mean), int(Gauge), float64(in.CabPressure))
		p.scale = [slots]float64{}
		p.plus(-1, &u.mean)
		u.CabOffset = p.uncertainty(x, mean)
	}
	return u
}

func (r *PressureUniformityResult) spreadUncertainty(in *PressureUniformityInput, u *PressureUncertainty, x *instruments, high, low int) {
	top, bottom := readPressure(x, in.gauge(high), in.Readings[high]), readPressure(x, in.gauge(low), in.Readings[low])
	var p propagation
	p.plus(float64(r.Highest/r.Mean), &top)
	p.plus(-float64(r.Lowest/r.Mean), &bottom)
	p.settle()
	u.Spread = p.uncertainty(x, float64(r.Mean))
	spread, most := float64(r.Spread), float64(r.MaxDifference)
	u.Even.judge(spread, &u.Spread, unlimited, most, repeats{readings: MeasureReadings, spread: true})

	var f propagation
	by := math.Sqrt(float64(r.Highest/r.Lowest)) / 2
	f.plus(by, &top)
	f.plus(-by, &bottom)
	f.settle()
	u.FlowSpread = f.uncertainty(x, 1)
}

// gauge is the id of the gauge that a reading names.
func (in *PressureUniformityInput) gauge(i int) string {
	if i < len(in.Gauges) {
		return in.Gauges[i]
	}
	return ""
}
