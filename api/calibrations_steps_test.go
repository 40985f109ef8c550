package api

import (
	"encoding/json"
	"net/http"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"wetrun/api/operation"
	"wetrun/internal/text"
)

// decided is a sheet of nozzles rated 1 L/min at 3 bar, so that 500 mL in 30 s is right,
// at 100 m in 60 s, which is 6 km/h, over 50 cm for each: 600 x 1 / (6 x 0.5) = 200 L/ha.
func decided(millilitres []float64, target, more string) string {
	var catches []string
	for i, v := range millilitres {
		catches = append(catches, `{"label":"n`+strconv.Itoa(i+1)+`","volume":{"value":`+strconv.FormatFloat(v, 'f', -1, 64)+`,"unit":"mL"},"time":{"value":30,"unit":"s"}}`)
	}
	return `{"resultUnits":"metric","nozzle":{"ratedFlowRate":{"value":1,"unit":"L/min"},"ratedPressure":{"value":3,"unit":"bar"}},
	"machine":{"sprayedWidthPerNozzle":{"value":50,"unit":"cm"}},
	"pressure":{"readings":[{"pressure":{"value":3,"unit":"bar"}},{"pressure":{"value":3,"unit":"bar"}},{"pressure":{"value":3,"unit":"bar"}}]},
	"speed":{"runs":[{"courseLength":{"value":100,"unit":"m"},"time":{"value":60,"unit":"s"}},{"courseLength":{"value":100,"unit":"m"},"time":{"value":60,"unit":"s"}}]},
	"limits":{"groundSpeed":{"low":{"value":4,"unit":"km/h"},"high":{"value":9,"unit":"km/h"}}},
	"output":{"catches":[` + strings.Join(catches, ",") + `]` + more + `},` + target + `}`
}

func rateTarget(target, maximum string) string {
	return `"target":{"applicationRate":{"value":` + target + `,"unit":"L/ha"},"labelMaximum":{"value":` + maximum + `,"unit":"L/ha"}}`
}

func right(n int) []float64 { return slices.Repeat([]float64{500}, n) }

// sheetAnswer is what a test of steps reads.
type stepAnswer struct{ Code, Label, Pointer, Text, Rule string }

type sheetAnswer struct {
	Verdict, VerdictDetail string
	NextSteps              []stepAnswer
	Output                 struct {
		Status string
		Result struct {
			Decision string
			Warnings []operation.Warning
		}
	}
}

func (a *sheetAnswer) steps() (all []string) {
	for _, s := range a.NextSteps {
		all = append(all, strings.TrimSpace(string(s.Code)+" "+s.Label))
	}
	return all
}

func postSheet(t *testing.T, body string) (a sheetAnswer) {
	t.Helper()
	w := post(t, "calibrations", body)
	if w.Code != http.StatusOK {
		t.Fatalf("%d %s", w.Code, w.Body)
	}
	if err := json.Unmarshal(w.Body.Bytes(), &a); err != nil {
		t.Fatal(err)
	}
	return a
}

// TestReferenceSheetSteps: the rate is worked beside decided; what must follow is common
// practice, no published source.
//
// Over the label: 200 L/ha is 8.7 % over 184, within 10 %, and over 198. Close: it is
// 0.5 % below 201, and instruments and catches are not known as well as that.
//
// Catch more: four of twelve is a third, above a quarter. Of 16 points four outside are a
// quarter and five are more. Three more catches with a third outside, rounded up within,
// are ten within and five outside: then it is settled, and after two it is four.
//
// Twelve of twelve that are 16 % over alike may be worn alike, so a set follows the reference.
//
// A catch that is 10.5 % over a limit of 10 % is known to about 1 %; 6 % over is well
// within, but among eleven that agree to 0.2 % it stands apart, by more than the 1.7 %
// that half a second is of 30 s.
func TestReferenceSheetSteps(t *testing.T) {
	ready := []string{"file_record", "calibrate_again"}
	off := func(n int, by ...float64) []float64 { return append(right(n), by...) }
	scattered := []float64{500, 501, 499, 500, 500.5, 499.5, 501, 499, 500, 500.5, 499.5, 530}
	for name, c := range map[string]struct {
		body, verdict, detail string
		steps                 []string
		says                  string // in the words of the first step
	}{
		"over the label": {
			decided(right(12), rateTarget("184", "198")+`,"uncertainty":false`, ""), "not_ready", "not_ready_over_label_maximum",
			[]string{"over_label_maximum", "choose_plan", "measure_again"}, "Do not spray. The rate is over the label maximum.",
		},
		"too close to the label": {
			decided(right(12), rateTarget("190", "201"), ""), "incomplete", "incomplete_label_open",
			[]string{"choose_plan", "settle_rate", "measure_again"}, "Do not spray. The rate is too close to the label maximum. Lower it",
		},
		"too close to the label's minimum": {
			decided(right(12), `"target":{"applicationRate":{"value":205,"unit":"L/ha"},"labelMinimum":{"value":199,"unit":"L/ha"},"labelMaximum":{"value":250,"unit":"L/ha"}}`, ""), "incomplete", "incomplete_label_open_minimum",
			[]string{"choose_plan", "settle_rate", "measure_again"}, "Do not spray. The rate is too close to the label minimum. Raise it",
		},
		"surely in order": {
			decided(right(12), rateTarget("200", "250"), ""), "ready", "ready", ready, "Keep this record",
		},
		"too close, and no target": {
			decided(off(11, 548), `"label":"no target"`, ""), "incomplete", "incomplete",
			[]string{"check_sooner n12", "set_target"}, "close to its limit or far from the others",
		},
		"four of twelve": {
			decided(off(8, 600, 600, 600, 600), rateTarget("213", "250")+`,"uncertainty":false`, `,"catchPointsOnBoom":16`), "not_ready", "not_ready",
			[]string{"catch_more", "replace n9", "replace n10", "replace n11", "replace n12", "measure_again"}, "catch 3 more of the other places, chosen at random.",
		},
		"four of twelve, the number of points not known": {
			decided(off(8, 600, 600, 600, 600), rateTarget("213", "250")+`,"uncertainty":false`, ""), "not_ready", "not_ready",
			[]string{"catch_more", "replace n9", "replace n10", "replace n11", "replace n12", "measure_again"}, "If there are fewer, catch them all.",
		},
		"twelve of twelve": {
			decided(slices.Repeat([]float64{580}, 12), rateTarget("232", "250")+`,"uncertainty":false`, `,"catchPointsOnBoom":16`), "not_ready", "not_ready",
			[]string{"check_reference", "replace_all_and_recatch", "measure_again"}, "Most catches are off the same way",
		},
		"two dirty and one misread of eight": {
			decided(off(5, 400, 5000, 0), rateTarget("200", "1000")+`,"uncertainty":false,"label":"slips"`, ""), "incomplete", "incomplete_entry",
			[]string{"check_entry n7"}, "It is 5000 mL, and others like it are 500 mL. A digit or the decimal point may be wrong: 500 mL would agree.",
		},
		"too close to what the boom may differ by": {
			strings.Replace(decided(right(12), rateTarget("200", "250"), ""), `"readings":[{"pressure":{"value":3,`, `"maxDifference":{"value":0.5,"unit":"bar"},"readings":[{"pressure":{"value":3.5,`, 1),
			"ready", "ready_close", append([]string{"settle_pressure"}, ready...), "The pressure difference is too close to its limit to call.",
		},
		"slower than the limits": {
			strings.Replace(decided(right(12), rateTarget("200", "250"), ""), `"low":{"value":4,`, `"low":{"value":7,`, 1), "not_ready", "not_ready",
			[]string{"change_nozzle_or_gear", "measure_again"}, "No change of speed or pressure reaches the rate within all limits.",
		},
		"over the label by the tank": {
			decided(right(12), rateTarget("200", "215")+`,"uncertainty":false,"areaCheck":{"volumeUsed":{"value":219,"unit":"L"},"area":{"value":1,"unit":"ha"}}`, ""), "not_ready", "not_ready",
			[]string{"tank_over_label_maximum"}, "Do not spray. From the tank check,",
		},
		"one to catch again before it is replaced": {
			decided(off(11, 552.5), rateTarget("200", "250"), ""), "not_ready", "not_ready",
			[]string{"catch_again n12", "measure_again"}, "too close to call. Catch it again with the same jug and gauge.",
		},
		"one to replace, caught again": {
			decided(off(11, 552.5), rateTarget("200", "250"), `,"followUps":[{"replaces":"n12","volume":{"value":552.5,"unit":"mL"},"time":{"value":30,"unit":"s"}}]`), "not_ready", "not_ready",
			[]string{"replace n12", "measure_again"}, "It was above its limit before and is above it again. PTO off, engine off, key out. Release the pressure. Fit a new one,",
		},
		"one that stands apart": {
			decided(scattered, rateTarget("200", "250")+`,"uncertainty":false`, ""), "ready", "ready_close",
			append([]string{"check_sooner n12"}, ready...), "far from the others",
		},
		"one that stands apart and is to be replaced": {
			decided(append(scattered[:11:11], 600), rateTarget("200", "250")+`,"uncertainty":false`, ""), "not_ready", "not_ready",
			[]string{"replace n12", "measure_again"}, "worn",
		},
	} {
		t.Run(name, func(t *testing.T) {
			a := postSheet(t, c.body)
			if a.Verdict != c.verdict || !strings.HasPrefix(a.VerdictDetail, text.Of(text.English, "verdict."+c.detail)) || !slices.Equal(a.steps(), c.steps) {
				t.Fatalf("%s: %s\n%q, want %q", a.Verdict, a.VerdictDetail, a.steps(), c.steps)
			}
			if !strings.Contains(a.NextSteps[0].Text, c.says) {
				t.Errorf("%q does not say %q", a.NextSteps[0].Text, c.says)
			}
		})
	}
}

// TestStepsNameNoMember: the steps of a sheet are read by a crew, which knows no members.
func TestStepsNameNoMember(t *testing.T) {
	member := regexp.MustCompile(`[a-z][A-Z]|_|\(correction\)`)
	for _, key := range text.Keys() {
		for _, lang := range text.Languages() {
			if strings.HasPrefix(key, "step.") || strings.HasPrefix(key, "verdict.") || strings.HasPrefix(key, "too_close.") || strings.HasPrefix(key, "sampling.") {
				if words := text.Of(lang, key); member.MatchString(words) {
					t.Errorf("%s: %s", key, words)
				}
			}
		}
	}
}

// TestCatchesNamedInWarnings: a drop that may hide a nozzle, and a label that stands
// twice, are named, and pointed at where the sheet has them. 1080 mL in 30 s of two
// nozzles rated 1 L/min is 8 % over, so one may be 2 x 8 + 10 = 26 % off.
func TestCatchesNamedInWarnings(t *testing.T) {
	drop := func(label, millilitres string) string {
		return `{"label":"` + label + `","nozzles":2,"volume":{"value":` + millilitres + `,"unit":"mL"},"time":{"value":30,"unit":"s"}}`
	}
	sheet := func(catches, follow string) string {
		start, _, _ := strings.Cut(decided(nil, "", ""), `"output"`)
		return start + `"output":{"sprayPressure":{"value":3,"unit":"bar"},"catches":[` + catches + `]` + follow + `},"uncertainty":false}`
	}
	for name, c := range map[string]struct {
		body string
		want []string // pointers and codes
		says string
	}{
		"one drop leans":   {sheet(drop("a", "1000")+","+drop("b", "1080"), ""), []string{"#/output/catches/1/volume hidden_deviation"}, "Catch b passes as a whole, but one of its nozzles could be off by up to 26%"},
		"one label twice":  {sheet(drop("a", "1000")+","+drop("b", "1000")+","+drop("a", "1000")+","+drop("a", "1000"), ""), []string{"#/output/catches/2/label duplicate_label"}, "already has the label a"},
		"labels differ":    {sheet(drop("a", "1000")+","+drop("b", "1000"), ""), nil, ""},
		"a long round":     {sheet(strings.Repeat(drop("", "1000")+",", 40)+drop("a", "1000")+","+drop("a", "1000"), ""), []string{"#/output/catches/41/label duplicate_label"}, "already has the label a"},
		"no labels at all": {sheet(drop("", "1000")+","+drop("", "1000"), ""), nil, ""},
		"the nozzles of one drop": {sheet(drop("a", "1000")+","+drop("b", "1200"),
			`,"followUps":[{"replaces":"b","volume":{"value":500,"unit":"mL"},"time":{"value":30,"unit":"s"}},{"replaces":"b","volume":{"value":500,"unit":"mL"},"time":{"value":30,"unit":"s"}}]`), nil, ""},
		"a short follow-up": {sheet(drop("a", "1000")+","+drop("b", "1200"),
			`,"followUps":[{"replaces":"a","nozzles":2,"volume":{"value":500,"unit":"mL"},"time":{"value":15,"unit":"s"}}]`), []string{"#/output/followUps/0/time short_catch"}, ""},
	} {
		var got []string
		all := postSheet(t, c.body).Output.Result.Warnings
		for _, w := range all {
			got = append(got, w.Pointer+" "+w.Code)
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: %q, want %q", name, got, c.want)
		} else if len(got) > 0 && !strings.Contains(all[0].Detail, c.says) {
			t.Errorf("%s: %q does not say %q", name, all[0].Detail, c.says)
		}
	}
}

// TestReferenceDueByHours: 100 h used of 100 make the calibration due now, on the sheet, in
// the summary and on the record, whatever the date.
func TestReferenceDueByHours(t *testing.T) {
	sheet := func(used string) string {
		return strings.TrimSuffix(decided(right(12), rateTarget("200", "250"), ""), "}") +
			`,"schedule":{"measuredOn":"2026-05-12","calibrateEvery":{"value":100,"unit":"h"},"usedSince":{"value":` + used + `,"unit":"h"}}}`
	}
	for used, now := range map[string]bool{"99": false, "100": true} {
		a, verdict := postSheet(t, sheet(used)), map[bool]string{false: "ready", true: "not_ready"}[now]
		last := a.NextSteps[len(a.NextSteps)-1].Text
		if got := strings.Contains(last, "Calibrate again before you spray."); a.Verdict != verdict || got != now {
			t.Errorf("%s h: %s %+v", used, a.Verdict, a.NextSteps)
		}
		w := call(t, http.MethodPost, "/v1/calibrations", sheet(used), "Accept", "text/html")
		if got := strings.Contains(w.Body.String(), "<dt>Calibration</dt><dd>overdue by hours of use</dd>"); w.Code != http.StatusOK || got != now {
			t.Errorf("%s h: %d, record says now: %v", used, w.Code, got)
		}
	}
}
