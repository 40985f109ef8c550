package api

import (
	"bytes"
	"crypto/sha256"
	"encoding/base64"
	"errors"
	"maps"
	"net/http"
	"regexp"
	"slices"
	"strings"
	"sync"

	"github.com/swaggest/swgui"
	"github.com/swaggest/swgui/v5emb"

	"wetrun/internal/text"
)

// docsHandler serves the interactive reference. Nothing is asked of any other host:
// the badge that would have the document checked elsewhere is off.
var docsHandler = sync.OnceValue(func() http.Handler {
	return v5emb.NewHandlerWithConfig(swgui.Config{
		Title:       "wetrun",
		SwaggerJSON: "/openapi.json",
		BasePath:    "/docs",
		SettingsUI: map[string]string{
			"validatorUrl":           "null",
			"tryItOutEnabled":        "true",
			"displayRequestDuration": "true",
			"docExpansion":           `"list"`,
		},
	})
})

// docsPage is the reference without its files.
func docsPage(text.Language) ([]byte, error) {
	req, err := http.NewRequest(http.MethodGet, "/docs", nil)
	if err != nil {
		return nil, err
	}
	w := &kept{header: http.Header{}}
	docsHandler().ServeHTTP(w, req)
	if w.status >= http.StatusBadRequest {
		return nil, errors.New("the reference could not be made: " + w.String())
	}
	return w.Bytes(), nil
}

// kept is an answer held in memory.
type kept struct {
	bytes.Buffer
	header http.Header
	status int
}

func (k *kept) Header() http.Header    { return k.header }
func (k *kept) WriteHeader(status int) { k.status = status }

var inlined = regexp.MustCompile(`(?s)<(script|style)>(.*?)</`)

// contentPolicy is the Content-Security-Policy of a page for people: what it loads
// comes from this server, and what stands in the page itself runs by its hash.
func contentPolicy(page []byte) string {
	sources := map[string][]string{"script": {"'self'"}, "style": {"'self'"}}
	for _, m := range inlined.FindAllSubmatch(page, -1) {
		sum := sha256.Sum256(m[2])
		kind := string(m[1])
		sources[kind] = append(sources[kind], "'sha256-"+base64.StdEncoding.EncodeToString(sum[:])+"'")
	}
	policy := "default-src 'none'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'; connect-src 'self'; img-src 'self' data:"
	for _, kind := range slices.Sorted(maps.Keys(sources)) {
		policy += "; " + kind + "-src " + strings.Join(sources[kind], " ")
	}
	return policy
}
