package calc_test

import (
	"errors"
	"slices"
	"testing"
	"time"

	"wetrun/calc"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// TestReferenceNextDue: once a season (OMAFRA factsheet 88-129), at the latest a
// year on; the dates are counted on a calendar.
func TestReferenceNextDue(t *testing.T) {
	day := func(s string) time.Time {
		d, err := time.Parse(time.DateOnly, s)
		if err != nil {
			t.Fatal(err)
		}
		return d
	}
	for name, c := range map[string]struct {
		in   calc.NextDueInput
		date string
		left unit.Time
		due  bool
	}{
		"a year on":               {calc.NextDueInput{MeasuredOn: day("2026-05-12")}, "2027-05-12", 0, false},
		"next season":             {calc.NextDueInput{MeasuredOn: day("2026-05-12"), NextSeasonStart: day("2027-03-01")}, "2027-03-01", 0, false},
		"the day after":           {calc.NextDueInput{MeasuredOn: day("2026-05-12"), NextSeasonStart: day("2026-05-13")}, "2026-05-13", 0, false},
		"a season far off":        {calc.NextDueInput{MeasuredOn: day("2026-05-12"), NextSeasonStart: day("2029-03-01")}, "2027-05-12", 0, false},
		"leap day":                {calc.NextDueInput{MeasuredOn: day("2028-02-29")}, "2029-03-01", 0, false},
		"60 of 100 hours":         {calc.NextDueInput{MeasuredOn: day("2026-05-12"), CalibrateEvery: 100 * unit.Hour, UsedSince: 60 * unit.Hour}, "2027-05-12", 40 * unit.Hour, false},
		"all hours":               {calc.NextDueInput{MeasuredOn: day("2026-05-12"), CalibrateEvery: 100 * unit.Hour, UsedSince: 100 * unit.Hour}, "2027-05-12", 0, true},
		"1.1 hours of 66 minutes": {calc.NextDueInput{MeasuredOn: day("2026-05-12"), CalibrateEvery: 1.1 * unit.Hour, UsedSince: 66 * unit.Minute}, "2027-05-12", 0, true},
		"no hours yet":            {calc.NextDueInput{MeasuredOn: day("2026-05-12"), CalibrateEvery: 100 * unit.Hour}, "2027-05-12", 100 * unit.Hour, false},
	} {
		r, err := calc.NextDue(c.in)
		if err != nil || r.Date.Format(time.DateOnly) != c.date || r.HoursLeft != c.left || r.DueByHours != c.due || r.HasHours != (c.in.CalibrateEvery != 0) {
			t.Errorf("%s: %+v %v", name, r, err)
		}
	}
}

func TestNextDueRefuses(t *testing.T) {
	_, err := calc.NextDue(calc.NextDueInput{CalibrateEvery: -1, UsedSince: -1})
	var v finding.Invalid
	want := finding.Invalid{{Place: finding.Member("measuredOn"), Code: finding.CodeRequired}, {Place: finding.Member("calibrateEvery"), Code: finding.CodeNotPositive}, {Place: finding.Member("usedSince"), Code: finding.CodeNotPositive}}
	if !errors.As(err, &v) || !slices.EqualFunc(v, want, finding.Violation.Equal) {
		t.Errorf("%v", err)
	}
	measured := time.Date(2026, 5, 12, 0, 0, 0, 0, time.UTC)
	for _, season := range []time.Time{measured, measured.AddDate(0, -2, 0)} {
		_, err := calc.NextDue(calc.NextDueInput{MeasuredOn: measured, NextSeasonStart: season})
		if refusal(err) != "nextSeasonStart: not_after_measured" {
			t.Errorf("a season from %v on: %v", season, err)
		}
	}
}
