package certainty

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"
)

// summed is what lies below x of an error anywhere between -a and a, and of one with a
// distribution of its own, by Simpson's rule.
func summed(x, a float64, rest func(float64) float64) float64 {
	const n = 20_000
	sum := rest(x-a) + rest(x+a)
	for i := 1; i < n; i++ {
		sum += rest(x-a+2*a*float64(i)/n) * float64(2+2*(i%2))
	}
	return sum / (3 * n)
}

// TestReferenceReach holds the closed form, and what is searched for by it, against the sum by
// numerical integration. Alone, a rectangular error reaches 0.95 of its half-width, and t and
// the normal what their tables say.
func TestReferenceReach(t *testing.T) {
	for _, a := range []float64{1e-4, 0.02, 0.5, 1, 3, 40} {
		for _, nu := range []float64{0, 3, 4.5, 12, 300} {
			rest := distuv.UnitNormal.CDF
			if nu > 0 {
				rest = distuv.StudentsT{Sigma: 1, Nu: nu}.CDF
			}
			d := Distribution{Widest: a, Rest: 1, Freedom: nu}
			near(t, "97.5 %", summed(d.Reach(), a, rest), 0.975, 1e-8)
			near(t, "95 %", summed(d.Quantile(0.95), a, rest), 0.95, 1e-8)
			for _, x := range []float64{-2, -0.3, 0, 0.7, 1.9} {
				near(t, "below", d.Below(x), summed(x, a, rest), 1e-7)
			}
		}
	}
	near(t, "rectangular", Distribution{Widest: 2}.Reach(), 1.9, 1e-9)
	near(t, "rectangular, below", Distribution{Widest: 2}.Below(1), 0.75, 1e-9)
	for x, want := range map[float64]float64{-3: 0, -2: 0, -1.5: 0.125, 0: 0.5, 2: 1, 3: 1} {
		near(t, "rectangular, below", Distribution{Widest: 2}.Below(x), want, 1e-9)
	}
	near(t, "hardly wide", Distribution{Widest: 1e-6, Rest: 1}.Below(-1), 0.158655254, 1e-8)
	// Of one and of two degrees of freedom beside next to nothing, by the usual table.
	for nu, want := range map[float64]float64{1: 12.706, 2: 4.3027} {
		few := (&Budget{SourceRuns: {1, nu}, SourceSprayedWidth: {Standard: 1e-4}}).Combine(1, Widest{})
		near(t, "few degrees", few.CoverageFactor, want, 1e-4)
	}
	near(t, "normal", Distribution{Rest: 2}.Reach(), 2*1.959963985, 1e-9)
	near(t, "t", Distribution{Rest: 2, Freedom: 4}.Reach(), 2*2.776445105, 1e-9)
}

// A grid has the chances of the steps that an error may be in, in twentieths of its standard
// uncertainty, to twenty of that either way.
type grid [801]float64

// errors are the chances of an error whose distribution is known.
func errors(below func(x float64) float64) (g grid) {
	for i := range g {
		at := float64(i-len(g)/2) / 20
		g[i] = below(at+0.025) - below(at-0.025)
	}
	return g
}

// and is the sum of two errors.
func (g *grid) and(h *grid) (sum grid) {
	for i, p := range g {
		for j, q := range h {
			if k := i + j - len(g)/2; p > 1e-12 && k >= 0 && k < len(sum) {
				sum[k] += p * q
			}
		}
	}
	return sum
}

// TestReferenceManySources: of what is known of up to three scales, two scatters and a stated
// figure the distributions are summed numerically, whatever they are. From four degrees of
// freedom on the interval is within 2 % of theirs, and every probability within one point.
func TestReferenceManySources(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	size := func() float64 { return math.Exp(3 * (r.Float64() - 0.5)) }
	for range 30 {
		var b Budget
		var widest Widest
		var scales []float64
		for k := range InstrumentKind(r.IntN(4)) {
			b[scaleOf(k)].Standard = size()
			widest.Scale = max(widest.Scale, b[scaleOf(k)].Standard*b[scaleOf(k)].Standard)
			scales = append(scales, b[scaleOf(k)].Standard*math.Sqrt(3))
		}
		for _, s := range []Source{SourceRuns, SourceCatches}[:r.IntN(3)] {
			b[s] = Component{size(), float64(4 + r.IntN(16))}
		}
		b[SourceSprayedWidth].Standard = size() * float64(r.IntN(2))
		u := b.Combine(1, widest)
		if u.Standard == 0 {
			continue
		}
		sum := errors(func(x float64) float64 { return math.Max(0, math.Copysign(1, x)) })
		add := func(below func(float64) float64) {
			one := errors(below)
			sum = sum.and(&one)
		}
		for _, a := range scales {
			add(distuv.Uniform{Min: -a / u.Standard, Max: a / u.Standard}.CDF)
		}
		for _, c := range b {
			if c.DegreesOfFreedom > 0 {
				add(distuv.StudentsT{Sigma: c.Standard / u.Standard, Nu: c.DegreesOfFreedom}.CDF)
			}
		}
		if s := b[SourceSprayedWidth].Standard; s > 0 {
			add(distuv.Normal{Sigma: s / u.Standard}.CDF)
		}
		below, reach := sum[len(sum)/2]/2, 0.0 // of what is above the middle
		for i := len(sum) / 2; i < len(sum)-1; i++ {
			edge := (float64(i-len(sum)/2) + 0.5) / 20
			if p := u.Error.Below(edge * u.Standard); math.Abs(p-0.5-below) > 0.01 {
				t.Errorf("%v: below %.3f u with %.4f, by the sum %.4f", b, edge, p, 0.5+below)
			}
			if next := below + sum[i+1]; reach == 0 && next > 0.475 {
				reach = edge + (0.475-below)/sum[i+1]/20
			}
			below += sum[i+1]
		}
		if math.Abs(u.CoverageFactor/reach-1) > 0.02 {
			t.Errorf("%v: %.4f u, by the sum %.4f", b, u.CoverageFactor, reach)
		}
	}
}

// TestReferenceBothWithin: of two normal errors with a correlation r both are below 0 with 1/4 +
// arcsin r / (2 pi) (W. Sheppard, 1899, from memory); without one each by itself, and with one
// of 1 the less likely counts. Two limits take off both tails: by a table 0.9 and 0.8 of each.
func TestReferenceBothWithin(t *testing.T) {
	low := Judged{Value: 0, Uncertainty: normal(1), Low: Unlimited, High: 0}
	for _, r := range []float64{-0.95, -0.5, 0, 0.3, 0.8, 0.99, 0.9999} {
		near(t, "orthant", BothWithin(low.Outside(), low.Outside(), r), 0.25+math.Asin(r)/(2*math.Pi), 1e-6)
	}
	a := Judged{Value: 0, Uncertainty: normal(1), Low: -1.644854, High: 1.644854}
	b := Judged{Value: 0, Uncertainty: normal(1), Low: -1.281552, High: 1.281552}
	near(t, "independent", BothWithin(a.Outside(), b.Outside(), 0), 0.72, 1e-6)
	near(t, "one error", BothWithin(a.Outside(), b.Outside(), 0.9999), 0.8, 1e-3)
	exact := Judged{Value: 0, Uncertainty: normal(0), Low: -1, High: 1}
	near(t, "one exact", BothWithin(a.Outside(), exact.Outside(), 0), 0.9, 1e-6)
	exact.Value = 2
	near(t, "one exact and outside", BothWithin(a.Outside(), exact.Outside(), 0), 0, 1e-6)

	// Between limits on both sides, by Simpson's rule over the one of what is left of the other.
	for _, r := range []float64{-0.9, -0.5, 0.5, 0.8} {
		const n, x, y = 20_000, 1.644854, 1.281552
		sum, left := 0.0, math.Sqrt(1-r*r)
		for i := range n + 1 {
			z, weight := -x+2*x*float64(i)/n, float64(2+2*(i%2))
			if i == 0 || i == n {
				weight = 1
			}
			sum += weight * distuv.UnitNormal.Prob(z) * (distuv.UnitNormal.CDF((y-r*z)/left) - distuv.UnitNormal.CDF((-y-r*z)/left))
		}
		near(t, "both sides", BothWithin(a.Outside(), b.Outside(), r), sum*2*x/(3*n), 1e-6)
	}
}
