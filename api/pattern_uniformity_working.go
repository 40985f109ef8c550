package api

import (
	"math"
	"slices"
	"strconv"

	"wetrun/calc"
	"wetrun/calc/method"
	"wetrun/calc/unit"
)

func (r *PatternUniformityRequest) methods(x *calc.PatternUniformityResult) methodSet {
	var s methodSet
	s.addIf(x.Even != calc.NotJudged, method.MeanOfValues, method.StandardDeviation, method.Variation, method.PlaceDeviation)
	s.addIf(x.Even != calc.NotJudged && r.Spacing.given(), method.PlaceDistance)
	s.addIf(x.Boom.Even != calc.NotJudged, method.OverlappedMean, method.OverlappedPlace, method.OverlappedVariation,
		method.HighestPlace, method.LowestPlace)
	s.addIf(x.BestFound, method.SpacingStep)
	return s
}

func (r *PatternUniformityRequest) work(w *working, x *calc.PatternUniformityResult, a *PatternUniformityResponse) {
	if a.Mean.given() {
		r.workRow(w, x, a)
	}
	if a.Boom != nil {
		r.workBoom(w, a)
	}
	for i := range a.Spacings {
		w.line(method.SpacingStep, "/spacings/"+strconv.Itoa(i)+"/nozzleSpacing", a.Spacings[i].NozzleSpacing,
			put("l", r.SpacingRange.Low), put("h", r.SpacingRange.High), putNumber("i", i), putNumber("n", r.SpacingRange.Steps))
	}
}

func (r *PatternUniformityRequest) workRow(w *working, x *calc.PatternUniformityResult, a *PatternUniformityResponse) {
	var volumes []Quantity
	for i := range r.Readings {
		volumes = append(volumes, r.Readings[i].Volume)
	}
	all, mean, n := putEach("x_i", volumes), put("m", a.Mean), putNumber("n", len(volumes))
	w.line(method.MeanOfValues, "/mean", a.Mean, all, n)
	w.line(method.StandardDeviation, "/standardDeviation", a.StandardDeviation, all, mean, n)
	w.line(method.Variation, "/coefficientOfVariation", a.CoefficientOfVariation, put("s", a.StandardDeviation), mean)
	for i := range volumes {
		w.line(method.PlaceDeviation, "/readings/"+strconv.Itoa(i)+"/deviation", a.Readings[i].Deviation, put("x", volumes[i]), mean)
	}
	if a.WorstPlace.Distance.given() {
		w.line(method.PlaceDistance, "/worstPlace/distance", a.WorstPlace.Distance, putNumber("i", x.Worst), put("b", r.Spacing))
	}
}

// workBoom adds the overlapped pattern of the nozzle spacing that was asked for: where
// its straight pieces end, and what follows over the pieces.
func (r *PatternUniformityRequest) workBoom(w *working, a *PatternUniformityResponse) {
	cups, spacing := put("b", r.NozzlePattern.CupSpacing), put("w", r.NozzleSpacing)
	var sum float64
	for _, v := range r.NozzlePattern.Volumes {
		sum += v.si()
	}
	d := r.NozzleSpacing.si() / r.NozzlePattern.CupSpacing.si()
	mean := in(sum/d, r.NozzlePattern.Volumes[0].Unit)
	w.line(method.OverlappedMean, "", mean, cups, putEach("x_i", r.NozzlePattern.Volumes), spacing)
	bends := calc.PatternBends(len(r.NozzlePattern.Volumes), d)
	var places, lengths []Quantity
	for i, x := range bends {
		volumes, shares := []Quantity{}, []Quantity{}
		var here float64
		for j, share := range calc.PatternShares(len(r.NozzlePattern.Volumes), d, x) {
			if share > 0 {
				volumes, shares = append(volumes, r.NozzlePattern.Volumes[j]), append(shares, plainNumber(share))
				here += r.NozzlePattern.Volumes[j].si() * share
			}
		}
		if len(volumes) == 0 {
			volumes, shares = []Quantity{{0, mean.Unit}}, []Quantity{plainNumber(0)}
		}
		place := bare(here/mean.si() - 1)
		if math.Abs(place.Value) < 1e-9 { // as calc takes it
			place.Value = 0
		}
		w.line(method.OverlappedPlace, "", place, putEach("x_i", volumes), putEach("s_i", shares), put("m", mean))
		places = append(places, place)
		if i > 0 {
			lengths = append(lengths, in((x-bends[i-1])*r.NozzlePattern.CupSpacing.si(), unit.ID(r.NozzleSpacing.Unit)))
		}
	}
	last := len(places) - 1
	w.line(method.OverlappedVariation, "/boom/coefficientOfVariation", a.Boom.CoefficientOfVariation,
		putEach("l_i", lengths), putEach("f_i", places[:last]), putEach("g_i", places[1:]), spacing)
	all := putEach("d_i", slices.Clip(places))
	w.line(method.HighestPlace, "/boom/highestDeviation", a.Boom.HighestDeviation, all)
	w.line(method.LowestPlace, "/boom/lowestDeviation", a.Boom.LowestDeviation, all)
}
