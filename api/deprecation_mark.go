package api

import "time"

// A deprecation marks an operation that is to go. Add it to a line of the table:
//
//	calculation("x", x).deprecated(deprecation{since: …, sunset: …, successor: "/v1/y"}),
type deprecation struct {
	since     time.Time // it is not to be taken up from then on
	sunset    time.Time // it may be gone from then on
	successor string    // the path of what replaces it; empty when nothing does
}

// noticeMonths is how long an operation works on after it was deprecated, at least.
const noticeMonths = 12

func (o operation) deprecated(d deprecation) operation {
	o.deprecation = &d
	return o
}
