package calc

import (
	"math"
	"slices"

	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// A NozzlePattern is what one nozzle alone gave into a row of cups.
type NozzlePattern struct {
	CupSpacing unit.Length // center to center
	// Volumes are the cups in order, at least two; zero for an empty one. Empty
	// cups at the ends may be left out.
	Volumes []unit.Volume
}

// A SpacingRange asks for so many nozzle spacings, evenly from Low to High, both
// included.
type SpacingRange struct {
	Low, High unit.Length
	Steps     int // at least two
}

// A BoomPattern is the pattern of an endless boom of equal nozzles.
type BoomPattern struct {
	NozzleSpacing          unit.Length
	CoefficientOfVariation unit.Ratio
	Highest, Lowest        unit.Ratio      // deviations of the fullest and the emptiest place from the mean
	Even                   finding.Verdict // by the limits of PatternUniformity
}

// cutOff is the share of the fullest cup above which an outermost cup shows that
// the pattern goes on beyond the row. Our own choice, no published source.
const cutOff = 50 * unit.Percent

func (p NozzlePattern) given() bool { return p.CupSpacing != 0 || len(p.Volumes) > 0 }

// finer tells whether nozzles so far apart are closer than the cups.
func (p NozzlePattern) finer(spacing unit.Length) bool {
	return finding.Difference(float64(spacing), float64(p.CupSpacing)) < 0
}

// width is the distance between the places beside the row at which the pattern
// has come to nothing.
func (p NozzlePattern) width() unit.Length { return p.CupSpacing * unit.Length(len(p.Volumes)+1) }

func (r *PatternUniformityResult) overlap(in PatternUniformityInput) {
	p := in.NozzlePattern
	outer := max(p.Volumes[0], p.Volumes[len(p.Volumes)-1])
	if !finding.AtMost(float64(outer/slices.Max(p.Volumes)), float64(cutOff)) {
		r.Warnings = append(r.Warnings, finding.Warning{Place: finding.Member("nozzlePattern").Member("volumes"), Code: WarnPatternCutOff})
	}
	gap := func(spacing unit.Length) bool { return finding.Difference(float64(spacing), float64(p.width())) > 0 }
	if in.NozzleSpacing != 0 {
		r.Boom = r.boom(p, in.NozzleSpacing)
		if gap(in.NozzleSpacing) {
			r.Warnings = append(r.Warnings, finding.Warning{Place: finding.Member("nozzleSpacing"), Code: WarnGap})
		}
	}
	if in.SpacingRange == (SpacingRange{}) {
		return
	}
	r.BestFound = true
	r.Spacings = make([]BoomPattern, in.SpacingRange.Steps)
	for i := range r.Spacings {
		r.Spacings[i] = r.boom(p, in.SpacingRange.step(i))
		if cv := r.Spacings[i].CoefficientOfVariation; finding.AtMost(float64(cv), float64(r.Spacings[r.Best].CoefficientOfVariation)) {
			r.Best = i
		}
	}
	if gap(in.SpacingRange.High) {
		r.Warnings = append(r.Warnings, finding.Warning{Place: finding.Member("spacingRange").Member("high"), Code: WarnGap})
	}
}

// step is the i-th spacing. The ends are exactly Low and High.
func (s SpacingRange) step(i int) unit.Length {
	share := float64(i) / float64(s.Steps-1)
	return unit.Length(float64(s.Low)*(1-share) + float64(s.High)*share)
}

// boom overlaps the pattern of one nozzle with itself at a spacing. Between cups
// it is taken to run straight from one to the next, and to come to nothing one cup
// spacing beyond the outermost:
//
//	f(x) = sum over all nozzles k of g(x - k spacing)
//	mean = cupSpacing x sum of volumes / spacing
//	CV^2 = integral of (f - mean)^2 over one spacing / (spacing x mean^2)
//
// f is a chain of straight pieces that bend only where a cup of some nozzle lies,
// so both integrals are exact, not sampled. It is the CV of an endless row of very
// narrow cups: with so many, n and n - 1 are the same.
//
// Source: from the definition of the CV; worked by hand in the tests.
func (r *PatternUniformityResult) boom(p NozzlePattern, spacing unit.Length) BoomPattern {
	d := float64(spacing / p.CupSpacing) // in cup spacings, as every x below
	var sum float64
	for _, v := range p.Volumes {
		sum += float64(v)
	}
	bends := PatternBends(len(p.Volumes), d)
	mean := sum / d
	b := BoomPattern{NozzleSpacing: spacing}
	var squares, before float64
	for i, x := range bends {
		here := finding.Deviation(p.overlapped(x, d), mean)
		if i == 0 {
			b.Highest, b.Lowest = unit.Ratio(here), unit.Ratio(here)
		} else {
			squares += (x - bends[i-1]) * (before*before + before*here + here*here) / 3
		}
		b.Highest, b.Lowest = max(b.Highest, unit.Ratio(here)), min(b.Lowest, unit.Ratio(here))
		before = here
	}
	cv := math.Sqrt(squares / d)
	if cv < finding.Slack {
		cv = 0
	}
	b.CoefficientOfVariation = unit.Ratio(cv)
	b.Even = finding.Judge(cv, float64(r.MaxCoefficientOfVariation))
	if farthest := max(b.Highest, -b.Lowest); finding.Judge(float64(farthest), float64(r.MaxPlaceDeviation)) == finding.Outside {
		b.Even = finding.Outside
	}
	return b
}

// PatternBends are the places, in cup spacings from the first cup, at which the
// overlapped pattern of so many cups bends, from one nozzle to the same place of the
// next, d cup spacings on.
func PatternBends(cups int, d float64) []float64 {
	bends := make([]float64, 0, cups+3)
	for i := -1; i <= cups; i++ {
		x := math.Mod(float64(i), d)
		if x < 0 {
			x += d
		}
		bends = append(bends, x)
	}
	slices.Sort(bends)
	return append(bends, bends[0]+d)
}

// PatternShares are how much of each cup all nozzles, d cup spacings apart, give at x
// together: between two cups a share of each.
func PatternShares(cups int, d, x float64) []float64 {
	shares := make([]float64, cups)
	add := func(i int, share float64) {
		if i >= 0 && i < cups {
			shares[i] += share
		}
	}
	for k := math.Ceil((-1 - x) / d); x+k*d < float64(cups); k++ {
		at := x + k*d
		i := math.Floor(at)
		add(int(i), 1-(at-i))
		add(int(i)+1, at-i)
	}
	return shares
}

// overlapped is what all nozzles, d apart, give at x together.
func (p NozzlePattern) overlapped(x, d float64) (sum float64) {
	for k := math.Ceil((-1 - x) / d); x+k*d < float64(len(p.Volumes)); k++ {
		sum += p.single(x + k*d)
	}
	return sum
}

// single is what one nozzle gives at x, counted in cups from the first.
func (p NozzlePattern) single(x float64) float64 {
	i := math.Floor(x)
	left, right := p.cup(int(i)), p.cup(int(i)+1)
	return left + (right-left)*(x-i)
}

// cup is the reading of a cup; beyond the row there is nothing.
func (p NozzlePattern) cup(i int) float64 {
	if i < 0 || i >= len(p.Volumes) {
		return 0
	}
	return float64(p.Volumes[i])
}

func (p NozzlePattern) check() (v finding.Invalid) {
	v.Positive(float64(p.CupSpacing), finding.Member("cupSpacing"))
	if len(p.Volumes) < 2 {
		v.Add(finding.Member("volumes"), finding.CodeTooFew)
	}
	var sum float64
	for i, x := range p.Volumes {
		sum += float64(x)
		v.Optional(float64(x), finding.Item("volumes", i))
	}
	if sum/float64(len(p.Volumes)) == 0 { // of no cups that is no number
		v.Add(finding.Member("volumes"), CodeAllEmpty)
	}
	return v
}

func (s SpacingRange) check(cups unit.Length) (v finding.Invalid) {
	v.Positive(float64(s.Low), finding.Member("low"))
	v.Positive(float64(s.High), finding.Member("high"))
	if s.Steps < 2 {
		v.Add(finding.Member("steps"), finding.CodeTooFew)
	}
	if len(v) > 0 {
		return v
	}
	if s.Low > s.High {
		v.Add(finding.Member("low"), finding.CodeRangeInverted)
	} else if (NozzlePattern{CupSpacing: cups}).finer(s.Low) {
		v.Add(finding.Member("low"), CodeCloserThanCups)
	}
	return v
}
