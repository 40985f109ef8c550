package api

import (
	"encoding/json"
	"net/http"
	"slices"
	"testing"

	"wetrun/api/operation"
	"wetrun/api/wire"
)

// selection is 0.3 gal/min from each nozzle, with more members after a comma.
func selection(more string) string {
	return `{"targetApplicationRate":{"value":17.82,"unit":"gal_us/acre"},"groundSpeed":{"value":5,"unit":"mph"},
		"sprayedWidthPerNozzle":{"value":20,"unit":"in"},
		"pressureRange":{"low":{"value":20,"unit":"psi"},"high":{"value":60,"unit":"psi"}}` + more + `}`
}

const shelfOfOne = `,"shelf":[{"label":"a","ratedFlowRate":{"value":0.3,"unit":"gal_us/min"},"ratedPressure":{"value":40,"unit":"psi"}}]`

// TestNozzleSelectionRefusals: what only shows once all members are read.
func TestNozzleSelectionRefusals(t *testing.T) {
	for body, want := range map[string]string{
		selection(shelfOfOne + `,"sizeRating":"us_40_psi"`):                                         "#/sizeRating conflict",
		selection(shelfOfOne + `,"sizes":["03"]`):                                                   "#/sizes conflict",
		selection(`,"sizes":["03","3"]`):                                                            "#/sizes/1 not_allowed",
		selection(`,"sizes":["03","03"]`):                                                           "#/sizes/1 conflict",
		selection(`,"sizes":[]`):                                                                    "#/sizes too_few",
		selection(`,"sizes":"03"`):                                                                  "#/sizes wrong_type",
		selection(`,"allowedDropletClasses":["fine",null]`):                                         "#/allowedDropletClasses/1 null_value",
		selection(`,"allowedDropletClasses":["unknown"]`):                                           "#/allowedDropletClasses/0 not_allowed",
		selection(`,"speedRange":{"low":{"value":4,"unit":"mph"},"high":{"value":6,"unit":"mph"}}`): "#/speedRange conflict",
		selection(`,"dropletChart":[{"pressureRange":{"low":{"value":20,"unit":"psi"},"high":{"value":60,"unit":"psi"}},"dropletClass":"fine"}]`): "#/dropletChart/0/size required",
	} {
		w := post(t, "nozzle-selection", body)
		var p wire.Problem
		if err := json.Unmarshal(w.Body.Bytes(), &p); err != nil || w.Code != http.StatusUnprocessableEntity || len(p.Errors) != 1 {
			t.Errorf("%d %s for %s", w.Code, w.Body, body)
			continue
		}
		if got := p.Errors[0].Pointer + " " + p.Errors[0].Code; got != want {
			t.Errorf("%s: got %s, want %s", body, got, want)
		}
	}
}

// TestNozzleSelectionCautions: sizes are not meant for nozzles of several parts; a
// shelf has no sizes to say that of.
func TestNozzleSelectionCautions(t *testing.T) {
	for more, scope := range map[string]bool{"": true, shelfOfOne: false} {
		w := post(t, "nozzle-selection", selection(more))
		var a selectionAnswered
		if err := json.Unmarshal(w.Body.Bytes(), &a); err != nil {
			t.Fatal(err)
		}
		if slices.ContainsFunc(a.Cautions, func(n operation.Notice) bool { return n.Code == "iso_10625_scope" }) != scope {
			t.Errorf("with %q: %v", more, a.Cautions)
		}
		for _, c := range a.Candidates {
			notRead := slices.ContainsFunc(c.Notes, func(n operation.Notice) bool { return n.Code == "source_not_read" && n.Text != "note.source_not_read" })
			if notRead != slices.Contains([]string{"10", "15", "20"}, c.Size) {
				t.Errorf("%s: %v", c.Size, c.Notes)
			}
			if c.DropletClass != "unknown" {
				t.Errorf("%s: droplet class %s without a chart", c.Size, c.DropletClass)
			}
		}
	}
}

// selectionAnswered is what this test reads of an answer.
type selectionAnswered struct {
	Candidates []struct {
		Size, DropletClass string
		Notes              []operation.Notice
	}
	Cautions []operation.Notice
}
