package certainty

import (
	"math"
	"slices"
	"sort"
	"sync/atomic"

	"gonum.org/v1/gonum/mathext"
	"gonum.org/v1/gonum/stat/distuv"

	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// SamplingInput is how many of the places to catch at were caught and how many of
// those are outside. What counts is the catch point, a drop or a nozzle that hangs
// alone, and not the nozzle.
type SamplingInput struct {
	Caught, Outside int
	// CatchPointsOnBoom is how many there are on the whole boom. Zero when not known.
	CatchPointsOnBoom int
	// ReplaceAllAbove is the share outside above which all nozzles are replaced.
	// Zero stands for DefaultReplaceAllAbove.
	ReplaceAllAbove unit.Ratio
	// ReplaceAllFrom, instead of it, is how many outside are enough. It needs
	// CatchPointsOnBoom: a count is of the whole boom.
	ReplaceAllFrom int
	// CaughtOn is how many of Caught were caught at each side, by Position; the first
	// is those of which the side is not known.
	CaughtOn [len(Positions)]int
}

// DefaultReplaceAllAbove is the share of the tested outside from which on all nozzles are
// replaced. Common practice, no published source.
const DefaultReplaceAllAbove = 25 * unit.Percent

// CodeFewerThanCaught: more catches than catch points.
const CodeFewerThanCaught = "fewer_than_caught"

// SamplingConfidence is that of the interval, and of what counts as settled.
const SamplingConfidence = 95 * unit.Percent

// samplingTail is what the interval leaves out at either end.
const samplingTail = (1 - float64(SamplingConfidence)) / 2

// mostCatchesPlanned is how many catches in all are ever asked for where the boom's
// own number is not known: more than any boom has places for.
const mostCatchesPlanned = 1000

// SamplingResult is what a round of catches tells of the whole boom.
type SamplingResult struct {
	Caught, Outside int // as they were given
	// Low and High bound the share outside of all catch points of the boom.
	Low, High unit.Ratio
	// LowPoints and HighPoints are the same in catch points; zero, both of them, also
	// when their number is not known.
	LowPoints, HighPoints int
	// Known tells that every point was caught: Low and High are then what was seen.
	Known bool
	// ChanceAbove is the chance that the share of the whole boom is more than the limit.
	ChanceAbove unit.Ratio
	// Settled is where the interval lies.
	Settled Settled
	// More is how many more catches settle it while the share outside stays as seen.
	// Zero when it is settled, and when not even a thousand catches would.
	More int
	// AllOthers tells that More is every point not yet caught.
	AllOthers bool
	// MoreOn are the sides with the fewest catches, to begin at. Nil when a side is
	// not known, when all have as many, and with AllOthers.
	MoreOn []Position
}

// Settled tells whether the share of the whole boom is known to be above the limit.
type Settled string

const (
	SettledOpen     Settled = "open"      // the interval holds the limit
	SettledNotAbove Settled = "not_above" // it lies at or below the limit
	SettledAbove    Settled = "above"
)

// Words lists every state.
func (Settled) Words() []string {
	return finding.WordsOf([]Settled{SettledOpen, SettledNotAbove, SettledAbove})
}

// Sampling says what catches at some of the points of a boom tell of all of them,
// when the points were picked at random. With n caught, x of them outside, and N
// points on the boom, K of them outside:
//
//	N not known: Low = B(a/2; x, n-x+1), High = B(1-a/2; x+1, n-x)
//	N known:     Low, High = least and greatest K / N with P(X >= x | K) > a/2 and P(X <= x | K) > a/2
//
// B being the quantile of the beta distribution, X hypergeometric, and a =
// 1 - SamplingConfidence. Both intervals are exact: whatever the share of the boom,
// at least 95 % of such rounds hold it between their ends. x = 0 has Low 0 and x = n
// has High 1 where N is not known.
//
// ChanceAbove has Jeffreys' prior, beta(1/2, 1/2), for the share: afterwards it is
// beta(x + 1/2, n - x + 1/2), and what is outside among the N - n points not caught
// is beta-binomial with the same two. It needs the prior, which the interval does
// not.
//
// More is counted with the share rounded against what it leans to, so that it does
// not end on a lucky whole number: outside rounded up when the share seen is at or
// below the limit, else inside rounded up.
//
// At least one point is caught (too_few), of which no more are outside than were
// caught and none less than zero (not_allowed); there are not fewer points than
// catches (fewer_than_caught); the limit is not below zero (not_positive), and either a share
// or a count (conflict), which needs the number of points (required).
//
// Source: C. Clopper and E. Pearson, The use of confidence or fiducial limits
// illustrated in the case of the binomial, Biometrika 26, 1934; the same with
// hypergeometric tails where the number of points is known; H. Jeffreys, An
// invariant form for the prior probability, 1946. All from memory, none read: the
// tests invert the tail sums by brute force and count the coverage.
func Sampling(in SamplingInput) (SamplingResult, error) {
	if err := in.check(); err != nil {
		return SamplingResult{}, err
	}
	in.ReplaceAllAbove = in.limit()
	r := SamplingResult{Caught: in.Caught, Outside: in.Outside, Known: in.Caught == in.CatchPointsOnBoom}
	limit := float64(in.ReplaceAllAbove)
	if n := in.CatchPointsOnBoom; n > 0 {
		r.HighPoints = MostOutside(in.Outside, in.Caught, n)
		r.LowPoints = n - MostOutside(in.Caught-in.Outside, in.Caught, n)
		r.Low, r.High = unit.Ratio(float64(r.LowPoints)/float64(n)), unit.Ratio(float64(r.HighPoints)/float64(n))
	} else {
		r.Low, r.High = in.clopperPearson()
	}
	r.ChanceAbove = unit.Ratio(in.chanceAbove())
	switch {
	case finding.AtMost(float64(r.High), limit):
		r.Settled = SettledNotAbove
	case !finding.AtMost(float64(r.Low), limit):
		r.Settled = SettledAbove
	default:
		r.Settled = SettledOpen
		r.More = in.more()
		r.AllOthers = in.Caught+r.More == in.CatchPointsOnBoom
		if r.More > 0 && !r.AllOthers {
			r.MoreOn = in.fewest()
		}
	}
	return r, nil
}

func (in SamplingInput) check() error {
	var v finding.Invalid
	if in.Caught < 1 {
		v.Add(finding.Member("caught"), finding.CodeTooFew)
	}
	if in.Outside < 0 || in.Outside > in.Caught {
		v.Add(finding.Member("outside"), finding.CodeNotAllowed)
	}
	if in.CatchPointsOnBoom != 0 && in.CatchPointsOnBoom < in.Caught {
		v.Add(finding.Member("catchPointsOnBoom"), CodeFewerThanCaught)
	}
	in.CheckLimit(&v)
	return v.Err()
}

// CheckLimit looks at what says when all nozzles are replaced.
func (in SamplingInput) CheckLimit(v *finding.Invalid) {
	v.Optional(float64(in.ReplaceAllAbove), finding.Member("replaceAllAbove"))
	if in.ReplaceAllFrom == 0 {
		return
	}
	if in.ReplaceAllFrom < 0 {
		v.Add(finding.Member("replaceAllFrom"), finding.CodeNotPositive)
	}
	if in.ReplaceAllAbove != 0 {
		v.Conflict(finding.Member("replaceAllFrom"), finding.Member("replaceAllAbove"))
	}
	if in.CatchPointsOnBoom == 0 {
		v.RequiredBy(finding.Member("catchPointsOnBoom"), finding.Member("replaceAllFrom"))
	}
}

// limit is the share above which the set is replaced.
func (in SamplingInput) limit() unit.Ratio {
	switch {
	case in.ReplaceAllFrom != 0:
		return unit.Ratio(float64(in.ReplaceAllFrom-1) / float64(in.CatchPointsOnBoom))
	case in.ReplaceAllAbove == 0:
		return DefaultReplaceAllAbove
	}
	return in.ReplaceAllAbove
}

// AtLimit is the greatest number of points outside that is not above the limit.
func (in SamplingInput) AtLimit() int {
	n := float64(in.CatchPointsOnBoom)
	if in.ReplaceAllFrom != 0 {
		return min(in.ReplaceAllFrom-1, in.CatchPointsOnBoom)
	}
	return int(math.Floor(min((float64(in.ReplaceAllAbove)+finding.Slack)*n, n)))
}

// MostOutside is the greatest number of marked points among n that x marked of m
// caught are still likely enough with.
func MostOutside(x, m, n int) int {
	return x + sort.Search(n-m, func(i int) bool {
		return !likely(draw{points: n, marked: x + i + 1}.atMost(x, m))
	})
}

// likely tells that a tail is no part of what the interval leaves out.
func likely(tail float64) bool { return tail > samplingTail*(1+finding.Slack) }

// An interval is from what to what a share may be.
type interval struct{ low, high unit.Ratio }

// intervals keeps those of rounds below 64 catches, some 64 kB at most: an inverse beta
// function takes longer than all the rest of a round.
var intervals [64][64]atomic.Pointer[interval]

func (in SamplingInput) clopperPearson() (low, high unit.Ratio) {
	if in.Caught >= len(intervals) {
		return in.betaInterval()
	}
	kept := &intervals[in.Outside][in.Caught]
	if i := kept.Load(); i != nil {
		return i.low, i.high
	}
	low, high = in.betaInterval()
	kept.Store(&interval{low, high})
	return low, high
}

func (in SamplingInput) betaInterval() (low, high unit.Ratio) {
	x, n := float64(in.Outside), float64(in.Caught)
	high = 1
	if x > 0 {
		low = unit.Ratio(distuv.Beta{Alpha: x, Beta: n - x + 1}.Quantile(samplingTail))
	}
	if x < n {
		high = unit.Ratio(distuv.Beta{Alpha: x + 1, Beta: n - x}.Quantile(1 - samplingTail))
	}
	return low, high
}

// chanceAbove is the posterior chance that the share of the boom is above the limit.
func (in SamplingInput) chanceAbove() float64 {
	a, b := float64(in.Outside)+0.5, float64(in.Caught-in.Outside)+0.5
	if in.CatchPointsOnBoom > 0 {
		return BetaBinomialAbove(in.AtLimit()-in.Outside, in.CatchPointsOnBoom-in.Caught, a, b)
	}
	return 1 - mathext.RegIncBeta(a, b, min(float64(in.ReplaceAllAbove), 1))
}

// more walks through further catches, one by one, with the share kept. What it
// watches is the tail of the nearest share on the other side of the limit.
func (in SamplingInput) more() int {
	seen, caught := in.Outside, in.Caught
	other := draw{points: in.CatchPointsOnBoom, marked: in.AtLimit() + 1, share: float64(in.ReplaceAllAbove)}
	if !finding.AtMost(float64(seen)/float64(caught), float64(in.ReplaceAllAbove)) {
		seen = caught - seen // the points within are the few
		other.marked, other.share = other.points-in.AtLimit(), 1-other.share
	}
	k, most := seen, mostCatchesPlanned
	if other.points > 0 {
		most = other.points
	}
	tail, term := other.atMost(k, caught), other.chance(k, caught)
	for m := caught; m < most; m++ {
		if (seen*(m+1)+caught-1)/caught > k { // rounded up
			term *= other.ratio(k, m)
			tail += term
			k++
		}
		next := other.next(k, m)
		tail -= term * next
		term *= (1 - next) * float64(m+1) / float64(m+1-k)
		if !likely(tail) {
			return m + 1 - caught
		}
	}
	return max(other.points-caught, 0) // all of them tell, whatever they tell
}

// fewest are the sides with the fewest catches.
func (in SamplingInput) fewest() (few []Position) {
	on := in.CaughtOn[1:]
	if on[0]+on[1]+on[2] != in.Caught { // the side of some is not known
		return nil
	}
	least := slices.Min(on)
	for i, caught := range on {
		if caught == least {
			few = append(few, Sides[i])
		}
	}
	if len(few) == len(Sides) {
		return nil
	}
	return few
}
