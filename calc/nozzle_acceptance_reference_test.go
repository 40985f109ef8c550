package calc_test

import (
	"testing"

	"pgregory.net/rapid"

	"wetrun/calc"
	"wetrun/calc/certainty"
	"wetrun/calc/unit"
)

// TestReferencePluggedCondemnsNobody: a plugged drop or a slip moves the mean, so that
// others leave their range about it, and statuses say so; what is done goes by the median of
// those that agree. 1 beside a mean of 0.8 is 25 % above, beside one of 25.75 96 % below.
// Eleven of 1, and 1.015, have a mean of 11.015 / 12 = 0.9179 with a dry one, 10.6 % below
// 1.015.
func TestReferencePluggedCondemnsNobody(t *testing.T) {
	for _, c := range []struct {
		readings []unit.Volume
		statuses string
		want     string
	}{
		{[]unit.Volume{1, 1, 0, 1, 1}, "aabaa", "fix_listed, 3 clean_and_recatch"},
		{[]unit.Volume{1, 100, 1, 1}, "babb", "fix_listed, 2 check_and_recatch"},
		{dozen(1.015, 0), "wwwwwwwwwwab", "fix_listed, 12 clean_and_recatch"},
		// One that is low behind a dry one, which its mean of 0.9067 hides: 0.88 is 3 % below
		// that, and 12 % below the others.
		{dozen(0.88, 0), "aaaaaaaaaawb", "fix_listed, 11 clean_and_recatch, 12 clean_and_recatch"},
		// Where most are dry nothing is known of the others but that they are not alike.
		{[]unit.Volume{1, 0, 0, 0}, "abbb", "fix_listed, 2 clean_and_recatch, 3 clean_and_recatch, 4 clean_and_recatch"},
	} {
		r := mustAccept(t, byMean(0.1, c.readings...))
		if statuses(r) != c.statuses || toldTo(r) != c.want {
			t.Errorf("%v: %s, want %s; %s, want %s", c.readings, statuses(r), c.statuses, toldTo(r), c.want)
		}
	}
	// Held to the rating too: eleven that are right are 9.1 % above 11 / 12, beyond 5 %.
	for volume, want := range map[unit.Volume]string{0: "fix_listed, 12 clean_and_recatch", 10: "fix_listed, 12 check_and_recatch"} {
		in := litreRated(0.05, dozen(volume)...)
		in.Tolerance.Basis = calc.BothBases
		if r := mustAccept(t, in); r.Outside != 12 || toldTo(r) != want {
			t.Errorf("%v: %d outside, %s", volume, r.Outside, toldTo(r))
		}
	}
}

// TestReferenceWornMakeNobodyDirty: two worn by 30 % of twelve raise the mean to 1.05, from
// which 0.94 is 10.5 % off, though it is within 10 % of what most give: two are replaced, and
// nothing is cleaned. Where nothing is beyond the limit from the median, the mean of all is
// what counts, and what is outside it is put right: 0.905 is within 10 % of a median of 1 and
// 10.6 % below a mean of 10.125 / 10.
func TestReferenceWornMakeNobodyDirty(t *testing.T) {
	r := mustAccept(t, byMean(0.1, dozen(0.94, 1.3, 1.3)...))
	if statuses(r) != "wwwwwwwwwbaa" || toldTo(r) != "fix_listed, 11 replace, 12 replace" {
		t.Errorf("%s: %s", statuses(r), toldTo(r))
	}
	// A jug read to half an ounce: 7.5 of 7 is 7.1 % above what most give, but 0.6 % below the
	// mean of 90.5 / 12 with two of 9 and 9.5 in it. Only what is above both is replaced.
	r = mustAccept(t, byMean(0.07, 7, 7, 7.5, 7, 9.5, 9, 7.5, 7, 7, 7, 7, 7))
	if toldTo(r) != "fix_listed, 5 replace, 6 replace" {
		t.Errorf("a coarse jug: %s", toldTo(r))
	}
	r = mustAccept(t, byMean(0.1, 0.905, 1, 1, 1, 1, 1, 1.04, 1.05, 1.06, 1.07))
	if statuses(r) != "bwwwwwwwww" || toldTo(r) != "fix_listed, 1 clean_and_recatch" {
		t.Errorf("%s: %s", statuses(r), toldTo(r))
	}
}

// TestReferenceMedian: the middle of 0.93, 1, 1.08 and 1.25 is 1.04, and so is
// that of the two which are left: 0.93 is 10.6 % below it and 1.25 above; from 1 alone 0.93
// would be within. Of 0.85, 1, 1.08 and 1.15 it is 1.04 too, with 1.15 10.6 % above, which is
// within 10 % of 1.08 alone. That of 0.93, 1, 1.06, 1.1 and 1.3 is 1.06, 12.3 % above 0.93.
func TestReferenceMedian(t *testing.T) {
	for _, readings := range [][]unit.Volume{{0.93, 1, 1.08, 1.25}, {0.85, 1, 1.08, 1.15}} {
		if got := toldTo(mustAccept(t, byMean(0.1, readings...))); got != "fix_listed, 1 clean_and_recatch, 4 replace" {
			t.Errorf("%v: %s", readings, got)
		}
	}
	if got := toldTo(mustAccept(t, byMean(0.1, 0.93, 1, 1.06, 1.1, 1.3))); got != "fix_listed, 1 clean_and_recatch, 5 replace" {
		t.Errorf("of five: %s", got)
	}
}

// TestReferenceLimitedOneWay: what pulls the mean the way that is not limited is seen to, and
// the others are not. A catch three times as large puts the others 14 % below a mean of
// 14 / 12, and a dry one 9 % above one of 11 / 12: it is looked into, and that is cleaned.
func TestReferenceLimitedOneWay(t *testing.T) {
	for _, c := range []struct {
		limits   calc.Limits
		readings []unit.Volume
		statuses string
		want     string
	}{
		{calc.Limits{Below: 0.05}, dozen(3), "bbbbbbbbbbbw", "fix_listed, 12 check_and_recatch"},
		{calc.Limits{Above: 0.05}, dozen(0), "aaaaaaaaaaaw", "fix_listed, 12 clean_and_recatch"},
		{calc.Limits{Above: 0.05}, dozen(0.5, 0.4), "aaaaaaaaaaww", "fix_listed, 11 clean_and_recatch, 12 clean_and_recatch"},
		// A high one has no limit, up to half as much again.
		{calc.Limits{Below: 0.05}, dozen(0.9, 1.5), "wwwwwwwwwwbw", "fix_listed, 11 clean_and_recatch"},
		{calc.Limits{Below: 0.05}, dozen(0.9, 1.51), "wwwwwwwwwwbw", "fix_listed, 11 clean_and_recatch, 12 check_and_recatch"},
	} {
		in := byMean(0, c.readings...)
		in.Tolerance = calc.OutputTolerance{Mean: c.limits}
		if r := mustAccept(t, in); statuses(r) != c.statuses || toldTo(r) != c.want {
			t.Errorf("%v, %v: %s, %s, want %s, %s", c.limits, c.readings, statuses(r), toldTo(r), c.statuses, c.want)
		}
	}
}

// TestReferenceSureBesideWhatMostGive: where a plugged drop pulls the mean, how sure one is of
// a high one goes by what most give. A jug read to 50 mL knows any catch to 14.4 mL: 1.2 is
// surely high, 1.127 is 1.9 of them beyond the limit and sure to 97 %, 1.121 is 1.5 and not,
// though it is 21 % above a mean of 11.121 / 12.
func TestReferenceSureBesideWhatMostGive(t *testing.T) {
	for reading, want := range map[unit.Volume]string{
		1.2: "fix_listed, 11 replace, 12 clean_and_recatch", 1.127: "fix_listed, 11 replace, 12 clean_and_recatch", 1.121: "fix_listed, 11 catch_again, 12 clean_and_recatch",
	} {
		in := byMean(0.1, dozen(reading, 0)...)
		in.Measuring = certainty.Measuring{Uncertainty: true, Instruments: []certainty.Instrument{
			{ID: "j", Kind: certainty.Jug, Resolution: 50 * float64(unit.Millilitre), ScaleError: 1e-9}, exact("w", certainty.Stopwatch, 0), exact("g", certainty.Gauge, 0),
		}}
		r := mustAccept(t, in)
		if toldTo(r) != want || r.Uncertainty.Catches[10].Within.Conformance != certainty.SurelyOutside {
			t.Errorf("%v: %s, by its mean %s", reading, toldTo(r), r.Uncertainty.Catches[10].Within.Conformance)
		}
	}
}

// TestReferenceTwoGroups: without a rating, which of two groups further apart than the limit
// is right the catches do not say: half of them worn by 15 %, or three of twelve. Two of
// twelve are odd ones out, and so is one of four; two groups 9 % apart are within the limit,
// and a rating tells which is right. A dry one is in neither group.
func TestReferenceTwoGroups(t *testing.T) {
	const ask = "not_judged, all catch_new_nozzle"
	for _, c := range []struct {
		readings []unit.Volume
		want     string
	}{
		{dozen(1.14, 1.15, 1.16, 1.15, 1.17, 1.15), ask},
		{dozen(1.14, 1.15, 1.16), ask},
		{dozen(0, 1.14, 1.15, 1.16), ask},
		{[]unit.Volume{1.4, 1, 1.4, 1}, ask},
		{dozen(1.14, 1.16), "fix_listed, 11 replace, 12 replace"},
		{dozen(1.5, 1.5, 1.5), ask},
		{dozen(1.51, 1.51, 1.51), "fix_listed, 10 check_and_recatch, 11 check_and_recatch, 12 check_and_recatch"}, // no wear
		{[]unit.Volume{0, 0, 0, 0, 0, 1, 1.2}, "fix_listed, all clean_and_recatch"},
		{[]unit.Volume{1, 1, 1, 1.4}, "fix_listed, 4 replace"},
		{dozen(1.09, 1.09, 1.09, 1.09, 1.09), "keep"},
		{dozen(0.3, 0.5, 0.8), "fix_listed, 10 clean_and_recatch, 11 clean_and_recatch, 12 clean_and_recatch"},
	} {
		r := mustAccept(t, byMean(0.1, c.readings...))
		if toldTo(r) != c.want {
			t.Errorf("%v: %s, want %s", c.readings, toldTo(r), c.want)
		}
		if got := warned(r.Warnings); (got == "nozzle: worn_alike_unseen; catches: two_groups") != (c.want == ask) {
			t.Errorf("%v: warned of %s", c.readings, got)
		}
	}
	in := litreRated(0.1, dozen(1.14, 1.15, 1.16, 1.15, 1.17, 1.15)...)
	in.Tolerance.Basis = calc.BothBases
	if r := mustAccept(t, in); r.Decision == calc.NotJudged {
		t.Errorf("with a rating: %s", toldTo(r))
	}
}

// TestPropertyMeanCondemnsNoneThatAgree: whatever some of them do, fewer than a quarter of
// the catches, the others, which agree within 2 %, are told nothing.
func TestPropertyMeanCondemnsNoneThatAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(9, 30).Draw(t, "caught")
		odd := rapid.IntRange(0, (n-1)/4).Draw(t, "odd")
		var readings []unit.Volume
		for i := range n {
			x := rapid.Float64Range(0.99, 1.01).Draw(t, "alike")
			if i < odd {
				x = rapid.SampledFrom([]float64{0, 0.1, 0.6, 0.8, 1.2, 1.4, 2, 30}).Draw(t, "odd one")
			}
			readings = append(readings, unit.Volume(x))
		}
		r := mustAccept(t, byMean(0.1, readings...))
		if r.Decision == calc.NotJudged || r.Decision == calc.ReplaceAll {
			t.Fatalf("%v: %s", readings, toldTo(r))
		}
		for _, a := range r.Actions {
			if a.Catch >= odd {
				t.Fatalf("%v: %s", readings, toldTo(r))
			}
		}
	})
}
