package api

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"encoding/base64"
	"io"
	"net/http"
	"path"
	"strconv"
	"strings"
	"sync"

	"github.com/swaggest/swgui/v5/static"
)

// A docsFile is one of the files that the reference at /docs loads, all from this
// server. Most are kept compressed, and sent so to who takes it.
type docsFile struct {
	mediaType string
	packed    bool
	load      func() (loaded, error)
}

type loaded struct {
	body []byte
	etag string // without its quotes
}

func docsFiles() map[string]*docsFile {
	all := map[string]*docsFile{
		"/docs/swagger-ui.css":                  {mediaType: "text/css; charset=utf-8", packed: true},
		"/docs/swagger-ui-bundle.js":            {mediaType: "text/javascript; charset=utf-8", packed: true},
		"/docs/swagger-ui-standalone-preset.js": {mediaType: "text/javascript; charset=utf-8", packed: true},
		"/docs/favicon-16x16.png":               {mediaType: "image/png"},
		"/docs/favicon-32x32.png":               {mediaType: "image/png"},
	}
	for name, f := range all {
		file := path.Base(name)
		if f.packed {
			file += ".gz"
		}
		f.load = sync.OnceValues(func() (loaded, error) {
			body, err := static.FS.ReadFile(file)
			sum := sha256.Sum256(body)
			return loaded{body, base64.RawURLEncoding.EncodeToString(sum[:12])}, err
		})
	}
	return all
}

func (f *docsFile) serve(w http.ResponseWriter, req *http.Request) error {
	x, err := f.load()
	if err != nil {
		return err
	}
	h := w.Header()
	h.Set("Cache-Control", maxAge)
	h.Set("Content-Type", f.mediaType)
	body, etag := x.body, `"`+x.etag+`"`
	if f.packed {
		h.Add("Vary", "Accept-Encoding")
		if takesGzip(req.Header.Get("Accept-Encoding")) {
			h.Set("Content-Encoding", "gzip")
			etag = `"` + x.etag + `-gzip"`
		} else if body, err = unpacked(x.body); err != nil {
			return err
		}
	}
	h.Set("ETag", etag)
	if matches(req.Header.Get("If-None-Match"), etag) {
		for _, name := range []string{"Content-Type", "Content-Encoding"} {
			h.Del(name)
		}
		w.WriteHeader(http.StatusNotModified)
		return nil
	}
	h.Set("Content-Length", strconv.Itoa(len(body)))
	w.WriteHeader(http.StatusOK)
	if req.Method != http.MethodHead {
		_, _ = w.Write(body) // the client has gone when this fails
	}
	return nil
}

func unpacked(body []byte) ([]byte, error) {
	r, err := gzip.NewReader(bytes.NewReader(body))
	if err != nil {
		return nil, err
	}
	return io.ReadAll(r)
}

// takesGzip reads an Accept-Encoding header: gzip is named, and not with a weight
// of nought.
func takesGzip(accept string) bool {
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
