package api

import (
	"math"

	"wetrun/calc"
	"wetrun/calc/method"
)

func (r *PatternUniformityRequest) work(w working, x *calc.PatternUniformityResult, a *PatternUniformityAnswer) {
	if a.Mean.given() {
		r.workRow(w, x, a)
	}
	if a.Boom != nil {
		r.workBoom(w, a)
	}
	for i := range a.Spacings {
		w.item("/spacings", i).line(method.SpacingStep, "/nozzleSpacing", a.Spacings[i].NozzleSpacing).
			with("l", r.SpacingRange.Low).with("h", r.SpacingRange.High).count("i", i).count("n", r.SpacingRange.Steps)
	}
}

func (r *PatternUniformityRequest) workRow(w working, x *calc.PatternUniformityResult, a *PatternUniformityAnswer) {
	n, volumes := len(r.Readings), listed(w, r.Readings, func(x *PatternReadingRequest) Quantity { return x.Volume })
	w.line(method.MeanOfValues, "/mean", a.Mean).each("x_i", volumes).count("n", n)
	w.line(method.StandardDeviation, "/standardDeviation", a.StandardDeviation).each("x_i", volumes).with("m", a.Mean).count("n", n)
	w.line(method.Variation, "/coefficientOfVariation", a.CoefficientOfVariation).with("s", a.StandardDeviation).with("m", a.Mean)
	for i := range r.Readings {
		w.item("/readings", i).line(method.PlaceDeviation, "/deviation", a.Readings[i].Deviation).with("x", r.Readings[i].Volume).with("m", a.Mean)
	}
	if a.WorstPlace.Distance.given() {
		w.line(method.PlaceDistance, "/worstPlace/distance", a.WorstPlace.Distance).count("i", x.Worst).with("b", r.Spacing)
	}
}

// workBoom adds the overlapped pattern of the nozzle spacing that was asked for: where
// its straight pieces end, and what follows over the pieces.
func (r *PatternUniformityRequest) workBoom(w working, a *PatternUniformityAnswer) {
	cups, bends := r.NozzlePattern.CupSpacing, []float64{0}
	d := r.NozzleSpacing.si() / cups.si()
	var mean Quantity
	if !w.methodsOnly {
		mean = in(r.volumes()/d, r.NozzlePattern.Volumes[0].Unit)
		bends = calc.PatternBends(len(r.NozzlePattern.Volumes), d)
	}
	w.line(method.OverlappedMean, "", mean).with("b", cups).each("x_i", r.NozzlePattern.Volumes).with("w", r.NozzleSpacing)
	var places, lengths []Quantity
	for i, x := range bends {
		place := r.workPlace(w, mean, d, x)
		if w.methodsOnly {
			continue
		}
		places = append(places, place)
		if i > 0 {
			lengths = append(lengths, in((x-bends[i-1])*cups.si(), r.NozzleSpacing.Unit))
		}
	}
	last := max(0, len(places)-1)
	w.line(method.OverlappedVariation, "/boom/coefficientOfVariation", a.Boom.CoefficientOfVariation).
		each("l_i", lengths).each("f_i", places[:last]).each("g_i", places[min(1, last):]).with("w", r.NozzleSpacing)
	w.line(method.HighestPlace, "/boom/highestDeviation", a.Boom.HighestDeviation).each("d_i", places)
	w.line(method.LowestPlace, "/boom/lowestDeviation", a.Boom.LowestDeviation).each("d_i", places)
}

// volumes is what all cups under the nozzle caught.
func (r *PatternUniformityRequest) volumes() (si float64) {
	for _, v := range r.NozzlePattern.Volumes {
		si += v.si()
	}
	return si
}

// workPlace adds the deviation at a place, which is x cups along the boom.
func (r *PatternUniformityRequest) workPlace(w working, mean Quantity, d, x float64) Quantity {
	l := w.line(method.OverlappedPlace, "", Quantity{})
	if l == nil {
		return Quantity{}
	}
	var volumes, shares []Quantity
	var here float64
	for i, share := range calc.PatternShares(len(r.NozzlePattern.Volumes), d, x) {
		if share > 0 {
			volumes, shares = append(volumes, r.NozzlePattern.Volumes[i]), append(shares, plainNumber(share))
			here += r.NozzlePattern.Volumes[i].si() * share
		}
	}
	if volumes == nil {
		volumes, shares = []Quantity{{0, mean.Unit}}, []Quantity{plainNumber(0)}
	}
	l.result = dimensionless(here/mean.si() - 1)
	if math.Abs(l.result.Value) < 1e-9 { // as calc takes it
		l.result.Value = 0
	}
	l.each("x_i", volumes).each("s_i", shares).with("m", mean)
	return l.result
}
