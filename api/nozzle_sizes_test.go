package api

import (
	"encoding/json"
	"net/http"
	"strings"
	"testing"
)

// TestNozzleSizesPage: twelve sizes, three of them read in no source, each with both
// ratings. 03 is 1.2 L/min at 3 bar (UK boom-sprayer nozzle leaflet,
// seen in a copy only)
// and 0.30 gal/min at 40 psi (University of Arizona sheet citing ISO 10625, 2012,
// seen in a copy only), and blue in both.
func TestNozzleSizesPage(t *testing.T) {
	var page struct {
		Sizes []struct {
			Size, Color   string
			SourceNotRead bool
			Ratings       []struct {
				SizeRating                   string
				RatedFlowRate, RatedPressure map[string]any
			}
		}
		Sources []struct{ Publisher, URL, Detail string }
	}
	w := call(t, http.MethodGet, "/v1/nozzle-sizes", "")
	if err := json.Unmarshal(w.Body.Bytes(), &page); err != nil || len(page.Sizes) != 12 || len(page.Sources) != 3 {
		t.Fatalf("%v: %s", err, w.Body)
	}
	memory := ""
	for _, s := range page.Sizes {
		if s.SourceNotRead {
			memory += s.Size + " "
		}
		if s.Size != "03" {
			continue
		}
		for i, want := range []map[string]any{{"value": 1.2, "unit": "L/min"}, {"value": 0.3, "unit": "gal_us/min"}} {
			holds(t, "#/03", want, s.Ratings[i].RatedFlowRate, 1e-9)
		}
		for i, want := range []map[string]any{{"value": 3.0, "unit": "bar"}, {"value": 40.0, "unit": "psi"}} {
			holds(t, "#/03", want, s.Ratings[i].RatedPressure, 1e-9)
		}
		if s.Color != "blue" {
			t.Errorf("03 is %s", s.Color)
		}
	}
	if memory != "10 15 20 " {
		t.Errorf("read in no source: %s", memory)
	}
	for _, s := range page.Sources {
		if (s.URL == "") != strings.HasSuffix(s.Publisher, "(seen in a copy only)") || s.Detail == "" {
			t.Errorf("a source without words or place: %+v", s)
		}
	}
}
