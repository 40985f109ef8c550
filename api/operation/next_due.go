package operation

import (
	"errors"
	"time"

	"wetrun/api/wire"
	"wetrun/calc"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// ScheduleRequest is when the sheet was measured and how the sprayer is used.
type ScheduleRequest struct {
	MeasuredOn      time.Time     `json:"measuredOn" validate:"required"`
	NextSeasonStart time.Time     `json:"nextSeasonStart,omitzero"`
	CalibrateEvery  wire.Quantity `json:"calibrateEvery,omitzero" is:"time"`
	UsedSince       wire.Quantity `json:"usedSince,omitzero" is:"time" zero:"true"`
}

// NextDueAnswer is when to calibrate again.
type NextDueAnswer struct {
	Date       string        `json:"date"`
	Reason     string        `json:"reason"`
	HoursLeft  wire.Quantity `json:"hoursLeft,omitzero"`
	DueByHours *bool         `json:"dueByHours,omitzero"`
}

// hoursUsedUp tells that the sprayer has run as long as it may between calibrations.
func (d *NextDueAnswer) hoursUsedUp() bool { return d != nil && d.DueByHours != nil && *d.DueByHours }

func (s *ScheduleRequest) input() calc.NextDueInput {
	return calc.NextDueInput{
		MeasuredOn: s.MeasuredOn, NextSeasonStart: s.NextSeasonStart,
		CalibrateEvery: unit.Time(s.CalibrateEvery.SI()), UsedSince: unit.Time(s.UsedSince.SI()),
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
func (s *ScheduleRequest) answer() *NextDueAnswer {
	if s.MeasuredOn.IsZero() {
		return nil
	}
	r, err := calc.NextDue(s.input())
	if err != nil {
		return nil
	}
	a := &NextDueAnswer{Date: wire.FormatDate(r.Date), Reason: "one_year"}
	if r.BySeason {
		a.Reason = "next_season"
	}
	if r.HasHours {
		a.HoursLeft, a.DueByHours = wire.In(r.HoursLeft, unit.IDH), &r.DueByHours
	}
	return a
}
