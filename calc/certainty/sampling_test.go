package certainty

import (
	"fmt"
	"math"
	"math/big"
	"testing"

	"pgregory.net/rapid"

	"wetrun/calc/unit"
)

func mustSample(t rapid.TB, in SamplingInput) SamplingResult {
	t.Helper()
	r, err := Sampling(in)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// TestReferenceSamplingPointsNotKnown: ends and chance computed beforehand with
// Debian python3-scipy 1.10.1: beta.ppf(0.025, x, n-x+1), beta.ppf(0.975, x+1, n-x),
// beta.sf(0.25, x+0.5, n-x+0.5).
func TestReferenceSamplingPointsNotKnown(t *testing.T) {
	for _, c := range []struct {
		x, n              int
		low, high, chance float64
	}{
		{0, 1, 0, 0.975, 0.3910022189557705},
		{1, 1, 0.025, 1, 0.9423311143775626},
		{0, 2, 0, 0.841886116991581, 0.2531699951003227},
		{0, 12, 0, 0.26464846939705117, 0.007912738358005815},
		{1, 12, 0.0021075932318602264, 0.38479616515094406, 0.0801469288686747},
		{2, 12, 0.020862525460092384, 0.48413774868596704, 0.2647454157292732},
		{3, 12, 0.05486064452799272, 0.5718584618781891, 0.5231832973341103},
		{4, 12, 0.09924609114958328, 0.6511244935811844, 0.7570080473575351},
		{6, 12, 0.21094463823929666, 0.7890553617607033, 0.9711505793655201},
		{11, 12, 0.6152038348490559, 0.9978924067681397, 0.9999995868639491},
		{12, 12, 0.7353515306029488, 1, 0.9999999946280687},
		{5, 30, 0.056421696468071485, 0.34721169883414377, 0.14450380524918402},
		{0, 40, 0, 0.08809730287880237, 1.4888790876992658e-06},
		{10, 40, 0.126914798932845, 0.4119619801514299, 0.5123179264570357},
		{37, 1000, 0.02618270884373733, 0.05064112305992485, 0},
		{500, 1000, 0.46854917297179216, 0.5314508270282079, 1},
	} {
		r := mustSample(t, SamplingInput{Caught: c.n, Outside: c.x})
		what := fmt.Sprintf("%d of %d", c.x, c.n)
		closeTo(t, what+" low", float64(r.Low), c.low)
		closeTo(t, what+" high", float64(r.High), c.high)
		closeTo(t, what+" chance", float64(r.ChanceAbove), c.chance)
		if r.Known || r.LowPoints != 0 || r.HighPoints != 0 {
			t.Errorf("%s: %+v, although nobody said how many points there are", what, r)
		}
	}
}

func closeTo(t testing.TB, what string, got, want float64) {
	t.Helper()
	if !(math.Abs(got-want) <= 1e-11) {
		t.Errorf("%s: %v, want %v", what, got, want)
	}
}

// TestReferenceSamplingPointsKnown: 2 outside of 12 caught of 40 is 2 to 17 of the
// 40, which is 5 to 42.5 %. All values computed beforehand with Debian python3-scipy
// 1.10.1: the numbers K with hypergeom.sf(x-1, N, K, n) and hypergeom.cdf(x, N, K, n)
// above 0.025, and betabinom.sf(floor(N/4)-x, N-n, x+0.5, n-x+0.5).
func TestReferenceSamplingPointsKnown(t *testing.T) {
	for _, c := range []struct {
		x, n, points, low, high int
		chance                  float64
	}{
		{2, 12, 40, 2, 17, 0.1858367303999977},
		{0, 12, 40, 0, 9, 0.0022746817133130204},
		{1, 12, 40, 1, 13, 0.03873125584272463},
		{3, 12, 40, 4, 21, 0.46386607731324314},
		{4, 12, 40, 6, 24, 0.7513522047337415},
		{12, 12, 40, 31, 40, 1},
		{0, 1, 40, 0, 38, 0.37073218732360913},
		{1, 1, 40, 2, 40, 0.9400622953650816},
		{0, 12, 27, 0, 5, 0.0018698620444579372},
		{1, 4, 9, 1, 6, 0.4414062500000001},
		{10, 39, 40, 10, 11, 0.2625}, // the last is one with (10 + 1/2) / 40
		{37, 1000, 10000, 267, 499, 6.654676809603188e-12},
		{500, 1000, 2000, 956, 1044, 1},
	} {
		r := mustSample(t, SamplingInput{Caught: c.n, Outside: c.x, CatchPointsOnBoom: c.points})
		what := fmt.Sprintf("%d of %d of %d", c.x, c.n, c.points)
		if r.LowPoints != c.low || r.HighPoints != c.high {
			t.Errorf("%s: %d to %d, want %d to %d", what, r.LowPoints, r.HighPoints, c.low, c.high)
		}
		closeTo(t, what+" low", float64(r.Low), float64(c.low)/float64(c.points))
		closeTo(t, what+" high", float64(r.High), float64(c.high)/float64(c.points))
		closeTo(t, what+" chance", float64(r.ChanceAbove), c.chance)
	}
}

// choose is n over k, rounded once.
func choose(n, k int) float64 {
	if k < 0 || k > n {
		return 0
	}
	ways, _ := new(big.Float).SetInt(new(big.Int).Binomial(int64(n), int64(k))).Float64()
	return ways
}

// TestReferenceHypergeometricInterval inverts the tail sums by brute force, in whole
// numbers: for every boom of up to 40 points, every number caught and every number
// outside, the interval is exactly the numbers K of which neither tail is 1/40 or
// less. Then it counts, for each K, how often the interval of what is caught holds
// it: never less than 19 times in 20.
func TestReferenceHypergeometricInterval(t *testing.T) {
	const most = 40
	var over [most + 1][most + 1]float64
	for n := range over {
		for k := range over {
			over[n][k] = choose(n, k)
		}
	}
	for points := 1; points <= most; points++ {
		for n := 1; n <= points; n++ {
			low, high := make([]int, n+1), make([]int, n+1)
			for x := range low {
				r := mustSample(t, SamplingInput{Caught: n, Outside: x, CatchPointsOnBoom: points})
				low[x], high[x] = r.LowPoints, r.HighPoints
			}
			all := over[points][n]
			for marked := 0; marked <= points; marked++ {
				held, atMost := 0.0, 0.0 // ways to catch
				for x := 0; x <= n; x++ {
					ways := over[marked][x] * over[points-marked][n-x]
					atLeast := all - atMost
					atMost += ways
					holds := low[x] <= marked && marked <= high[x]
					if want := 40*atMost > all && 40*atLeast > all; holds != want {
						t.Fatalf("%d of %d of %d: %d to %d, and %d is in it: %v", x, n, points, low[x], high[x], marked, want)
					}
					if holds {
						held += ways
					}
				}
				if 20*held < 19*all {
					t.Fatalf("%d of %d points outside, %d caught: covered %v times in %v", marked, points, n, held, all)
				}
			}
		}
	}
}

// TestPropertyClopperPearson inverts the binomial tail sums: at the lower end so many
// outside or more have a chance of 2.5 %, at the upper end so many or fewer.
func TestPropertyClopperPearson(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 300).Draw(t, "caught")
		x := rapid.IntRange(0, n).Draw(t, "outside")
		r := mustSample(t, SamplingInput{Caught: n, Outside: x})
		tail := func(p float64, from, to int) (sum float64) {
			for k := from; k <= to; k++ {
				sum += choose(n, k) * math.Pow(p, float64(k)) * math.Pow(1-p, float64(n-k))
			}
			return sum
		}
		if x > 0 {
			near(t, "from below", tail(float64(r.Low), x, n), 0.025, 1e-8)
		}
		if x < n {
			near(t, "from above", tail(float64(r.High), 0, x), 0.025, 1e-8)
		}
		if (x == 0) != (r.Low == 0) || (x == n) != (r.High == 1) {
			t.Fatalf("%d of %d: %v to %v", x, n, r.Low, r.High)
		}
	})
}

// TestPropertyMoreCatches: so many more settle it with the share as seen, rounded
// against what it leans to, and one fewer does not.
func TestPropertyMoreCatches(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := SamplingInput{
			Caught:          rapid.IntRange(1, 40).Draw(t, "caught"),
			ReplaceAllAbove: unit.Ratio(rapid.Float64Range(0.02, 1.2).Draw(t, "limit")),
		}
		in.Outside = rapid.IntRange(0, in.Caught).Draw(t, "outside")
		if rapid.Bool().Draw(t, "known") {
			in.CatchPointsOnBoom = in.Caught + rapid.IntRange(0, 100).Draw(t, "others")
		}
		r := mustSample(t, in)
		seen := float64(in.Outside) / float64(in.Caught)
		settledBy := func(more int) bool {
			then := in
			then.Caught += more
			lean := SettledAbove
			then.Outside = in.Outside * then.Caught / in.Caught
			if seen <= float64(in.ReplaceAllAbove)*(1+1e-9) {
				lean = SettledNotAbove
				then.Outside = (in.Outside*then.Caught + in.Caught - 1) / in.Caught
			}
			after := mustSample(t, then)
			return after.Settled == lean || after.Known
		}
		if (r.Settled != SettledOpen) != settledBy(0) {
			t.Fatalf("settled %v", r.Settled)
		}
		rest := in.CatchPointsOnBoom - in.Caught
		if r.AllOthers != (r.More > 0 && r.More == rest) {
			t.Fatalf("%d more of %d, all others: %v", r.More, rest, r.AllOthers)
		}
		switch {
		case r.Settled != SettledOpen:
			if r.More != 0 {
				t.Fatalf("settled %v, and %d more", r.Settled, r.More)
			}
		case r.More == 0: // not even a thousand would
			if in.CatchPointsOnBoom > 0 || settledBy(300) {
				t.Fatalf("no more would settle it, but they do")
			}
		default:
			if !settledBy(r.More) || settledBy(r.More-1) {
				t.Fatalf("%d more: %v, one fewer: %v", r.More, settledBy(r.More), settledBy(r.More-1))
			}
		}
	})
}

// TestPropertySamplingMirrored: what is said of those outside is said of those
// within, the other way round; and catching more narrows nothing to less than what
// was seen.
func TestPropertySamplingMirrored(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := SamplingInput{Caught: rapid.IntRange(1, 60).Draw(t, "caught")}
		in.Outside = rapid.IntRange(0, in.Caught).Draw(t, "outside")
		if rapid.Bool().Draw(t, "known") {
			in.CatchPointsOnBoom = in.Caught + rapid.IntRange(0, 200).Draw(t, "others")
		}
		mirror := in
		mirror.Outside = in.Caught - in.Outside
		r, m := mustSample(t, in), mustSample(t, mirror)
		if math.Abs(float64(r.Low+m.High-1)) > 1e-9 || math.Abs(float64(r.High+m.Low-1)) > 1e-9 || r.Known != m.Known {
			t.Fatalf("%v to %v, mirrored %v to %v", r.Low, r.High, m.Low, m.High)
		}
		// A chance of more than the limit, and of more than its mirror, leave those that
		// are on it.
		in.ReplaceAllAbove, mirror.ReplaceAllAbove = 0.3, 0.7
		r, m = mustSample(t, in), mustSample(t, mirror)
		if sum := float64(r.ChanceAbove + m.ChanceAbove); sum > 1+1e-9 || in.CatchPointsOnBoom == 0 && sum < 1-1e-9 {
			t.Fatalf("chances %v and %v", r.ChanceAbove, m.ChanceAbove)
		}
		seen := float64(in.Outside) / float64(in.Caught)
		if in.CatchPointsOnBoom == 0 && (float64(r.Low) > seen || float64(r.High) < seen) {
			t.Fatalf("%v is not in %v to %v", seen, r.Low, r.High)
		}
	})
}

// TestReferenceSamplingDecides: worked by hand from the intervals above.
func TestReferenceSamplingDecides(t *testing.T) {
	for _, c := range []struct {
		in      SamplingInput
		known   bool
		settled Settled
		all     bool
	}{
		{SamplingInput{Caught: 12, CatchPointsOnBoom: 40}, false, SettledNotAbove, false},             // 9 of 40 at most
		{SamplingInput{Caught: 12}, false, SettledOpen, false},                                        // 26.46 % at most
		{SamplingInput{Caught: 12, Outside: 12}, false, SettledAbove, false},                          // 73.5 % at least
		{SamplingInput{Caught: 40, Outside: 10, CatchPointsOnBoom: 40}, true, SettledNotAbove, false}, // a quarter is not above
		{SamplingInput{Caught: 40, Outside: 11, CatchPointsOnBoom: 40}, true, SettledAbove, false},
		{SamplingInput{Caught: 39, Outside: 10, CatchPointsOnBoom: 40}, false, SettledOpen, true},
		{SamplingInput{Caught: 3, Outside: 3, ReplaceAllAbove: 1}, false, SettledNotAbove, false}, // no more than all are outside
	} {
		r := mustSample(t, c.in)
		if r.Known != c.known || r.Settled != c.settled || r.AllOthers != c.all {
			t.Errorf("%+v: %+v", c.in, r)
		}
		sure := map[Settled]unit.Ratio{SettledNotAbove: 0, SettledAbove: 1}
		if chance, ok := sure[r.Settled]; c.known && (r.Low != r.High || !ok || r.ChanceAbove != chance) {
			t.Errorf("%+v: all were caught, and %+v", c.in, r)
		}
	}
	// A quarter seen, a quarter allowed: no number of catches tells.
	if r := mustSample(t, SamplingInput{Caught: 12, Outside: 3}); r.More != 0 || r.MoreOn != nil {
		t.Errorf("%d more", r.More)
	}
	in := SamplingInput{Caught: 12, Outside: 2, CatchPointsOnBoom: 100, CaughtOn: [4]int{0, 3, 4, 5}}
	for _, c := range []struct {
		on   [4]int
		want string
	}{
		{[4]int{0, 3, 4, 5}, "[left]"}, {[4]int{0, 6, 3, 3}, "[center right]"}, {[4]int{0, 4, 4, 4}, "[]"}, {[4]int{1, 3, 4, 4}, "[]"}, {[4]int{}, "[]"},
	} {
		in.CaughtOn = c.on
		if r := mustSample(t, in); r.More == 0 || r.AllOthers || fmt.Sprint(r.MoreOn) != c.want {
			t.Errorf("%v: %d more, on %v", c.on, r.More, r.MoreOn)
		}
	}
}

// TestReferenceMoreCatches: computed beforehand with scipy.stats, hypergeom.cdf or
// binom.cdf of the nearest share on the other side of the limit, catch by catch until
// 0.025 or less.
func TestReferenceMoreCatches(t *testing.T) {
	for _, c := range []struct {
		caught, outside, points int
		limit                   unit.Ratio
		more                    int
	}{
		{20, 2, 100, 0.25, 8}, {12, 5, 60, 0.25, 12}, {12, 0, 40, 0.1, 8}, {12, 1, 72, 0.25, 10}, {24, 10, 200, 0.25, 10},
		{12, 1, 0, 0.25, 21}, {12, 6, 0, 0.25, 6}, {12, 0, 0, 0.1, 24},
	} {
		in := SamplingInput{Caught: c.caught, Outside: c.outside, CatchPointsOnBoom: c.points, ReplaceAllAbove: c.limit}
		if r := mustSample(t, in); r.More != c.more || r.Settled != SettledOpen {
			t.Errorf("%+v: %d more, want %d; settled %v", in, r.More, c.more, r.Settled)
		}
	}
}

func TestSamplingRefuses(t *testing.T) {
	for want, in := range map[string]SamplingInput{
		"caught: too_few":                      {},
		"outside: not_allowed":                 {Caught: 2, Outside: 3},
		"catchPointsOnBoom: fewer_than_caught": {Caught: 3, CatchPointsOnBoom: 2},
		"replaceAllAbove: not_positive":        {Caught: 3, ReplaceAllAbove: -1},
	} {
		if _, err := Sampling(in); err == nil || err.Error() != "calc: "+want {
			t.Errorf("refused with %v, want %q", err, want)
		}
	}
}

func ExampleSampling() {
	r, _ := Sampling(SamplingInput{Caught: 12, Outside: 2, CatchPointsOnBoom: 40})
	fmt.Printf("%d to %d of 40, %.1f to %.1f %%\n", r.LowPoints, r.HighPoints, 100*r.Low, 100*r.High)
	// Output: 2 to 17 of 40, 5.0 to 42.5 %
}

// BenchmarkSampling is a dozen catches, of a boom of known and of unknown size.
func BenchmarkSampling(b *testing.B) {
	for _, points := range []int{0, 40} {
		b.Run(fmt.Sprint(points), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				mustSample(b, SamplingInput{Caught: 12, Outside: 2, CatchPointsOnBoom: points})
			}
		})
	}
}

// TestNoMoreNoSide: with just a quarter outside no number of catches settles it, as long as the
// share stays, so no side is named where they would be made.
func TestNoMoreNoSide(t *testing.T) {
	r, err := Sampling(SamplingInput{Caught: 12, Outside: 3, CaughtOn: [len(Positions)]int{0, 5, 4, 3}})
	if err != nil || r.Settled != SettledOpen || r.More != 0 || r.MoreOn != nil {
		t.Errorf("%+v, %v", r, err)
	}
}
