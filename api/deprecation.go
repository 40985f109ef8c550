package api

import (
	"net/http"
	"strconv"
	"time"
)

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

// announce says so on an answer: RFC 9745, RFC 8594 and, for what replaces it, RFC 5829.
func (d *deprecation) announce(h http.Header) {
	h.Set("Deprecation", "@"+strconv.FormatInt(d.since.Unix(), 10))
	h.Set("Sunset", d.sunset.UTC().Format(http.TimeFormat))
	h.Add("Link", `</deprecation>; rel="deprecation"; type="text/html"`)
	if d.successor != "" {
		h.Add("Link", "<"+d.successor+`>; rel="successor-version"`)
	}
}

// withDeprecations announces on every answer at the path of a deprecated operation,
// refusals of any kind included. Where none is deprecated it costs nothing.
func withDeprecations(operations []operation, next http.Handler) http.Handler {
	deprecated := map[string]*deprecation{}
	for _, o := range operations {
		if o.deprecation != nil {
			deprecated["/v1/"+o.name] = o.deprecation
		}
	}
	if len(deprecated) == 0 {
		return next
	}
	return http.HandlerFunc(func(w http.ResponseWriter, req *http.Request) {
		if d := deprecated[req.URL.Path]; d != nil {
			d.announce(w.Header())
		}
		next.ServeHTTP(w, req)
	})
}
