package api

import (
	"time"

	"github.com/go-json-experiment/json/jsontext"
)

// date is a member that is a day of the calendar, as 2026-05-12.
func date[T any](name string, at func(*T) *time.Time) member[T] {
	return member[T]{
		name: name,
		read: func(d *decoder, into *T) {
			if !d.expect(jsontext.KindString, "string") {
				return
			}
			raw, ok := d.raw()
			if !ok {
				return
			}
			day, err := time.Parse(time.DateOnly, string(raw))
			if err != nil || day.Year() < 1900 || day.Year() > 2999 {
				d.report(FieldError{Code: "not_a_date"})
				return
			}
			*at(into) = day
		},
		shape: shape{Type: "string", Format: "date"},
	}
}
