package calc

import (
	"math"

	"wetrun/calc/certainty"
)

// NozzleFlowUncertainty is how well flows are known.
type NozzleFlowUncertainty struct {
	NozzleFlowRates    []certainty.Uncertainty // per catch, by its instruments alone
	MeanNozzleFlowRate certainty.Uncertainty   // as the flow of a nozzle of the boom
	// Predicted is in the order of PredictAt. The exponent counts as known exactly; nil
	// when it was fitted, since it is not.
	Predicted []certainty.Uncertainty
}

// uncertainty works out how well the flows are known: the catches by jug and stopwatch,
// the mean by their scatter pooled with the prior, and by the scales. A flow moved to
// another pressure follows the gauges by the exponent besides; the pressure that it is
// moved to is exact.
//
// Source: GUM 4.2, 4.3.7, 5.1.2, 5.2.2; see catchMean.
func (r *NozzleFlowResult) uncertainty(in *NozzleFlowInput) *NozzleFlowUncertainty {
	e := in.Measuring.Evaluate()
	u := &NozzleFlowUncertainty{NozzleFlowRates: make([]certainty.Uncertainty, len(in.Catches))}
	prior := in.Measuring.Repeatability.Catches.OrDefault(certainty.DefaultCatchesPrior)
	var flow, n, plain float64
	for i := range in.Catches {
		flow += float64(r.FlowRates[i])
		plain += float64(r.NozzleFlowRates[i])
	}
	n = float64(len(in.Catches))
	var m catchMean
	var observed float64
	for i := range in.Catches {
		own := in.Catches[i].flowErrors(e)
		u.NozzleFlowRates[i] = own.Uncertainty(e, float64(r.NozzleFlowRates[i]))
		share := float64(r.FlowRates[i]) / flow
		m.add(share, share, &own)
		d := float64(r.NozzleFlowRates[i])/plain*n - 1
		observed += d * d / math.Max(n-1, 1)
	}
	scatter := m.scatter(prior, math.Sqrt(observed), m.n, 0, 0)
	mean := m.errors.WeighReadings(0)
	b := certainty.Budget{certainty.SourceCatches: scatter.Component()}
	widest := mean.AddTo(&b, e)
	u.MeanNozzleFlowRate = b.Combine(float64(r.MeanNozzleFlowRate), widest).WithParts(e, &mean, nil, &scatter)
	if r.Predicted == nil || r.ExponentFitted {
		return u
	}
	var gauges certainty.Propagation
	if in.moves() {
		gauges = r.gauges(in, e)
	}
	moved := mean
	moved.Add(-r.Exponent, &gauges)
	widest = moved.AddTo(&b, e)
	// All predictions at a pressure are made of the same, which is listed once.
	parts := u.MeanNozzleFlowRate.WithParts(e, &moved, nil, &scatter).Parts
	u.Predicted = make([]certainty.Uncertainty, len(in.PredictAt))
	for i := range in.PredictAt {
		if in.PredictAt[i].SprayPressure == 0 {
			u.Predicted[i] = u.MeanNozzleFlowRate.ForResult(float64(r.Predicted[i]))
			continue
		}
		u.Predicted[i] = b.Combine(float64(r.Predicted[i]), widest)
		u.Predicted[i].Parts = parts
	}
	return u
}

// gauges is how the flow of the catches, brought to one pressure, follows what their
// pressures were read from, per exponent.
func (r *NozzleFlowResult) gauges(in *NozzleFlowInput, e *certainty.Evaluation) (p certainty.Propagation) {
	moved := func(i int) float64 {
		return float64(FlowAtPressure(r.FlowRates[i], in.Catches[i].pressure(in.SprayPressure), 1, r.Exponent))
	}
	var all, common float64
	for i := range in.Catches {
		all += moved(i)
	}
	for i := range in.Catches {
		if in.Catches[i].SprayPressure == 0 {
			common += moved(i) / all
		} else {
			in.Catches[i].addPressure(&p, e, moved(i)/all, nil)
		}
	}
	if common > 0 {
		gauge := gaugeErrors(e, in.Gauge, in.SprayPressure)
		p.Add(common, &gauge)
	}
	return p
}
