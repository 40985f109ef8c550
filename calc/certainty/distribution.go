package certainty

import (
	"math"

	"gonum.org/v1/gonum/mathext"
	"gonum.org/v1/gonum/stat/distuv"

	"wetrun/calc/finding"
)

// A Distribution is that of the error of a result, as a share of its reference: the sum of one
// error that is as likely anywhere within Widest either way, and of Rest times Student's t
// with Freedom degrees of freedom, or times a normal error of 1 where there is no end to them,
// which 0 stands for.
//
// What is known of each source says how its error is distributed (JCGM 101:2008, 6.4.2 a scale
// and a display, 6.4.7 what was stated, 6.4.9 what was estimated from repeats: t at the degrees
// of freedom, whose variance is nu / (nu - 2) times u^2). Of their sum the widest rectangular
// one is kept as it is, since nothing else is as far from normal (P. Fotowicz, An analytical
// method for calculating a coverage interval, Metrologia 43, 2006), and the others are taken
// together as one t by their moments, as V. Patil does with two (Approximation to the
// Behrens-Fisher distributions, Biometrika 52, 1965). All three are from memory, not read.
//
// Welch and Satterthwaite's degrees of freedom are those of u itself, which is another
// question: t at them leaves out nu / (nu - 2), and with that 3 to 10 % of an interval.
type Distribution struct{ Widest, Rest, Freedom float64 }

// A Widest is the variance of the widest rectangular error among readings and among scales,
// as shares squared.
type Widest struct{ Reading, Scale float64 }

// Patil matches the second and the fourth moment, nu / (nu - 2) and 1 / (nu - 4). Moments of
// lower order, which there are from three degrees of freedom on, come nearer at 95 %: with
// four degrees or more of each source within 2 % of the interval and one point of a probability
// (see the tests). Among others three come within 5 % of the interval, two within 6 % and one
// within 26 %, which is next to no knowledge; own, by comparison with numerical convolution.
const (
	varianceOrder, spreadOrder = 1.8, 2
	fewestFreedom              = 3
)

// farther is how much farther t reaches to 95 % with one and with two degrees of freedom than
// with three, which stand in for them: 12.7062 and 4.30265 over 3.18245, by the usual table.
var farther = [fewestFreedom]float64{1: 12.7062047 / 3.1824463, 2: 4.3026527 / 3.1824463}

// Counted is c as it counts among others: three degrees of freedom where it has fewer, with as
// far a reach.
func (c Component) Counted() Component {
	if nu := c.DegreesOfFreedom; nu > 0 && nu < fewestFreedom {
		return Component{c.Standard * farther[max(int(nu), 1)], fewestFreedom}
	}
	return c
}

// distribution is that of a budget whose variance is all in all so much, of which some source
// was estimated from repeats or none, and the widest rectangular error is so much.
func (b *Budget) distribution(variance float64, estimated bool, widest float64) (d Distribution) {
	widest = min(widest, variance)
	rest, spread := variance-widest, 0.0
	if estimated {
		for i := range b {
			v, nu := b[i].Standard*b[i].Standard, b[i].DegreesOfFreedom
			if nu == 0 || v == 0 {
				continue
			}
			if v == variance { // nothing else
				if nu >= endlessFreedom {
					nu = 0
				}
				return Distribution{Rest: b[i].Standard, Freedom: nu}
			}
			c := b[i].Counted()
			nu = c.DegreesOfFreedom
			own := c.Standard * c.Standard * nu / (nu - varianceOrder)
			rest += own - v
			spread += own * own / (nu - spreadOrder)
		}
	}
	if rest < finding.Slack*variance { // what rounding leaves of it
		rest = 0
	}
	d.Widest = math.Sqrt(3 * widest)
	if nu := spreadOrder + rest*rest/spread; rest > 0 && spread > 0 && nu < endlessFreedom {
		rest *= (nu - varianceOrder) / nu
		d.Freedom = nu
	}
	d.Rest = math.Sqrt(rest)
	return d
}

// Below is the probability that the error is less than x.
func (d Distribution) Below(x float64) float64 {
	if x > 0 {
		return 1 - d.Below(-x)
	}
	if d.Freedom == 0 && x < -d.Widest-9*d.Rest { // 1e-19 and less
		return 0
	}
	below, _, _ := d.at(x, kernelOf(d.Freedom))
	return below
}

// Reach is the error that 97.5 % of them lie below, as 95 % lie between it and its opposite.
func (d Distribution) Reach() float64 {
	if d.Freedom == 0 {
		all := math.Sqrt(d.Widest*d.Widest/3 + d.Rest*d.Rest)
		return all * reaches.at(d.Rest/all)
	}
	const z = normalCoverage
	rest := d.Rest * (1 + (z*z+1)/(4*d.Freedom)) // the first term of Fisher's expansion of t
	return d.search(Distribution{Widest: d.Widest, Rest: rest}.Reach(), 0.025)
}

// Quantile is the error that a share p of them lie below, p being above a half.
func (d Distribution) Quantile(p float64) float64 {
	return d.search(d.Reach()*mathext.NormalQuantile(p)/normalCoverage, 1-p)
}

// search goes from about x to the error that only a share beyond lies above, by Halley's steps,
// of which two do.
func (d Distribution) search(x, beyond float64) float64 {
	k := kernelOf(d.Freedom)
	for range 20 {
		below, density, slope := d.at(-x, k)
		off := (below - beyond) / density
		step := off / (1 - off*slope/density/2)
		x += step
		if math.Abs(step) < 1e-3*x { // what is left goes with the third power
			break
		}
	}
	return x
}

// A reachTable has the Reach of a normal rest and a widest error that make a variance of 1, by
// the share that the rest has of its root: a search for each of a round's uncertainties would
// take as long as all else of them.
type reachTable [1025]float64

var reaches = func() (t reachTable) {
	var x float64 // the first search goes from there to that of the widest error alone
	for i := range t {
		rest := float64(i) / float64(len(t)-1)
		x = Distribution{Widest: math.Sqrt(3 * (1 - rest*rest)), Rest: rest}.search(x, 0.025)
		t[i] = x
	}
	return t
}()

// at goes by the cubic through the four nearest, within 1e-9.
func (t *reachTable) at(rest float64) float64 {
	x := rest * float64(len(t)-1)
	i := min(max(int(x), 1), len(t)-3)
	x -= float64(i)
	a, b, c, d := t[i-1], t[i], t[i+1], t[i+2]
	return a + (x+1)*(b-a+x/2*(c-2*b+a+(x-1)/3*(d-3*c+3*b-a)))
}

// narrow is the share of the rest, or of the widest error, below which the other stands for
// both: their sum differs from it by the square of that share.
const narrow = 1e-5

// at is the probability that the error is less than x, which is not above 0, the density
// there, and its slope.
//
//	F(x) = s / (2 a) (G((x + a) / s) - G((x - a) / s)), G being the integral of the rest's
func (d Distribution) at(x float64, k kernel) (below, density, slope float64) {
	a, s := d.Widest, d.Rest
	switch {
	case s <= narrow*narrow*a:
		if x <= -a {
			return 0, 0, 0
		}
		return (x + a) / (2 * a), 1 / (2 * a), 0
	case a < narrow*s:
		f := k.at(x / s)
		return f.below, f.density / s, f.slope / (s * s)
	}
	low, high := k.at((x-a)/s), k.at((x+a)/s)
	return (high.integral - low.integral) * s / (2 * a), (high.below - low.below) / (2 * a), (high.density - low.density) / (2 * a * s)
}

// A kernel is the distribution of the rest over its scale: t with nu degrees of freedom, whose
// density at 0 is peak, or the normal one without them.
type kernel struct{ nu, peak float64 }

func kernelOf(nu float64) kernel {
	if nu == 0 {
		return kernel{}
	}
	half, _ := math.Lgamma(nu / 2)
	more, _ := math.Lgamma((nu + 1) / 2)
	return kernel{nu, math.Exp(more-half) / math.Sqrt(nu*math.Pi)}
}

// A point of a kernel has the probability below it, the density and its slope, and the integral
// of what is below.
type point struct{ below, density, slope, integral float64 }

func (k kernel) at(z float64) (p point) {
	if k.nu == 0 {
		p.below = math.Erfc(-z/math.Sqrt2) / 2
		p.density = math.Exp(-z*z/2) / math.Sqrt(2*math.Pi)
		p.slope, p.integral = -z*p.density, z*p.below+p.density
		return p
	}
	by := 1 + z*z/k.nu
	p.below = distuv.StudentsT{Sigma: 1, Nu: k.nu}.CDF(z)
	p.density = k.peak * math.Exp(-(k.nu+1)/2*math.Log(by))
	p.slope = -(k.nu + 1) / k.nu * z / by * p.density
	p.integral = z*p.below + by*k.nu/(k.nu-1)*p.density
	return p
}
