package api

import (
	"io"
	"maps"
	"net/http"
	"strconv"
	"strings"

	"wetrun/internal/packed"
	"wetrun/internal/text"
)

// pagePolicy is the Content-Security-Policy of a page for people: what it loads comes
// from this server, and nothing that stands in the page itself runs.
const pagePolicy = "default-src 'none'; script-src 'self'; style-src 'self'; connect-src 'self'; img-src 'self' data:; " +
	"base-uri 'none'; form-action 'none'; frame-ancestors 'none'"

func (p *page) serve(w http.ResponseWriter, req *http.Request) error {
	lang := text.English
	if !p.wordless {
		lang = languageOf(req)
	}
	x, err := p.get(lang)
	if err != nil {
		return err
	}
	h := w.Header()
	if !p.wordless {
		setLanguage(h, lang)
	}
	if p.mediaType == htmlPage {
		h.Set("Content-Security-Policy", pagePolicy)
	}
	gzipped := p.packed && acceptsGzip(strings.Join(req.Header.Values("Accept-Encoding"), ","))
	if p.packed {
		h.Add("Vary", "Accept-Encoding")
	}
	if p.fresh {
		h.Set("Cache-Control", "no-store")
	} else {
		etag := x.etag
		if gzipped {
			etag = strings.TrimSuffix(etag, `"`) + `-gzip"`
		}
		h.Set("Cache-Control", maxAge)
		if p.private {
			h.Set("Cache-Control", privateMaxAge)
		}
		h.Set("ETag", etag)
		maps.Copy(h, p.header)
		if matchesETag(strings.Join(req.Header.Values("If-None-Match"), ","), etag) {
			addLinks(h)
			w.WriteHeader(http.StatusNotModified)
			return nil
		}
	}
	if p.packed && !gzipped {
		return writeUnpacked(w, req, p.mediaType, x.body)
	}
	if gzipped {
		h.Set("Content-Encoding", "gzip")
	}
	writeBody(w, req, p.mediaType, http.StatusOK, x.body)
	return nil
}

// writeUnpacked sends what is kept compressed as it comes out, so that a client that is
// slow to take it does not hold the whole.
func writeUnpacked(w http.ResponseWriter, req *http.Request, mediaType string, body []byte) error {
	plain, length, err := packed.Reader(body)
	if err != nil {
		return err
	}
	writeHead(w, mediaType, http.StatusOK, length)
	if req.Method != http.MethodHead {
		_, _ = io.Copy(w, plain) // the client has gone when this fails
	}
	return nil
}

// matchesETag compares an If-None-Match list, of whose lines there may be several, with a tag,
// weakly as RFC 9110 asks (5.3, 13.1.2).
func matchesETag(list, etag string) bool {
	for tag := range strings.SplitSeq(list, ",") {
		tag = strings.TrimSpace(tag)
		if tag == "*" || strings.TrimPrefix(tag, "W/") == etag {
			return true
		}
	}
	return false
}

// compressed compresses what is prepared, for a page that is kept compressed.
func compressed(prepare func(text.Language) ([]byte, error)) func(text.Language) ([]byte, error) {
	return func(lang text.Language) ([]byte, error) {
		body, err := prepare(lang)
		if err != nil {
			return nil, err
		}
		return packed.Pack(body)
	}
}

// acceptsGzip reads an Accept-Encoding header: gzip is named, and not with a weight
// of nought.
func acceptsGzip(accept string) bool {
	for coding := range strings.SplitSeq(accept, ",") {
		name, weight, _ := strings.Cut(strings.TrimSpace(coding), ";")
		if !strings.EqualFold(strings.TrimSpace(name), "gzip") {
			continue
		}
		q, err := strconv.ParseFloat(strings.TrimPrefix(strings.TrimSpace(weight), "q="), 64)
		return err != nil || q > 0
	}
	return false
}
