package operation

import (
	"math"

	"wetrun/api/wire"
	"wetrun/api/working"
	"wetrun/calc"
	"wetrun/calc/method"
)

func (r *PatternUniformityRequest) work(w working.Working, x *calc.PatternUniformityResult, a *PatternUniformityAnswer) {
	if a.Mean.Given() {
		r.workRow(w, x, a)
	}
	if a.Boom != nil {
		r.workBoom(w, a)
	}
	for i := range a.Spacings {
		w.Item("/spacings", i).Line(method.SpacingStep, "/nozzleSpacing", a.Spacings[i].NozzleSpacing).
			With("l", r.SpacingRange.Low).With("h", r.SpacingRange.High).Count("i", i).Count("n", r.SpacingRange.Steps)
	}
}

func (r *PatternUniformityRequest) workRow(w working.Working, x *calc.PatternUniformityResult, a *PatternUniformityAnswer) {
	n, volumes := len(r.Readings), working.Listed(w, r.Readings, func(x *PatternReadingRequest) wire.Quantity { return x.Volume })
	w.Line(method.MeanOfValues, "/mean", a.Mean).Each("x_i", volumes).Count("n", n)
	w.Line(method.StandardDeviation, "/standardDeviation", a.StandardDeviation).Each("x_i", volumes).With("m", a.Mean).Count("n", n)
	w.Line(method.Variation, "/coefficientOfVariation", a.CoefficientOfVariation).With("s", a.StandardDeviation).With("m", a.Mean)
	for i := range r.Readings {
		w.Item("/readings", i).Line(method.PlaceDeviation, "/deviation", a.Readings[i].Deviation).With("x", r.Readings[i].Volume).With("m", a.Mean)
	}
	if a.WorstPlace.Distance.Given() {
		w.Line(method.PlaceDistance, "/worstPlace/distance", a.WorstPlace.Distance).Count("i", x.Worst).With("b", r.Spacing)
	}
}

// workBoom adds the overlapped pattern of the nozzle spacing that was asked for: where
// its straight pieces end, and what follows over the pieces. The spacings of a range have
// none: a hundred of them over two hundred cups would be millions of terms.
func (r *PatternUniformityRequest) workBoom(w working.Working, a *PatternUniformityAnswer) {
	cups, bends := r.NozzlePattern.CupSpacing, []float64{0}
	d := r.NozzleSpacing.SI() / cups.SI()
	var mean wire.Quantity
	if !w.MethodsOnly {
		mean = wire.In(r.volumeCaught()/d, r.NozzlePattern.Volumes[0].Unit)
		bends = calc.PatternBends(len(r.NozzlePattern.Volumes), d)
	}
	w.Line(method.OverlappedMean, "", mean).With("b", cups).Each("x_i", r.NozzlePattern.Volumes).With("w", r.NozzleSpacing)
	var places, lengths []wire.Quantity
	for i, x := range bends {
		place := r.workPlace(w, mean, d, x)
		if w.MethodsOnly {
			continue
		}
		places = append(places, place)
		if i > 0 {
			lengths = append(lengths, wire.In((x-bends[i-1])*cups.SI(), r.NozzleSpacing.Unit))
		}
	}
	last := max(0, len(places)-1)
	w.Line(method.OverlappedVariation, "/boom/coefficientOfVariation", a.Boom.CoefficientOfVariation).
		Each("l_i", lengths).Each("f_i", places[:last]).Each("g_i", places[min(1, last):]).With("w", r.NozzleSpacing)
	w.Line(method.HighestPlace, "/boom/highestDeviation", a.Boom.HighestDeviation).Each("d_i", places)
	w.Line(method.LowestPlace, "/boom/lowestDeviation", a.Boom.LowestDeviation).Each("d_i", places)
}

// volumeCaught is what all cups under the nozzle caught, in SI.
func (r *PatternUniformityRequest) volumeCaught() (si float64) {
	for _, v := range r.NozzlePattern.Volumes {
		si += v.SI()
	}
	return si
}

// workPlace adds the deviation at a place, which is x cups along the boom.
func (r *PatternUniformityRequest) workPlace(w working.Working, mean wire.Quantity, d, x float64) wire.Quantity {
	if w.MethodsOnly {
		w.Line(method.OverlappedPlace, "", wire.Quantity{})
		return wire.Quantity{}
	}
	var volumes, shares []wire.Quantity
	var here float64
	for i, share := range calc.PatternShares(len(r.NozzlePattern.Volumes), d, x) {
		if share > 0 {
			volumes, shares = append(volumes, r.NozzlePattern.Volumes[i]), append(shares, working.PlainNumber(share))
			here += r.NozzlePattern.Volumes[i].SI() * share
		}
	}
	if volumes == nil {
		volumes, shares = []wire.Quantity{{Value: 0, Unit: mean.Unit}}, []wire.Quantity{working.PlainNumber(0)}
	}
	deviation := working.Dimensionless(here/mean.SI() - 1)
	if math.Abs(deviation.Value) < 1e-9 { // as calc takes it
		deviation.Value = 0
	}
	w.Line(method.OverlappedPlace, "", deviation).Each("x_i", volumes).Each("s_i", shares).With("m", mean)
	return deviation
}
