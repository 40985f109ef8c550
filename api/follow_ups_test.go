package api

import (
	"encoding/json"
	"net/http"
	"slices"
	"strings"
	"testing"
)

// followUpSheet has two drops of two nozzles rated 1 L/min at 3 bar, so 1 L in 30 s
// is right; drop b gives 1.2 L, a fifth too much.
const followUpSheet = `{"resultUnits":"metric","nozzle":{"ratedFlowRate":{"value":1,"unit":"L/min"},"ratedPressure":{"value":3,"unit":"bar"}},
"output":{"sprayPressure":{"value":3,"unit":"bar"},"replaceAllAbove":{"value":60,"unit":"%"},"catches":[
{"label":"a","nozzles":2,"volume":{"value":1,"unit":"L"},"time":{"value":30,"unit":"s"}},
{"label":"b","nozzles":2,"volume":{"value":1.2,"unit":"L"},"time":{"value":30,"unit":"s"}}]FOLLOW}}`

// TestReferenceFollowUps: what must come is common practice, no published source;
// the flows are worked beside the sheet.
func TestReferenceFollowUps(t *testing.T) {
	one := func(name, litres string) string {
		return `{"replaces":"b","label":"` + name + `","volume":{"value":` + litres + `,"unit":"L"},"time":{"value":30,"unit":"s"}}`
	}
	for name, c := range map[string]struct {
		follow string
		want   []string // code, label, pointer of the steps about catches
	}{
		"none":                {"", []string{"catch_each_nozzle b #/output/catches/1"}},
		"one of them is worn": {`,"followUps":[` + one("b left", "0.5") + `,` + one("b right", "0.7") + `]`, []string{"replace b right #/output/followUps/1"}},
		"both are in order":   {`,"followUps":[` + one("b left", "0.5") + `,` + one("b right", "0.52") + `]`, nil},
		"the drop once more":  {`,"followUps":[{"replaces":"b","nozzles":2,"volume":{"value":0.8,"unit":"L"},"time":{"value":30,"unit":"s"}}]`, []string{"clean_and_recatch b #/output/followUps/0"}},
	} {
		w := post(t, "calibrations", strings.Replace(followUpSheet, "FOLLOW", c.follow, 1))
		var a struct{ NextSteps []stepAnswer }
		if err := json.Unmarshal(w.Body.Bytes(), &a); err != nil {
			t.Fatal(err)
		}
		var got []string
		for _, s := range a.NextSteps {
			if s.Pointer != "" {
				got = append(got, string(s.Code)+" "+s.Label+" "+s.Pointer)
			}
		}
		if w.Code != http.StatusOK || !slices.Equal(got, c.want) {
			t.Errorf("%s: %d %q, want %q", name, w.Code, got, c.want)
		}
	}
}

func TestFollowUpsRefuse(t *testing.T) {
	for follow, want := range map[string]string{
		`,"followUps":[{"replaces":"c","volume":{"value":1,"unit":"L"},"time":{"value":30,"unit":"s"}}]`: "#/output/followUps/0/replaces unknown_label",
		`,"followUps":[{"replaces":"b","volume":{"value":1,"unit":"L"},"time":{"value":30,"unit":"s"}}]`: "#/output/catches/1 incomplete_follow_up",
	} {
		codes, _ := refusals(t, "calibrations", strings.Replace(followUpSheet, "FOLLOW", follow, 1))
		if !slices.Equal(codes, []string{want}) {
			t.Errorf("%q, want %q", codes, want)
		}
	}
	twins := strings.Replace(strings.Replace(followUpSheet, "FOLLOW", `,"followUps":[{"replaces":"a","volume":{"value":1,"unit":"L"},"time":{"value":30,"unit":"s"}}]`, 1), `"label":"b"`, `"label":"a"`, 1)
	if codes, _ := refusals(t, "calibrations", twins); !slices.Equal(codes, []string{"#/output/followUps/0/replaces unknown_label"}) {
		t.Errorf("%q", codes)
	}
}

// TestFollowUpsWithoutNamesAreToldApart: the nozzles of a drop, each alone, are called by
// their numbers, in the steps and on the record, which still shows what was caught first.
func TestFollowUpsWithoutNamesAreToldApart(t *testing.T) {
	one := func(litres string) string {
		return `{"replaces":"b","volume":{"value":` + litres + `,"unit":"L"},"time":{"value":30,"unit":"s"}}`
	}
	sheet := strings.Replace(followUpSheet, "FOLLOW", `,"followUps":[`+one("0.5")+`,`+one("0.7")+`]`, 1)
	for language, name := range map[string]string{"en": "b, nozzle 2", "es": "b, boquilla 2"} {
		var a struct{ NextSteps []stepAnswer }
		w := call(t, http.MethodPost, "/v1/calibrations", sheet, "Accept-Language", language)
		if err := json.Unmarshal(w.Body.Bytes(), &a); err != nil {
			t.Fatal(err)
		}
		if !slices.ContainsFunc(a.NextSteps, func(s stepAnswer) bool { return s.Code == "replace" && s.Label == name }) {
			t.Errorf("%s: %+v", language, a.NextSteps)
		}
		page := call(t, http.MethodPost, "/v1/calibrations", sheet, "Accept-Language", language, "Accept", "text/html").Body.String()
		for _, words := range []string{`<th scope="row">` + name + `</th>`, `<tr class="replaced"><th scope="row">b</th><td>2</td><td>1` + map[string]string{"en": ".", "es": ","}[language] + `2 L</td>`} {
			if strings.Count(page, words) != 1 {
				t.Errorf("%s: no %q", language, words)
			}
		}
	}
	long := strings.Repeat("ñ", 80)
	w := post(t, "calibrations", strings.ReplaceAll(sheet, `"b"`, `"`+long+`"`))
	if want := `"` + strings.Repeat("ñ", 69) + `…, nozzle 2"`; !strings.Contains(w.Body.String(), want) {
		t.Errorf("no %s in %s", want, w.Body)
	}
}

// TestFollowUpOfSeveralNozzles: two of three nozzles caught together are called so.
func TestFollowUpOfSeveralNozzles(t *testing.T) {
	sheet := strings.NewReplacer("FOLLOW", `,"followUps":[{"replaces":"b","nozzles":1,"volume":{"value":0.7,"unit":"L"},"time":{"value":30,"unit":"s"}},{"replaces":"b","nozzles":2,"volume":{"value":1,"unit":"L"},"time":{"value":30,"unit":"s"}}]`,
		`"label":"b","nozzles":2`, `"label":"b","nozzles":3`).Replace(followUpSheet)
	if w := post(t, "calibrations", sheet); !strings.Contains(w.Body.String(), `"label":"b, nozzles 2 to 3"`) {
		t.Error(w.Body)
	}
}
