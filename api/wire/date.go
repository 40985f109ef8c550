package wire

import (
	"time"
	"unsafe"
)

// dateLayout is how dates stand on the wire: ISO 8601, without a time.
const dateLayout = "2006-01-02"

// datePattern is the form that the document promises.
const datePattern = "^(19|20|21)[0-9]{2}-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])$"

// Years that a date may lie in: a year outside is a slip of the hand.
const (
	firstYear = 1900
	lastYear  = 2199
)

// readDate reads a day of the calendar. The schema's pattern knows the form, not how
// long each month is.
func readDate(d *decoder, p unsafe.Pointer) {
	raw, ok := d.expectString()
	if !ok {
		return
	}
	day, err := time.Parse(dateLayout, string(raw))
	if err != nil || day.Year() < firstYear || day.Year() > lastYear {
		d.report(FieldError{Code: "not_a_date"})
		return
	}
	*(*time.Time)(p) = day
}

// FormatDate writes a day as it stands on the wire; empty for the zero time.
func FormatDate(day time.Time) string {
	if day.IsZero() {
		return ""
	}
	return day.Format(dateLayout)
}
