package calc

import (
	"time"

	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// NextDueInput is when a calibration was measured and what has happened since.
type NextDueInput struct {
	MeasuredOn time.Time
	// NextSeasonStart is the first day of the next season. Zero stands for a year
	// after MeasuredOn.
	NextSeasonStart time.Time
	// CalibrateEvery is the hours of use after which it is due whatever the date;
	// UsedSince are the hours used. Zero when not given.
	CalibrateEvery, UsedSince unit.Time
}

// CodeNotAfterMeasured is the violation for a next season that has begun when it was
// measured: it is the one before.
const CodeNotAfterMeasured = "not_after_measured"

// NextDueResult is when to calibrate again.
type NextDueResult struct {
	Date       time.Time
	BySeason   bool      // the date is the season's start, not a year on
	HasHours   bool      // CalibrateEvery was given
	HoursLeft  unit.Time // 0 when they are used up
	DueByHours bool      // they are used up
}

// NextDue returns when a sprayer is to be calibrated again: at the start of the
// next season, at the latest a year after it was measured, and by hours of use
// where a limit is given. MeasuredOn must be given (required), and the next season
// begin after it (not_after_measured); times must not be below zero (not_positive).
//
// Source: at least once a season, OMAFRA factsheet 88-129,
// http://www.omafra.gov.on.ca/english/engineer/facts/88-129.htm ; a year at the
// latest and hours of use are common practice, no published source.
func NextDue(in NextDueInput) (NextDueResult, error) {
	var v finding.Invalid
	if in.MeasuredOn.IsZero() {
		v.Add(finding.Member("measuredOn"), finding.CodeRequired)
	}
	if s := in.NextSeasonStart; !s.IsZero() && !in.MeasuredOn.IsZero() && !s.After(in.MeasuredOn) {
		v.Add(finding.Member("nextSeasonStart"), CodeNotAfterMeasured)
	}
	v.Optional(float64(in.CalibrateEvery), finding.Member("calibrateEvery"))
	v.Optional(float64(in.UsedSince), finding.Member("usedSince"))
	if len(v) > 0 {
		return NextDueResult{}, v
	}
	r := NextDueResult{Date: in.MeasuredOn.AddDate(1, 0, 0)}
	if s := in.NextSeasonStart; !s.IsZero() && s.Before(r.Date) {
		r.Date, r.BySeason = s, true
	}
	if in.CalibrateEvery != 0 {
		r.HasHours = true
		r.HoursLeft = unit.Time(max(finding.Difference(float64(in.CalibrateEvery), float64(in.UsedSince)), 0))
		r.DueByHours = r.HoursLeft == 0
	}
	return r, nil
}
