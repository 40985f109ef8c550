package api

import (
	"encoding/json"
	"fmt"
	"net/http"
	"strings"
	"testing"

	"wetrun/api/operation"
	"wetrun/calc/certainty"
	"wetrun/internal/text"
)

// TestSamplingHasWords: every word of an answer on sampling and outliers has its text.
func TestSamplingHasWords(t *testing.T) {
	keys := []string{"sampling.all_caught", "sampling.points_known", "sampling.points_unknown", "sampling.more", "sampling.more_sides", "sampling.more_all", "sampling.random_points", "sampling.jeffreys_prior"}
	for _, w := range certainty.Settled("").Words() {
		keys = append(keys, "sampling."+string(w))
	}
	for _, w := range certainty.OutlierTest("").Words() {
		keys = append(keys, "outlier."+string(w))
	}
	for _, p := range certainty.Position("").Words() {
		keys = append(keys, "side."+p)
	}
	for _, k := range keys {
		if !text.Has(k) {
			t.Errorf("%s has no words", k)
		}
	}
}

// TestSheetSamplesPointsAndPointsAtOutliers: on a sheet a drop whose three nozzles were
// caught again, one by one, stays one of eight points, and an outlier is pointed to
// where it stands in the sheet. All invented. One of ten readings is far off, so G
// = (10 - 1) / sqrt(10) = 2.846 nearly, and the first drop is not among them.
func TestSheetSamplesPointsAndPointsAtOutliers(t *testing.T) {
	const jug = `"volume":{"value":%v,"unit":"mL"},"time":{"value":30,"unit":"s"}`
	catches := []string{fmt.Sprintf(`{"label":"drop","position":"left","nozzles":3,`+jug+`}`, 1500)}
	for i := range 7 {
		catches = append(catches, fmt.Sprintf(`{"label":"%d","position":"right",`+jug+`}`, i, 500))
	}
	var again []string
	for _, ml := range []int{500, 501, 700} {
		again = append(again, fmt.Sprintf(`{"replaces":"drop",`+jug+`}`, ml))
	}
	body := `{"output":{"catchPointsOnBoom":8,"tolerance":{"limit":{"value":10,"unit":"%"},"basis":"mean"},"catches":[` +
		strings.Join(catches, ",") + `],"followUps":[` + strings.Join(again, ",") + `]}}`
	w := post(t, "calibrations", body)
	var a sampledSheet
	if err := json.Unmarshal(w.Body.Bytes(), &a); err != nil || w.Code != http.StatusOK {
		t.Fatalf("%d %v %s", w.Code, err, w.Body)
	}
	s := a.Output.Result.Sampling
	if !s.AllCaught || s.PointsOutside.Low != 1 || s.PointsOutside.High != 1 || s.Assumptions != nil || s.Settled != "not_above" {
		t.Errorf("%+v", s)
	}
	o := a.Output.Result.Outliers
	if len(o) != 1 || o[0].Pointer != "#/output/followUps/2" || o[0].Label != "drop, nozzle 3" || o[0].Test != "grubbs" {
		t.Errorf("%+v", o)
	}
}

// sampledSheet is what this test reads of a sheet's answer.
type sampledSheet struct {
	Output struct {
		Result struct {
			Sampling struct {
				AllCaught     bool
				PointsOutside operation.PointsAnswer
				Settled       string
				Assumptions   []any
			}
			Outliers []operation.OutlierAnswer
		}
	}
}

// TestSamplingSaysWhatWouldSettle reads the words: which side to begin at, all the
// rest, or any points; and nothing where nothing would.
func TestSamplingSaysWhatWouldSettle(t *testing.T) {
	for _, c := range []struct {
		what, members, positions, low string
		want, not                     string
	}{
		{"sides", `,"catchPointsOnBoom":100`, "left right right", "left", `"beginAt":["center"]`, ""},
		{"no side known", `,"catchPointsOnBoom":100`, "left - right", "left", "chosen at random", "beginAt"},
		{"the rest", `,"catchPointsOnBoom":4`, "left right right", "left", "catch all the places that remain (1)", "beginAt"},
		{"all", `,"catchPointsOnBoom":3`, "left right right", "", `"allCaught":true`, "prior"},
		{"never", `,"replaceAllAbove":{"value":25,"unit":"%"}`, "left right right center", "left", `"settled":"open"`, "moreCatches"},
	} {
		var catches []string
		for p := range strings.SplitSeq(c.positions, " ") {
			position := `"position":"` + p + `",`
			if p == "-" {
				position = ""
			}
			litres := "1"
			if p == c.low {
				litres = "0.8"
			}
			catches = append(catches, fmt.Sprintf(`{%s"volume":{"value":%s,"unit":"L"},"time":{"value":1,"unit":"min"}}`, position, litres))
		}
		w := post(t, "nozzle-acceptance", `{"nozzle":{"ratedFlowRate":{"value":1,"unit":"L/min"},"ratedPressure":{"value":3,"unit":"bar"}},"sprayPressure":{"value":3,"unit":"bar"},"catches":[`+strings.Join(catches, ",")+"]"+c.members+"}")
		if got := w.Body.String(); w.Code != http.StatusOK || !strings.Contains(got, c.want) || c.not != "" && strings.Contains(got, c.not) {
			t.Errorf("%s: %d %s", c.what, w.Code, got)
		}
	}
}
