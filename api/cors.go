package api

import (
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strings"

	"github.com/rs/cors"
)

// AnyOrigin lets the pages of every site call the service. It takes no cookies and
// keeps nothing, so that a page learns no more than its server could ask for itself.
const AnyOrigin = "*"

// preflightAge is how long a browser keeps the answer to a preflight, in seconds:
// what the most widespread ones keep at most.
const preflightAge = 2 * 60 * 60

// What pages of other origins may send and read, beyond what every page may.
var (
	sentHeaders    = []string{"Content-Type", "Accept-Language", "Authorization", "If-None-Match", requestIDHeader}
	exposedHeaders = []string{
		requestIDHeader, "ETag", "Link", "Retry-After", "RateLimit", "RateLimit-Policy", "Deprecation", "Sunset",
		"Content-Language", "Allow", "WWW-Authenticate",
	}
)

// ParseOrigins reads a list of origins with commas between them: "*" for every one,
// "none" for none, or each as a browser sends it, https://example.org.
func ParseOrigins(list string) ([]string, error) {
	switch list {
	case AnyOrigin:
		return []string{AnyOrigin}, nil
	case "none":
		return nil, nil
	}
	var origins []string
	for origin := range strings.SplitSeq(list, ",") {
		origin = strings.ToLower(strings.TrimSpace(origin))
		u, err := url.Parse(origin)
		if err != nil || u.Scheme == "" || u.Host == "" || origin != u.Scheme+"://"+u.Host || strings.Contains(origin, "*") {
			return nil, fmt.Errorf("%q is no origin: write each as scheme://host[:port], or * alone for every one, or none", origin)
		}
		origins = append(origins, origin)
	}
	return origins, nil
}

// withCORS lets pages of the origins listed call the service. It stands outside of
// whatever refuses a request, so that such a page can read why.
func withCORS(origins []string, next http.Handler) http.Handler {
	if len(origins) == 0 {
		return next
	}
	sharing := cors.New(cors.Options{
		AllowedOrigins: origins,
		AllowedMethods: []string{http.MethodGet, http.MethodHead, http.MethodPost},
		AllowedHeaders: sentHeaders,
		ExposedHeaders: exposedHeaders,
		MaxAge:         preflightAge,
	})
	shared := sharing.Handler(next)
	if slices.Contains(origins, AnyOrigin) {
		shared = withAnyOrigin(next)
	}
	return http.HandlerFunc(func(w http.ResponseWriter, req *http.Request) {
		if req.Method == http.MethodOptions && req.Header.Get("Access-Control-Request-Method") != "" {
			req.Pattern = "preflight" // for telemetry, since no route is looked for
			sharing.HandlerFunc(w, req)
			return
		}
		shared.ServeHTTP(w, req)
	})
}

// withAnyOrigin says the same to every origin in each answer that a cache may keep, so
// that there need not be one for each, as with a Vary. The answer to a POST is for its
// asker alone.
func withAnyOrigin(next http.Handler) http.Handler {
	any, exposed := []string{AnyOrigin}, []string{strings.Join(exposedHeaders, ", ")}
	return http.HandlerFunc(func(w http.ResponseWriter, req *http.Request) {
		if req.Method != http.MethodPost || req.Header.Get("Origin") != "" {
			h := w.Header()
			h["Access-Control-Allow-Origin"] = any
			h["Access-Control-Expose-Headers"] = exposed
		}
		next.ServeHTTP(w, req)
	})
}
