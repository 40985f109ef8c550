package api

import (
	"mime"
	"net/http"
	"strconv"
	"strings"
)

// mostAccept is how much of an Accept header is looked at.
const mostAccept = 1 << 10

// prefersHTML tells whether a client that can have JSON or HTML asks for HTML: it
// names text/html, and wants it no less than JSON (RFC 9110, 12.5.1). A browser's
// form does; a program that says nothing or anything gets JSON.
func prefersHTML(req *http.Request) bool {
	header := strings.Join(req.Header.Values("Accept"), ",")
	if len(header) < len("text/html") || len(header) > mostAccept || header == "application/json" {
		return false
	}
	var html float64
	json := map[string]float64{}
	for part := range strings.SplitSeq(header, ",") {
		media, params, err := mime.ParseMediaType(part)
		if err != nil {
			continue
		}
		q := 1.0
		if given, ok := params["q"]; ok {
			if q, err = strconv.ParseFloat(given, 64); err != nil || !(q >= 0 && q <= 1) {
				continue
			}
		}
		switch media {
		case "text/html":
			html = q
		case "application/json", "application/*", "*/*":
			json[media] = q
		}
	}
	exact, ok := json["application/json"]
	if !ok {
		exact, ok = json["application/*"]
	}
	if !ok {
		exact = json["*/*"]
	}
	return html > 0 && html >= exact
}
