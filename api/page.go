package api

import (
	"crypto/sha256"
	"encoding/base64"
	"net/http"
	"sync"

	"wetrun/internal/text"
)

// A page is one thing that GET answers: reference data, the document, a problem's
// page. It is prepared on the first request and kept.
type page struct {
	mediaType string
	fresh     bool        // true: about the state of the process, never stored
	wordless  bool        // true: the same in every language, so a cache keeps one copy: no Content-Language, no Vary
	private   bool        // true: answered to the one who asked, not to be kept for others
	packed    bool        // true: prepared and kept compressed, and sent so to who takes it
	header    http.Header // in the place of those of reference data
	prepare   func(text.Language) ([]byte, error)

	mutex sync.Mutex
	kept  map[text.Language]prepared
}

type prepared struct {
	body []byte
	etag string
}

// maxAge lets clients keep reference data for an hour and then ask with its ETag.
// A cache that many share must not keep what came for a key or against a quota: it
// would hand it to whoever asks, with another client's RateLimit.
const (
	maxAge        = "public, max-age=3600"
	privateMaxAge = "private, max-age=3600"
)

const htmlPage = "text/html; charset=utf-8"

func (p *page) get(lang text.Language) (prepared, error) {
	p.mutex.Lock()
	defer p.mutex.Unlock()
	if x, ok := p.kept[lang]; ok {
		return x, nil
	}
	body, err := p.prepare(lang)
	if err != nil {
		return prepared{}, err
	}
	sum := sha256.Sum256(body)
	x := prepared{body: body, etag: `"` + base64.RawURLEncoding.EncodeToString(sum[:12]) + `"`}
	if p.kept == nil {
		p.kept = map[text.Language]prepared{}
	}
	p.kept[lang] = x
	return x, nil
}
