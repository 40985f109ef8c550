package calc

import "math"

// A Verdict tells whether something lies within its tolerance. The zero Verdict
// means that nobody judged it: not done is not passed.
type Verdict uint8

// The verdicts.
const (
	NotJudged Verdict = iota
	Within
	Outside
)

// slack is added to a limit before comparing, as a fraction, so that a reading
// exactly on its limit is inside in every unit although conversion rounds.
const slack = 1e-9

// atMost is the one comparator of this package: x does not exceed limit, both
// being fractions. It is inclusive.
func atMost(x, limit float64) bool { return x <= limit+slack }

// judge returns Within when a deviation's size does not exceed its limit.
func judge(deviation, limit float64) Verdict {
	if atMost(math.Abs(deviation), limit) {
		return Within
	}
	return Outside
}

// difference is a - b, and exactly 0 when that is below 1e-9 of the larger, which
// is what conversions leave behind.
func difference(a, b float64) float64 {
	d := a - b
	if math.Abs(d) < slack*math.Max(math.Abs(a), math.Abs(b)) {
		return 0
	}
	return d
}

// deviation is how far x is from reference, as a fraction of reference.
func deviation(x, reference float64) float64 { return difference(x, reference) / reference }
