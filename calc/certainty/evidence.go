package certainty

import (
	"math"

	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// MostDoubt is how likely a boom may be above the limit, after what was caught of it was put
// in order, and still be ready: a third (own judgement). Of a dozen caught of a long boom two
// may then have been outside, of which common practice says that fixing them is enough.
const MostDoubt = unit.Ratio(1. / 3)

// CatchesNeeded is how many catches, all of them in order, show that no more than the limit
// of a boom is outside: the fewest with which the exact one-sided 95 % bound of the share
// outside is not above it. A boom of fewer points is caught whole; points is zero when their
// number is not known.
//
//	N not known: (1 - limit)^n <= 5 %
//	N known:     chance of none among n, K + 1 of N being outside, <= 5 %, K being the most that the limit allows
//
// Source: C. Clopper and E. Pearson, 1934 (from memory, not read); the tests sum by hand.
func CatchesNeeded(points int, limit unit.Ratio) int {
	in := SamplingInput{CatchPointsOnBoom: points, ReplaceAllAbove: limit}
	if in.ReplaceAllAbove == 0 {
		in.ReplaceAllAbove = DefaultReplaceAllAbove
	}
	if points == 0 {
		if limit = in.ReplaceAllAbove; limit >= 1 {
			return 1
		}
		return int(math.Ceil(math.Log(1-float64(SureEnough))/math.Log1p(-float64(limit)) - finding.Slack))
	}
	within := points - in.AtLimit() - 1 // where one more than allowed is outside
	n, none := 0, 1.0
	for ; none > 1-float64(SureEnough); n++ { // it is nothing where all are caught, at the latest
		none *= max(float64(within-n), 0) / float64(points-n)
	}
	return n
}

// MoreInOrder is how many more catches, all in order, make the round speak for the boom: as
// many as CatchesNeeded, with no larger share outside than the limit, and a chance of at most
// MostDoubt that the boom is above it. What was outside counts though it was put in order
// since: of the others it tells what it told. Zero when it speaks already, and for a boom that
// was caught whole.
func (in SamplingInput) MoreInOrder() (more int) {
	if in.ReplaceAllAbove == 0 {
		in.ReplaceAllAbove = DefaultReplaceAllAbove
	}
	first, most := in.Caught, in.CatchPointsOnBoom
	if most == 0 {
		most = mostCatchesPlanned
	}
	in.Caught = max(first, min(CatchesNeeded(in.CatchPointsOnBoom, in.ReplaceAllAbove), most))
	for in.Caught < most && !in.speaks() {
		in.Caught++
	}
	return in.Caught - first
}

// speaks tells that what was outside leaves little doubt about the rest of the boom.
func (in SamplingInput) speaks() bool {
	return in.Outside == 0 || finding.AtMost(float64(in.Outside)/float64(in.Caught), float64(in.ReplaceAllAbove)) && finding.AtMost(in.chanceAbove(), float64(MostDoubt))
}

// MoreToSettle is how many more catches, all in order, settle that the boom is not above the
// limit: the whole interval of Sampling lies below it then. Zero when that is settled, and when
// not even all of them would.
func (in SamplingInput) MoreToSettle() int {
	if in.ReplaceAllAbove == 0 {
		in.ReplaceAllAbove = DefaultReplaceAllAbove
	}
	first, most := in.Caught, in.CatchPointsOnBoom
	if most == 0 {
		most = mostCatchesPlanned
	}
	for ; in.Caught <= most; in.Caught++ {
		var high float64
		if in.CatchPointsOnBoom == 0 {
			_, share := in.clopperPearson()
			high = float64(share)
		} else {
			high = float64(MostOutside(in.Outside, in.Caught, most)) / float64(most)
		}
		if finding.AtMost(high, float64(in.ReplaceAllAbove)) {
			return in.Caught - first
		}
	}
	return 0
}
