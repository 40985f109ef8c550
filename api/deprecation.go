package api

import (
	"net/http"
	"strconv"

	"wetrun/api/operation"
)

// announce says on an answer that its operation is to go: RFC 9745, RFC 8594 and, for what replaces it, RFC 5829.
func announce(h http.Header, d *operation.Deprecation) {
	h.Set("Deprecation", "@"+strconv.FormatInt(d.Since.Unix(), 10))
	h.Set("Sunset", d.Sunset.UTC().Format(http.TimeFormat))
	h.Add("Link", `</deprecation>; rel="deprecation"; type="text/html"`)
	if d.Successor != "" {
		h.Add("Link", "<"+d.Successor+`>; rel="successor-version"`)
	}
}

// withDeprecations announces on every answer at the path of a deprecated operation,
// refusals of any kind included. Where none is deprecated it costs nothing.
func withDeprecations(operations []operation.Operation, next http.Handler) http.Handler {
	deprecated := map[string]*operation.Deprecation{}
	for _, o := range operations {
		if o.Deprecation != nil {
			deprecated["/v1/"+o.Name] = o.Deprecation
		}
	}
	if len(deprecated) == 0 {
		return next
	}
	return http.HandlerFunc(func(w http.ResponseWriter, req *http.Request) {
		if d := deprecated[req.URL.Path]; d != nil {
			announce(w.Header(), d)
		}
		next.ServeHTTP(w, req)
	})
}
