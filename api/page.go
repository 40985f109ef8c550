package api

import (
	"crypto/sha256"
	"encoding/base64"
	"encoding/json"
	"maps"
	"net/http"
	"strings"
	"sync"

	"wetrun/internal/text"
	"wetrun/openapi"
)

// A page is one thing that GET answers: reference data, the document, a problem's
// page. It is prepared on the first request and kept.
type page struct {
	mediaType string
	fresh     bool        // true: about the state of the process, never stored
	wordless  bool        // true: the same in every language
	header    http.Header // in the place of those of reference data
	prepare   func(text.Language) ([]byte, error)

	mutex sync.Mutex
	kept  map[text.Language]prepared
}

type prepared struct {
	body   []byte
	etag   string
	policy string // of a page for people: what may be loaded and run in it
}

// maxAge lets clients keep reference data for an hour and then ask with its ETag.
const maxAge = "public, max-age=3600"

const htmlPage = "text/html; charset=utf-8"

// pages lists every path of the document that GET and HEAD answer, beside operations.
func pages(operations []operation) map[string]*page {
	all := map[string]*page{
		"/livez":           {mediaType: "application/json", fresh: true, wordless: true, prepare: encoded(func(text.Language) any { return statusResponse{"alive"} })},
		"/readyz":          {mediaType: "application/json", fresh: true, wordless: true, prepare: encoded(func(text.Language) any { return statusResponse{"ready"} })},
		"/openapi.yaml":    {mediaType: "application/yaml", wordless: true, prepare: func(text.Language) ([]byte, error) { return openapi.YAML, nil }},
		"/deprecation":     {mediaType: htmlPage, prepare: deprecationPage(operations)},
		"/docs":            {mediaType: htmlPage, wordless: true, prepare: docsPage},
		"/openapi.json":    {mediaType: "application/json", wordless: true, prepare: func(text.Language) ([]byte, error) { return openapi.JSON, nil }},
		"/v1/units":        {mediaType: "application/json", prepare: encoded(units)},
		"/v1/tolerances":   {mediaType: "application/json", prepare: tolerances},
		"/v1/methods":      {mediaType: "application/json", prepare: encoded(methods)},
		"/v1/nozzle-sizes": {mediaType: "application/json", prepare: nozzleSizes},
		"/v1/procedure":    {mediaType: "application/json", prepare: encoded(procedure)},
		"/v1/meta":         {mediaType: "application/json", wordless: true, prepare: encoded(meta)},
	}
	for _, t := range problemTypes {
		all["/problems/"+string(t.kind)] = &page{mediaType: htmlPage, prepare: problemPage(t.kind)}
	}
	all["/.well-known/api-catalog"] = &page{mediaType: catalogType, wordless: true, prepare: apiCatalog(operations, all)}
	return all
}

type statusResponse struct {
	Status string `json:"status"`
}

func encoded(value func(text.Language) any) func(text.Language) ([]byte, error) {
	return func(lang text.Language) ([]byte, error) { return json.Marshal(value(lang)) }
}

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
	if p.mediaType == htmlPage {
		x.policy = contentPolicy(body)
	}
	if p.kept == nil {
		p.kept = map[text.Language]prepared{}
	}
	p.kept[lang] = x
	return x, nil
}

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
		worded(h, lang)
	}
	if x.policy != "" {
		h.Set("Content-Security-Policy", x.policy)
	}
	if p.fresh {
		h.Set("Cache-Control", "no-store")
	} else {
		h.Set("Cache-Control", maxAge)
		h.Set("ETag", x.etag)
		maps.Copy(h, p.header)
		if matches(req.Header.Get("If-None-Match"), x.etag) {
			addLinks(h)
			w.WriteHeader(http.StatusNotModified)
			return nil
		}
	}
	writeBody(w, req, p.mediaType, http.StatusOK, x.body)
	return nil
}

// matches compares an If-None-Match list with a tag, weakly as RFC 9110 asks.
func matches(list, etag string) bool {
	for tag := range strings.SplitSeq(list, ",") {
		tag = strings.TrimSpace(tag)
		if tag == "*" || strings.TrimPrefix(tag, "W/") == etag {
			return true
		}
	}
	return false
}
