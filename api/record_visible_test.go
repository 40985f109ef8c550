package api

import (
	"net/http"
	"strings"
	"testing"

	"wetrun/internal/text"
)

// TestRecordShowsLabelsPlainly: what would hide, reorder or fake words is on no record.
func TestRecordShowsLabelsPlainly(t *testing.T) {
	for _, name := range []string{"ready", "boom-to-repair", "rate-to-correct"} {
		sheet := strings.ReplaceAll(demo(t, name), `"label": "`, `"label": "\u001b[2J\u009b\u2066\u202e`)
		page := call(t, http.MethodPost, "/v1/calibrations", sheet, "Accept", "text/html").Body.String()
		_, body, _ := strings.Cut(page, "<body")
		if i := strings.IndexFunc(strings.ReplaceAll(body, "\n", ""), text.Hidden); i >= 0 || !strings.Contains(body, ">[2J") {
			t.Errorf("%s: a hidden character at %d of\n%q", name, i, body)
		}
	}
}
