package certainty

import (
	"math"

	"gonum.org/v1/gonum/mathext"
	"gonum.org/v1/gonum/stat/distuv"

	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// An Outlier is a value that stands apart from the others.
type Outlier struct {
	Value     int // its place in the list
	Test      OutlierTest
	Statistic float64
	Critical  float64 // what the statistic exceeds
	Without   int     // the place of the one that was taken out before; -1 for none
}

// OutlierTest tells what found an outlier.
type OutlierTest string

const (
	GrubbsTest OutlierTest = "grubbs" // the one furthest from the mean
	RangeTest  OutlierTest = "range"  // the lowest and the highest together
)

// Words lists every test.
func (OutlierTest) Words() []string { return finding.WordsOf([]OutlierTest{GrubbsTest, RangeTest}) }

// OutlierSignificance is how often at most the tests together find an outlier among
// values that differ by chance alone; OutlierTestSignificance is the half of it that
// each of the two has (Bonferroni).
const (
	OutlierSignificance     = 5 * unit.Percent
	OutlierTestSignificance = OutlierSignificance / 2
)

// FewestForOutliers is how many values the tests need. Of fewer the tests say too
// much: where all but one agree to the mark of the jug, the odd one is an outlier
// of any three to six, however near it is. The e-Handbook of Statistical Methods,
// NIST/SEMATECH, section 1.3.5.17, warns of six or fewer (from memory, not read).
const FewestForOutliers = 7

// Outliers tells which of some values, normally distributed but for those, stand
// apart: by Grubbs' test, two-sided, and where that finds none, by the range, since
// one high and one low value hide each other in a standard deviation that both
// make large. Where Grubbs' test finds one, the others are tested once more without
// it. Two that are high together, or low together, can still hide each other.
//
//	single:   G = |x - mean| / s > (n-1)/sqrt(n) sqrt(t²/(n-2+t²)), t at a/(2n)
//	opposite: w/s = (highest - lowest) / s > sqrt(2(n-1) t²/(n-2+t²)), t at a/(n(n-1))
//
// with t the upper quantile of Student's distribution with n - 2 degrees of freedom
// and a = OutlierTestSignificance. A pair's difference over s sqrt(2) is distributed as
// one value's residual is, so the second is exact for one pair and, by the sum over
// all n(n-1) ordered pairs, at most a for the widest. Either test finds something in
// at most 2 a = OutlierSignificance of all sets without an outlier.
//
// Fewer than FewestForOutliers values, and values that are all alike, have no
// outliers. There are no errors: values are finite. The order is that of finding;
// of a pair the lowest comes first.
//
// Source: F. Grubbs, Procedures for detecting outlying observations in samples,
// Technometrics 11, 1969; the range over s: H. David, H. Hartley, E. Pearson,
// Biometrika 41, 1954. Both from memory, not read. Critical values agree with the
// table of Analytical Chemistry, LibreTexts, appendix 7.
func Outliers(values []float64) []Outlier {
	if len(values) < FewestForOutliers {
		return nil
	}
	s := placingOf(values, -1)
	if s.sd == 0 {
		return nil
	}
	if i, g, apart := s.furthest(values); apart {
		found := []Outlier{{i, GrubbsTest, g, criticalGrubbs(len(values), OutlierTestSignificance), -1}}
		if rest := placingOf(values, i); len(values) > FewestForOutliers && rest.sd > 0 {
			if j, g, apart := rest.furthest(values); apart {
				found = append(found, Outlier{j, GrubbsTest, g, criticalGrubbs(len(values)-1, OutlierTestSignificance), i})
			}
		}
		return found
	}
	w := (values[s.highest] - values[s.lowest]) / s.sd
	if !standsApart(w*w/(2*(s.n-1)), s.n, s.n*(s.n-1)/2) {
		return nil
	}
	critical := criticalRange(len(values), OutlierTestSignificance)
	return []Outlier{{s.lowest, RangeTest, w, critical, -1}, {s.highest, RangeTest, w, critical, -1}}
}

// criticalGrubbs is what G must exceed among n values, at least 3, for the one
// furthest from the mean to be an outlier, two-sided at a significance. See Outliers
// for the formula and its source.
func criticalGrubbs(n int, significance unit.Ratio) float64 {
	x := float64(n)
	return (x - 1) / math.Sqrt(x) * math.Sqrt(criticalShare(x, x, significance))
}

// criticalRange is what the range over the standard deviation must exceed among n
// values, at least 3, for the lowest and the highest to be outliers at a significance.
// See Outliers for the formula and its source.
func criticalRange(n int, significance unit.Ratio) float64 {
	x := float64(n)
	return math.Sqrt(2 * (x - 1) * criticalShare(x, x*(x-1)/2, significance))
}

// criticalShare is the share of all squared deviations of n values above which one
// of so many directions stands apart, t² / (n - 2 + t²).
func criticalShare(n, directions float64, significance unit.Ratio) float64 {
	t := distuv.StudentsT{Sigma: 1, Nu: n - 2}.Quantile(1 - float64(significance)/(2*directions))
	return t * t / (n - 2 + t*t)
}

// standsApart is the same question without a quantile, which costs twenty times as
// much: whether the chance of such a share in any of so many directions is small.
func standsApart(share, n, directions float64) bool {
	return directions*mathext.RegIncBeta((n-2)/2, 0.5, math.Max(1-share, 0)) < float64(OutlierTestSignificance)
}

// A placing is how values lie about their mean.
type placing struct {
	n, mean, sd     float64
	lowest, highest int
}

// placingOf looks at all values but one; -1 for all of them.
func placingOf(values []float64, without int) placing {
	s := placing{lowest: -1}
	for i, x := range values {
		if i == without {
			continue
		}
		if s.lowest < 0 {
			s.lowest, s.highest = i, i
		}
		if x < values[s.lowest] {
			s.lowest = i
		}
		if x > values[s.highest] {
			s.highest = i
		}
		s.n++
		s.mean += x
	}
	s.mean /= s.n
	squares := 0.0
	for i, x := range values {
		if i != without {
			squares += (x - s.mean) * (x - s.mean)
		}
	}
	s.sd = math.Sqrt(squares / (s.n - 1))
	if s.sd < finding.Slack*math.Abs(s.mean) {
		s.sd = 0
	}
	return s
}

// furthest is the value furthest from the mean, how many standard deviations that
// is, and whether it stands apart.
func (s placing) furthest(values []float64) (i int, g float64, apart bool) {
	i = s.highest
	if s.mean-values[s.lowest] > values[s.highest]-s.mean {
		i = s.lowest
	}
	g = math.Abs(values[i]-s.mean) / s.sd
	return i, g, standsApart(g*g*s.n/((s.n-1)*(s.n-1)), s.n, s.n)
}
