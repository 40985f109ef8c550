package api

import "net/http"

// secureHeaders go with every answer: what it is must not be guessed, no other site
// may frame it or share its browsing context, and no link tells where it was
// followed. A page that needs a policy of content of its own sets it, with
// frame-ancestors in it. The slices are shared, which saves copies; nobody appends
// to them in place.
var secureHeaders = map[string][]string{
	"X-Content-Type-Options":     {"nosniff"},
	"Referrer-Policy":            {"no-referrer"},
	"Content-Security-Policy":    {"frame-ancestors 'none'"},
	"Cross-Origin-Opener-Policy": {"same-origin"},
}

func secure(h http.Header) {
	for name, value := range secureHeaders {
		h[name] = value
	}
}
