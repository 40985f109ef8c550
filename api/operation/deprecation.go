package operation

import "time"

// A Deprecation marks an operation that is to go. Add it to a line of All:
//
//	calculation("x", x).Deprecated(Deprecation{Since: …, Sunset: …, Successor: "/v1/y"}),
type Deprecation struct {
	Since     time.Time // it is not to be taken up from then on
	Sunset    time.Time // it may be gone from then on
	Successor string    // the path of what replaces it; empty when nothing does
}

// NoticeMonths is how long an operation works on after it was deprecated, at least.
const NoticeMonths = 12

// Deprecated is the operation with the mark.
func (o Operation) Deprecated(d Deprecation) Operation {
	o.Deprecation = &d
	return o
}
