package certainty

import (
	"math"
	"slices"

	"wetrun/calc/finding"
)

// A Propagation is how a result follows the errors of the instruments that it was measured
// with, by sensitivity coefficients: how many percent of the result one percent of an
// error makes. Those of a scale, which is one error in all that an instrument measured,
// add up with their signs before anything is squared (GUM 5.2.2, correlation 1); readings
// are independent of each other, so their variances add up (GUM 5.1.2).
type Propagation struct {
	scale    [mostInUse]float64       // sensitivity to the scale of each instrument
	readings [InstrumentKinds]float64 // variance, as a share squared
	widest   float64                  // of what readings has, the largest part that one display makes
	second   float64                  // and the largest of another measurement
	parts    []ReadingPart            // what readings is made of; kept only for Parts
}

// AddMeasured takes in what an instrument measured, with the sensitivity c to it: its
// scale and one reading.
func (p *Propagation) AddMeasured(by Evaluated, c, value float64) {
	p.AddScale(by, c)
	p.AddReading(by, c, value)
}

// AddScale takes in the scale of an instrument alone.
func (p *Propagation) AddScale(by Evaluated, c float64) { p.scale[by.number] += c }

// AddReading takes in one reading alone.
func (p *Propagation) AddReading(by Evaluated, c, value float64) {
	p.readings[by.kind[by.number]] += c * c * by.relative(value)
	p.widest = max(p.widest, c*c*by.step[by.number]/(value*value))
	if by.explain {
		p.parts = append(p.parts, by.part(c, value))
	}
}

// Add takes in what q follows, with the sensitivity c to q. Others may have a copy of p,
// which goes on with its own parts.
func (p *Propagation) Add(c float64, q *Propagation) {
	p.parts = slices.Clip(p.parts)
	p.Accumulate(c, q)
}

// Accumulate is Add for a sum of many, of which nobody has a copy yet: its parts are not
// copied for each of them.
func (p *Propagation) Accumulate(c float64, q *Propagation) {
	for i := range q.scale {
		p.scale[i] += c * q.scale[i]
	}
	for k := range q.readings {
		p.readings[k] += c * c * q.readings[k]
	}
	own := c * c * q.widest
	p.widest, p.second = max(p.widest, own), max(p.second, min(p.widest, own))
	if c != 0 {
		for _, r := range q.parts {
			r.Weight *= c * c
			p.parts = append(p.parts, r)
		}
	}
}

// WeighReadings is p with the variances of its readings w times as large.
func (p Propagation) WeighReadings(w float64) Propagation {
	for k := range p.readings {
		p.readings[k] *= w
	}
	p.widest, p.second = p.widest*w, p.second*w
	p.parts = weighed(p.parts, w)
	return p
}

// RelateTo makes of p, which is of one of several measurements, that of its ratio to their
// weighted mean: its own readings count by 1 - weight, those of the others are in mean.
func (p *Propagation) RelateTo(mean *Propagation, weight float64) {
	for k := range p.readings { // (1 - w)^2 of its own, w_j^2 of each other
		p.readings[k] = math.Max(0, mean.readings[k]+(1-2*weight)*p.readings[k])
	}
	others := mean.widest
	if others <= weight*weight*p.widest*(1+finding.Slack) { // it is its own
		others = mean.second
	}
	p.widest = max((1-weight)*(1-weight)*p.widest, others)
	p.parts = append(slices.Clip(mean.parts), weighed(p.parts, 1-2*weight)...)
	for i := range p.scale {
		p.scale[i] -= mean.scale[i]
	}
}

// ScaleCovariance is what the scales add to p and to q in common, as a share squared.
func (p *Propagation) ScaleCovariance(q *Propagation, e *Evaluation) (sum float64) {
	for i := range e.used {
		sum += p.scale[i] * q.scale[i] * e.scale[i]
	}
	return sum
}

// DropCancelled drops what rounding leaves of sensitivities that cancel.
func (p *Propagation) DropCancelled() {
	for i := range p.scale {
		if math.Abs(p.scale[i]) < finding.Slack {
			p.scale[i] = 0
		}
	}
}

// ReadingVariance is what all readings add to the variance of the result, as a share
// squared.
func (p *Propagation) ReadingVariance() (sum float64) {
	for _, v := range p.readings {
		sum += v
	}
	return sum
}

// AddTo puts the instruments into a budget, and says which of their errors is the widest.
func (p *Propagation) AddTo(b *Budget, e *Evaluation) Widest {
	var scale [InstrumentKinds]float64
	widest := Widest{Reading: p.widest}
	for i := range e.used {
		if c := p.scale[i]; c != 0 {
			scale[e.kind[i]] += c * c * e.scale[i]
			widest.Scale = max(widest.Scale, c*c*e.scale[i])
		}
	}
	for k := range InstrumentKinds {
		if scale[k] != 0 {
			b[scaleOf(k)].Standard = math.Sqrt(scale[k])
		}
		if p.readings[k] != 0 {
			b[readingOf(k)].Standard = math.Sqrt(p.readings[k])
		}
	}
	return widest
}

// Uncertainty is that of a result which follows nothing but instruments.
func (p *Propagation) Uncertainty(e *Evaluation, reference float64) (u Uncertainty) {
	u.combine(reference, p.AddTo(&u.Budget, e))
	if e.explain {
		u.Parts = p.explained(e, nil, nil)
	}
	return u
}
