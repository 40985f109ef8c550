package calc

import (
	"math"

	"wetrun/calc/certainty"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// NozzleFlowInput is what a crew catches, and where the flow is wanted.
type NozzleFlowInput struct {
	// Catches holds at least one catch, of water, of nozzles of one kind.
	Catches []Catch
	// SprayPressure is the pressure of those catches that have none of their own.
	// It is needed only to move the flow to another pressure.
	SprayPressure unit.Pressure
	// PredictAt asks for the flow under other conditions. It may be empty.
	PredictAt []Prediction
	// Gauge names the one that SprayPressure was read from; see Measuring.
	Gauge     string
	Measuring certainty.Measuring
}

// A Prediction is a condition under which the flow of one nozzle is wanted: a
// pressure, a liquid or both. Without a pressure it is that of the catches;
// without a density the liquid is water.
type Prediction struct {
	SprayPressure   unit.Pressure
	RelativeDensity unit.Ratio
	LiquidDensity   unit.Density // instead of RelativeDensity
}

// NozzleFlowResult is the flow that was caught and the flow that follows.
type NozzleFlowResult struct {
	FlowRates          []unit.FlowRate // per catch, of all its nozzles
	NozzleFlowRates    []unit.FlowRate // per catch, mean of its nozzles
	MeanNozzleFlowRate unit.FlowRate   // sum of flows over sum of nozzles
	// Exponent is the n of q = k p^n that Predicted uses.
	Exponent float64
	// ExponentFitted tells that Exponent comes from the catches.
	ExponentFitted bool
	Predicted      []unit.FlowRate // of one nozzle, in the order of PredictAt
	Warnings       []finding.Warning

	Uncertainty *NozzleFlowUncertainty // nil unless asked for
}

// Warning codes of NozzleFlow, beside WarnShortCatch.
const (
	WarnMixedPressures      = "mixed_pressures"      // the mean is of catches at several pressures
	WarnExponentUnusual     = "exponent_unusual"     // fitted, but outside 0.4 to 0.6
	WarnExponentImplausible = "exponent_implausible" // no nozzle does that: the square root is used
	WarnFarPrediction       = "far_prediction"       // beyond a ratio of 2 from the pressures caught at
)

// Bounds of NozzleFlow. Common practice or judgement, no published source.
const (
	// fitRatio is the ratio of pressures from which an exponent is fitted. At 1.5
	// an error of 1 % in one flow moves the exponent by 0.01 / ln 1.5 = 0.025.
	fitRatio = 1.5
	// farRatio is how far in pressure a prediction may go without a warning.
	farRatio = 2

	usualExponentLow, usualExponentHigh = 0.4, 0.6
	leastExponent, mostExponent         = 0.1, 1.0
)

// WarnUnusualFlow is the warning for a nozzle that gives less than leastFlow or more than
// mostFlow.
const WarnUnusualFlow = "unusual_flow"

// Flows that hardly any nozzle has. Sizes of ISO 10625 give 0.1 to 8 L/min at 3 bar; at
// other pressures, and of spinning discs and boomless nozzles, there is less and more.
// Own judgement, no published source.
const (
	leastFlow = 0.005 * unit.LitrePerMinute
	mostFlow  = 50 * unit.LitrePerMinute
)

// unusualFlow tells whether the flow of one nozzle lies outside leastFlow to mostFlow.
func unusualFlow(q unit.FlowRate) bool {
	return !between(float64(q/leastFlow), 1, float64(mostFlow/leastFlow))
}

// NozzleFlow returns the flow of each catch, the mean flow of one nozzle,
//
//	mean = sum of (V / t) / sum of nozzles
//
// and the flow of one nozzle at the pressures and liquids of PredictAt,
//
//	q = k p^n / sqrt(rd),   k = sum of (F p^-n) / sum of nozzles
//
// with F the flow of a catch and p its pressure, so that catches at one pressure
// give their own mean back there. n is a half, the law of an orifice, unless the
// highest pressure of the catches is at least 1.5 times the lowest: then n is the
// slope of ln q against ln p by least squares, q being the flow per nozzle of a
// catch. That holds for catches of the same nozzles or of equally worn ones. A
// slope outside 0.1 to 1 contradicts any nozzle; then a half is used after all.
//
// Volumes and times must be above zero, pressures and densities not below it.
// The error is finding.Invalid, with codes too_few, required, not_positive, not_finite,
// conflict for both densities at once, and pressure_required on SprayPressure
// when a pressure is to be predicted at and none was caught at, or on the
// SprayPressure of each catch that lacks it when others have it.
//
// Source: mean of nozzles, and the root of pressure, see FlowAtPressure; the root
// of density, see LiquidFlow. Fitting the exponent has no published source.
func NozzleFlow(in NozzleFlowInput) (NozzleFlowResult, error) {
	if err := in.check(); err != nil {
		return NozzleFlowResult{}, err
	}
	r := NozzleFlowResult{
		FlowRates:       make([]unit.FlowRate, len(in.Catches)),
		NozzleFlowRates: make([]unit.FlowRate, len(in.Catches)),
		Exponent:        SquareRoot,
	}
	var total, nozzles float64
	for i, c := range in.Catches {
		r.FlowRates[i] = c.FlowRate()
		r.NozzleFlowRates[i] = c.NozzleFlowRate()
		total += float64(r.FlowRates[i])
		nozzles += c.nozzles()
		if c.short() {
			r.warn(finding.Item("catches", i).Member("time"), WarnShortCatch)
		}
		if unusualFlow(r.NozzleFlowRates[i]) {
			r.warn(finding.Item("catches", i), WarnUnusualFlow)
		}
	}
	r.MeanNozzleFlowRate = unit.FlowRate(total / nozzles)
	low, high := in.pressures()
	if finding.Difference(float64(high), float64(low)) != 0 {
		r.warn(finding.Member("catches"), WarnMixedPressures)
	}
	if low != 0 && finding.AtMost(fitRatio, float64(high/low)) {
		r.fit(in)
	}
	r.predict(in, low, high, nozzles)
	if in.Measuring.Uncertainty {
		r.Uncertainty = r.uncertainty(&in)
	}
	return r, nil
}

// moves tells whether a flow is wanted at a pressure; all pressures of the
// catches are then known.
func (in NozzleFlowInput) moves() bool {
	for i := range in.PredictAt {
		if in.PredictAt[i].SprayPressure != 0 {
			return true
		}
	}
	return false
}

// pressures returns the lowest and the highest pressure known of the catches;
// zero when none is.
func (in NozzleFlowInput) pressures() (low, high unit.Pressure) {
	for _, c := range in.Catches {
		p := c.pressure(in.SprayPressure)
		if p != 0 && (low == 0 || p < low) {
			low = p
		}
		high = max(high, p)
	}
	return low, high
}

// fit finds the exponent over the catches whose pressure is known. Logarithms are
// taken about their means, so that units cancel before anything is squared.
func (r *NozzleFlowResult) fit(in NozzleFlowInput) {
	var meanX, meanY, n float64
	for i, c := range in.Catches {
		if p := c.pressure(in.SprayPressure); p != 0 {
			meanX += math.Log(float64(p))
			meanY += math.Log(float64(r.NozzleFlowRates[i]))
			n++
		}
	}
	meanX, meanY = meanX/n, meanY/n
	var xx, xy float64
	for i, c := range in.Catches {
		if p := c.pressure(in.SprayPressure); p != 0 {
			x := math.Log(float64(p)) - meanX
			xx += x * x
			xy += x * (math.Log(float64(r.NozzleFlowRates[i])) - meanY)
		}
	}
	slope := xy / xx
	switch {
	case !between(slope, leastExponent, mostExponent):
		r.warn(finding.Member("catches"), WarnExponentImplausible)
		return
	case !between(slope, usualExponentLow, usualExponentHigh):
		r.warn(finding.Member("catches"), WarnExponentUnusual)
	}
	r.Exponent, r.ExponentFitted = slope, true
}

// predict moves the mean to each condition wanted. The catches are brought
// together at their lowest pressure first: that is k in other words, and exact
// where nothing has to be moved.
func (r *NozzleFlowResult) predict(in NozzleFlowInput, low, high unit.Pressure, nozzles float64) {
	if len(in.PredictAt) == 0 {
		return
	}
	var atLow unit.FlowRate
	if in.moves() {
		for i, c := range in.Catches {
			p := c.pressure(in.SprayPressure)
			atLow += FlowAtPressure(r.FlowRates[i], p, low, r.Exponent)
		}
		atLow /= unit.FlowRate(nozzles)
	}
	r.Predicted = make([]unit.FlowRate, len(in.PredictAt))
	for i, want := range in.PredictAt {
		q := r.MeanNozzleFlowRate
		if p := want.SprayPressure; p != 0 {
			q = FlowAtPressure(atLow, low, p, r.Exponent)
			if !finding.AtMost(float64(low/p), farRatio) || !finding.AtMost(float64(p/high), farRatio) {
				r.warn(finding.Item("predictAt", i).Member("sprayPressure"), WarnFarPrediction)
			}
		}
		for _, w := range warnDensity(want.RelativeDensity, want.LiquidDensity) {
			r.warn(w.Place.Under(finding.Item("predictAt", i)), w.Code)
		}
		if rd := oneDensity(want.RelativeDensity, want.LiquidDensity); rd != 0 {
			q = LiquidFlow(q, rd)
		}
		r.Predicted[i] = q
	}
}

func (r *NozzleFlowResult) warn(place finding.Place, code string) {
	r.Warnings = append(r.Warnings, finding.Warning{Place: place, Code: code})
}

// between tells whether x lies in the range, ends included; false for NaN.
func between(x, low, high float64) bool { return finding.AtMost(low, x) && finding.AtMost(x, high) }

func (in NozzleFlowInput) check() error {
	var v finding.Invalid
	checkCatches(&v, in.Catches, "catches")
	v.Optional(float64(in.SprayPressure), finding.Member("sprayPressure"))
	in.Measuring.Check(&v)
	in.Measuring.CheckGauge(&v, in.SprayPressure, in.Gauge)
	for i := range in.Catches {
		in.Catches[i].checkInstruments(&v, &in.Measuring, "catches", i)
	}
	for i := range in.PredictAt {
		in.PredictAt[i].check(&v, i)
	}
	if in.moves() && in.SprayPressure == 0 && len(in.Catches) > 0 {
		in.checkPressures(&v)
	}
	return v.Err()
}

func (p *Prediction) check(v *finding.Invalid, i int) {
	if p.SprayPressure == 0 && p.RelativeDensity == 0 && p.LiquidDensity == 0 {
		v.RequiredUnless(finding.Item("predictAt", i).Member("sprayPressure"), finding.Member("relativeDensity"), finding.Member("liquidDensity"))
	}
	if p.RelativeDensity != 0 && p.LiquidDensity != 0 {
		v.Conflict(finding.Item("predictAt", i).Member("liquidDensity"), finding.Item("predictAt", i).Member("relativeDensity"))
	}
	v.OptionalIn(float64(p.SprayPressure), "predictAt", i, "sprayPressure")
	v.OptionalIn(float64(p.RelativeDensity), "predictAt", i, "relativeDensity")
	v.OptionalIn(float64(p.LiquidDensity), "predictAt", i, "liquidDensity")
}

// checkPressures reports the pressures that a prediction misses: the common one
// when no catch has any, or that of each catch without.
func (in NozzleFlowInput) checkPressures(v *finding.Invalid) {
	known := false
	for _, c := range in.Catches {
		known = known || c.SprayPressure != 0
	}
	if !known {
		v.Add(finding.Member("sprayPressure"), CodePressureRequired)
		return
	}
	for i, c := range in.Catches {
		if c.SprayPressure == 0 {
			v.Add(finding.Item("catches", i).Member("sprayPressure"), CodePressureRequired)
		}
	}
}
