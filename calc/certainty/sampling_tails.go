package certainty

import "math"

// A draw is the law of how many marked points are among m caught at random: with
// points known it is hypergeometric, else binomial with the share.
type draw struct {
	points, marked int     // points is zero when not known
	share          float64 // of the marked, when points is not known
}

// next is the chance that the next point is marked when k of m were.
func (d draw) next(k, m int) float64 {
	if d.points == 0 {
		return d.share
	}
	return float64(d.marked-k) / float64(d.points-m)
}

// ratio is the chance of k + 1 marked of m over that of k, where k is possible.
func (d draw) ratio(k, m int) float64 {
	choices := float64(m-k) / float64(k+1)
	if d.points == 0 {
		return choices * d.share / (1 - d.share)
	}
	return choices * float64(d.marked-k) / float64(d.points-d.marked-m+k+1)
}

// chance is that of k marked of m, where k is possible.
func (d draw) chance(k, m int) float64 {
	if d.points == 0 {
		return math.Exp(logChoose(m, k) + float64(k)*math.Log(d.share) + float64(m-k)*math.Log1p(-d.share))
	}
	return math.Exp(logChoose(d.marked, k) + logChoose(d.points-d.marked, m-k) - logChoose(d.points, m))
}

// atMost is the chance of at most k marked of m, where k is possible. Up to the middle
// the terms only fall from k down, and below what is possible they are nothing. Beyond it
// the chance is a half or more, since the median is next to the middle, and counts as 1:
// nothing that asks tells a half from 1.
func (d draw) atMost(k, m int) float64 {
	middle := float64(m) * d.share
	if d.points > 0 {
		middle = float64(m) * float64(d.marked) / float64(d.points)
	}
	if float64(k) > middle {
		return 1
	}
	var sum float64
	for term := d.chance(k, m); term > enough*sum; k-- {
		sum += term
		term /= d.ratio(k-1, m)
	}
	return sum
}

// enough is the share of a sum below which a further term is left out.
const enough = 1e-17

func logChoose(n, k int) float64 {
	return logGamma(float64(n+1)) - logGamma(float64(k+1)) - logGamma(float64(n-k+1))
}

func logGamma(x float64) float64 { l, _ := math.Lgamma(x); return l }

func logBeta(a, b float64) float64 { return logGamma(a) + logGamma(b) - logGamma(a+b) }

// BetaBinomialAbove is the chance of more than k among n, each of which is one with
// a chance that is itself beta(a, b).
func BetaBinomialAbove(k, n int, a, b float64) float64 {
	switch {
	case k < 0:
		return 1
	case k >= n:
		return 0
	}
	up := float64(k) >= float64(n)*a/(a+b)
	if up {
		k++
	}
	sum, y, rest := 0.0, float64(k), float64(n-k)
	term := math.Exp(logChoose(n, k) + logBeta(y+a, rest+b) - logBeta(a, b))
	if up {
		for ; term > enough*sum; y, rest = y+1, rest-1 {
			sum += term
			term *= rest / (y + 1) * (y + a) / (rest - 1 + b)
		}
		return sum
	}
	for ; term > enough*sum; y, rest = y-1, rest+1 {
		sum += term
		term *= y / (rest + 1) * (rest + b) / (y - 1 + a)
	}
	return 1 - sum
}
