package certainty

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"

	"wetrun/calc/unit"
)

// TestReferenceGrubbs: two-sided critical values at 5 %, computed from
// G = (n-1)/sqrt(n) sqrt(t^2/(n-2+t^2)), independently of this code. They agree with
// the two-sided table of Analytical Chemistry, LibreTexts, appendix 7, but for n = 7,
// where it prints 2.202. That is a misprint of 2.020: a critical value of 7 lies
// between those of 6 and 8, 1.887 and 2.126. (The other one, 2.755 at n = 15, is in
// its column for 1 %.)
func TestReferenceGrubbs(t *testing.T) {
	for n, want := range map[int]float64{
		3: 1.1543, 4: 1.4812, 5: 1.7150, 6: 1.8871, 7: 2.0200, 8: 2.1266, 9: 2.2150, 10: 2.2900, 12: 2.4116, 15: 2.5483, 20: 2.7082,
	} {
		if got := criticalGrubbs(n, 5*unit.Percent); math.Abs(got-want) > 6e-5 {
			t.Errorf("n = %d: %.5f, want %.4f", n, got, want)
		}
	}
}

// TestReferenceCriticalRange: computed beforehand from sqrt(2(n-1) t^2/(n-2+t^2)) with
// Debian python3-scipy 1.10.1, t.isf(0.05/(n(n-1)), n-2). The two decimals are the
// upper 5 % points of range over standard deviation as tables after David, Hartley
// and Pearson print them (from memory, not read).
func TestReferenceCriticalRange(t *testing.T) {
	for n, want := range map[int][2]float64{
		7: {3.2222860136728095, 3.22}, 8: {3.3993229411133368, 3.40}, 9: {3.5516556187504063, 3.55}, 10: {3.6849651302343323, 3.68},
		12: {3.909236810106319, 3.91}, 15: {4.172981771857762, 4.17}, 20: {4.496130601173918, 4.49}, 1000: {7.485236275572958, 7.49},
	} {
		near(t, fmt.Sprint(n), criticalRange(n, 5*unit.Percent), want[0], 1e-9)
		if math.Abs(criticalRange(n, 5*unit.Percent)-want[1]) > 0.011 {
			t.Errorf("n = %d: %v, the table says %v", n, criticalRange(n, 5*unit.Percent), want[1])
		}
	}
}

// meanAndDeviation are worked out apart from the code.
func meanAndDeviation(values []float64) (mean, sd float64) {
	for _, x := range values {
		mean += x / float64(len(values))
	}
	for _, x := range values {
		sd += (x - mean) * (x - mean) / float64(len(values)-1)
	}
	return mean, math.Sqrt(sd)
}

// TestReferenceHalvedCriticalValues: each test at half of 5 %, computed beforehand with
// Debian python3-scipy 1.10.1, t.isf(0.025/(2n), n-2) and t.isf(0.025/(n(n-1)), n-2) in
// the formulae above.
func TestReferenceHalvedCriticalValues(t *testing.T) {
	if OutlierTestSignificance != 2.5*unit.Percent {
		t.Errorf("each test at %v", OutlierTestSignificance)
	}
	for n, want := range map[int][2]float64{
		7: {2.081093689632581, 3.281524250135656}, 12: {2.5185463609811465, 4.015809382920467}, 20: {2.8434057270927653, 4.635332520691447},
	} {
		near(t, "single", criticalGrubbs(n, OutlierTestSignificance), want[0], 1e-9)
		near(t, "range", criticalRange(n, OutlierTestSignificance), want[1], 1e-9)
	}
}

// TestReferenceSecondOutlier: two that are high one after the other. The critical values
// are those of twelve and of the eleven that are left, at 2.5 % with Debian python3-scipy
// 1.10.1 as above.
func TestReferenceSecondOutlier(t *testing.T) {
	found := Outliers([]float64{9, 10, 11, 10, 9, 11, 10, 200, 10, 30, 9, 11})
	if len(found) != 2 || found[0].Value != 7 || found[1].Value != 9 {
		t.Fatalf("%+v", found)
	}
	for i, want := range []float64{2.5185463609811465, 2.4554722185809745} {
		near(t, "critical value", found[i].Critical, want, 1e-9)
	}
	// Of the seven that are the fewest there is no second look at six.
	if found = Outliers([]float64{9, 10, 11, 10, 9, 2000, 60}); len(found) != 1 {
		t.Errorf("of seven: %+v", found)
	}
	// What is left may be all alike.
	if found = Outliers([]float64{10, 10, 10, 10, 10, 10, 10, 10, 12}); len(found) != 1 || found[0].Value != 8 {
		t.Errorf("one among equals: %+v", found)
	}
}

// TestReferencePairOnItsLimit, by hand: x and -x among eight of 1 and -1 have s^2 =
// (2 x^2 + 8) / 9, so that w / s = 2 x / s is c at x^2 = 8 c^2 / (36 - 2 c^2). A little
// further they are a pair, a little nearer they are none.
func TestReferencePairOnItsLimit(t *testing.T) {
	c := 3.776870250878155 // of ten values at 2.5 %, as in TestReferenceHalvedCriticalValues
	limit := math.Sqrt(8 * c * c / (36 - 2*c*c))
	for factor, want := range map[float64]int{1 + 1e-6: 2, 1 - 1e-6: 0} {
		x := limit * factor
		if found := Outliers([]float64{1, -1, 1, -1, x, 1, -1, -x, 1, -1}); len(found) != want {
			t.Errorf("at %v of the limit: %+v", factor, found)
		}
	}
}

// TestPropertyOutlierOnItsLimit moves one value away until G is the critical value:
// a little further it is an outlier, a little nearer it is none. A pair that is
// pulled apart alike is judged by its range.
func TestPropertyOutlierOnItsLimit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(FewestForOutliers, 40).Draw(t, "n")
		at := rapid.IntRange(0, n-2).Draw(t, "place")
		// Evenly spread, and one of them, or the two ends of the list, far away.
		values := func(far, opposite float64) []float64 {
			v := make([]float64, n)
			for i := range v {
				v[i] = 100 + math.Sin(float64(3*i))
			}
			v[at] = 100 + far
			if opposite != 0 {
				v[at+1] = 100 - opposite
			}
			return v
		}
		grubbs := func(far float64) float64 {
			v := values(far, 0)
			mean, sd := meanAndDeviation(v)
			return (v[at] - mean) / sd
		}
		low, high := 1.0, 1e6
		for range 200 {
			if middle := (low + high) / 2; grubbs(middle) < criticalGrubbs(n, 2.5*unit.Percent) {
				low = middle
			} else {
				high = middle
			}
		}
		found := Outliers(values(low*(1+1e-6), 0))
		if len(found) == 0 || found[0].Value != at || found[0].Test != GrubbsTest {
			t.Fatalf("beyond the limit: %+v", found)
		}
		near(t, "statistic", found[0].Statistic, grubbs(low*(1+1e-6)), 1e-9)
		near(t, "critical", found[0].Critical, criticalGrubbs(n, 2.5*unit.Percent), 1e-12)
		if found := Outliers(values(low*(1-1e-6), 0)); len(found) > 0 && found[0].Test == GrubbsTest {
			t.Fatalf("within the limit: %+v", found)
		}

		v := values(1e5, 1e5) // they hide each other where n is below 14 or so
		mean, sd := meanAndDeviation(v)
		hidden := math.Max(v[at]-mean, mean-v[at+1])/sd < criticalGrubbs(n, 2.5*unit.Percent)
		found = Outliers(v)
		if len(found) != 2 || (found[0].Test == RangeTest) != hidden {
			t.Fatalf("one high, one low, hidden from a single test: %v: %+v", hidden, found)
		}
		if hidden && (found[0].Value != at+1 || found[1].Value != at || math.Abs(found[0].Statistic-2e5/sd) > 1e-6) {
			t.Fatalf("the pair: %+v", found)
		}
	})
}

// TestPropertyOutliersOfEvenSets: among 20,000 sets of values that differ by chance alone,
// a single outlier is found in 2.5 % of them at most, and anything at all in no more than
// 5 %. The limits count every value, or pair, as if no two could be far away at once,
// which is nearly true of one value: far below 2.5 % is wrong too.
func TestPropertyOutliersOfEvenSets(t *testing.T) {
	const sets = 20_000
	random := rand.New(rand.NewPCG(1, 2))
	for _, n := range []int{7, 12, 24} {
		var single, pairs float64
		values := make([]float64, n)
		for range sets {
			for i := range values {
				values[i] = 100 + random.NormFloat64()
			}
			if found := Outliers(values); len(found) > 0 && found[0].Test == GrubbsTest {
				single++
			} else if len(found) > 0 {
				pairs++
			}
		}
		// Three standard deviations of the counts are 0.34 and 0.46 % of the sets.
		if share := single / sets; share > 0.0285 || share < 0.02 {
			t.Errorf("n = %d: single outliers in %.2f %% of even sets", n, 100*share)
		}
		if share := (single + pairs) / sets; share > 0.0547 || share < 0.03 {
			t.Errorf("n = %d: outliers in %.2f %% of even sets", n, 100*share)
		}
	}
}

// TestPropertyOutliersOrderAndUnit: neither the order nor the unit nor a shift
// changes what stands apart.
func TestPropertyOutliersOrderAndUnit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		values := rapid.SliceOfNDistinct(rapid.Float64Range(90, 110), 0, 30, rapid.ID[float64]).Draw(t, "values")
		for i := range min(len(values), rapid.IntRange(0, 2).Draw(t, "far")) {
			values[i] = 150 - 100*float64(i)
		}
		order := rapid.Permutation(indices(len(values))).Draw(t, "order")
		scale := rapid.Float64Range(0.01, 100).Draw(t, "scale")
		other := make([]float64, len(values))
		for to, from := range order {
			other[to] = values[from] * scale
		}
		a, b := Outliers(values), Outliers(other)
		if len(a) != len(b) {
			t.Fatalf("%+v and %+v", a, b)
		}
		for i := range a {
			if order[b[i].Value] != a[i].Value || a[i].Test != b[i].Test {
				t.Fatalf("%+v and %+v", a, b)
			}
		}
	})
}

func indices(n int) []int {
	all := make([]int, n)
	for i := range all {
		all[i] = i
	}
	return all
}

func ExampleOutliers() {
	for _, x := range Outliers([]float64{46, 47, 46, 48, 47, 46, 47, 60, 46, 47}) {
		fmt.Printf("value %d: %.2f is more than %.2f\n", x.Value, x.Statistic, x.Critical)
	}
	// Output: value 7: 2.81 is more than 2.38
}

// BenchmarkOutliers is a dozen catches among which none stands apart.
func BenchmarkOutliers(b *testing.B) {
	values := []float64{46.2, 47, 46.5, 48.1, 47.4, 46.9, 46.1, 47.2, 46.4, 47.5, 47.7, 46.8}
	b.ReportAllocs()
	for b.Loop() {
		Outliers(values)
	}
}

// TestOutlierAlone: what stands apart by itself was found with no other left out.
func TestOutlierAlone(t *testing.T) {
	found := Outliers([]float64{10, 10.1, 9.9, 10.05, 9.95, 10.02, 9.98, 14})
	if len(found) != 1 || found[0].Value != 7 || found[0].Without != -1 {
		t.Errorf("%+v", found)
	}
}

// TestReferenceAlikeButForRounding, by hand: of eight values of 0.1 the mean is off by rounding,
// and none stands apart, alone or beside a ninth that does. Of seven, 0 but for a pair, s is
// sqrt(1/3) of its half, so w / s is 2 sqrt 3, more than 3.2815 (see the halved values); of nine
// with 2 and -2 it is 4, s being 1.
func TestReferenceAlikeButForRounding(t *testing.T) {
	alike := []float64{0.1, 0.1, 0.1, 0.1, 0.1, 0.1, 0.1, 0.1}
	if found := Outliers(alike); found != nil {
		t.Errorf("%+v", found)
	}
	if found := Outliers([]float64{1e12, 1e12, 1e12, 1e12, 1e12, 1e12, 1e12, 1e12 + 100}); found != nil {
		t.Errorf("apart by a ten thousand millionth: %+v", found)
	}
	if found := Outliers(append(alike, 0.2)); len(found) != 1 || found[0].Value != 8 {
		t.Errorf("%+v", found)
	}
	for _, c := range []struct {
		values    []float64
		low, high int
		statistic float64
	}{
		{[]float64{0, 5, 0, 0, -5, 0, 0}, 4, 1, 2 * math.Sqrt(3)}, {[]float64{0, 0, 0, 2, 0, -2, 0, 0, 0}, 5, 3, 4},
	} {
		found := Outliers(c.values)
		if len(found) != 2 || found[0].Value != c.low || found[1].Value != c.high {
			t.Errorf("%v: %+v", c.values, found)
			continue
		}
		for _, x := range found {
			near(t, "statistic", x.Statistic, c.statistic, 1e-12)
			if len(c.values) == 7 {
				near(t, "critical", x.Critical, 3.281524250135656, 1e-9)
			}
			if x.Test != RangeTest || x.Without != -1 {
				t.Errorf("%+v", x)
			}
		}
	}
}
