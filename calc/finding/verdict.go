package finding

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

// Slack is added to a limit before comparing, as a fraction, so that a reading
// exactly on its limit is inside in every unit although conversion rounds.
const Slack = 1e-9

// AtMost is the one comparator: x does not exceed limit, both being fractions. It is
// inclusive.
func AtMost(x, limit float64) bool { return x <= limit+Slack }

// Judge returns Within when a deviation's size does not exceed its limit, both being
// fractions.
func Judge(deviation, limit float64) Verdict {
	if AtMost(math.Abs(deviation), limit) {
		return Within
	}
	return Outside
}

// Difference is a - b, and exactly 0 when that is below 1e-9 of the larger, which
// is what conversions leave behind.
func Difference(a, b float64) float64 {
	d := a - b
	if math.Abs(d) < Slack*math.Max(math.Abs(a), math.Abs(b)) {
		return 0
	}
	return d
}

// Deviation is how far x is from reference, as a fraction of reference.
func Deviation(x, reference float64) float64 { return Difference(x, reference) / reference }
