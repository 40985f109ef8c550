package api

import (
	"errors"
	"time"

	"wetrun/calc"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// ScheduleRequest is when the sheet was measured and how the sprayer is used.
type ScheduleRequest struct {
	MeasuredOn      time.Time `json:"measuredOn"`
	NextSeasonStart time.Time `json:"nextSeasonStart,omitzero"`
	CalibrateEvery  Quantity  `json:"calibrateEvery,omitzero"`
	UsedSince       Quantity  `json:"usedSince,omitzero"`
}

// NextDueResponse is when to calibrate again.
type NextDueResponse struct {
	Date       string   `json:"date"`
	Reason     string   `json:"reason"`
	HoursLeft  Quantity `json:"hoursLeft,omitzero"`
	DueByHours *bool    `json:"dueByHours,omitzero"`
}

var scheduleTable = objectOf(
	require(date("measuredOn", func(s *ScheduleRequest) *time.Time { return &s.MeasuredOn })),
	date("nextSeasonStart", func(s *ScheduleRequest) *time.Time { return &s.NextSeasonStart }),
	quantity("calibrateEvery", func(s *ScheduleRequest) *Quantity { return &s.CalibrateEvery }, unit.KindTime),
	amount("usedSince", func(s *ScheduleRequest) *Quantity { return &s.UsedSince }, unit.KindTime),
)

// used tells that the hours of use are used up.
func (d *NextDueResponse) used() bool { return d != nil && d.DueByHours != nil && *d.DueByHours }

func (s *ScheduleRequest) input() calc.NextDueInput {
	return calc.NextDueInput{
		MeasuredOn: s.MeasuredOn, NextSeasonStart: s.NextSeasonStart,
		CalibrateEvery: unit.Time(s.CalibrateEvery.si()), UsedSince: unit.Time(s.UsedSince.si()),
	}
}

// check refuses a schedule that cannot be.
func (s *ScheduleRequest) check() finding.Invalid {
	if s.MeasuredOn.IsZero() {
		return nil
	}
	_, err := calc.NextDue(s.input())
	if err == nil {
		return nil
	}
	var wrong finding.Invalid
	errors.As(err, &wrong)
	return wrong.Under(finding.Member("schedule"))
}

// answer says when to calibrate again; nil without a schedule, which has passed check.
func (s *ScheduleRequest) answer() *NextDueResponse {
	if s.MeasuredOn.IsZero() {
		return nil
	}
	r, err := calc.NextDue(s.input())
	if err != nil {
		return nil
	}
	a := &NextDueResponse{Date: wireDate(r.Date), Reason: "one_year"}
	if r.BySeason {
		a.Reason = "next_season"
	}
	if r.HasHours {
		a.HoursLeft, a.DueByHours = in(r.HoursLeft, unit.IDH), &r.DueByHours
	}
	return a
}
