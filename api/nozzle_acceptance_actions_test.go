package api

import (
	"encoding/json"
	"fmt"
	"net/http"
	"slices"
	"strings"
	"testing"

	"wetrun/api/operation"
	"wetrun/calc"
	"wetrun/internal/text"
)

// roundOf is a round of single nozzles rated 1 L/min at 3 bar, in mL over a minute.
func roundOf(millilitres []float64, more string) string {
	var catches []string
	for i, v := range millilitres {
		catches = append(catches, fmt.Sprintf(`{"label":"n%d","bed":%d,"volume":{"value":%v,"unit":"mL"},"time":{"value":1,"unit":"min"}}`, i+1, i/2+1, v))
	}
	return `{"sprayPressure":{"value":3,"unit":"bar"},"catches":[` + strings.Join(catches, ",") + `]` + more + `}`
}

const ofLitre = `,"nozzle":{"ratedFlowRate":{"value":1,"unit":"L/min"},"ratedPressure":{"value":3,"unit":"bar"}}`

// acted is what an answer says to do.
type acted struct {
	Decision string
	Actions  []operation.ActionAnswer
	Sampling struct{ Detail string }
	Catches  []struct{ Status, FirstStatus string }
}

func actions(t *testing.T, body, language string) (a acted) {
	t.Helper()
	w := call(t, http.MethodPost, "/v1/nozzle-acceptance", body, "Accept-Language", language)
	if err := json.Unmarshal(w.Body.Bytes(), &a); err != nil || w.Code != http.StatusOK {
		t.Fatalf("%d %s\n%s", w.Code, w.Body, body)
	}
	return a
}

// TestActionsAreWorded: what to do is said with what the crew needs to do it, in both
// languages: which new nozzle, which bed, how many more. 0.4 L/min at 3 bar is the size 01.
func TestActionsAreWorded(t *testing.T) {
	eleven := slices.Repeat([]float64{1000}, 11)
	off := func(by ...float64) []float64 { return append(slices.Clone(eleven[:12-len(by)]), by...) }
	const plain, at5 = `,"uncertainty":false`, `,"uncertainty":false,"tolerance":{"limit":{"value":5,"unit":"%"}}`
	for name, c := range map[string]struct {
		body, at, says, dice string
	}{
		"its rating":     {roundOf(off(1200), ofLitre+plain), "#/catches/11 n12 replace", "Fit a new nozzle, 1 L/min at 3 bar, and", "Ponga una boquilla nueva, 1 L/min a 3 bar, y"},
		"how many more":  {roundOf([]float64{1000, 1000, 1300}, ofLitre+plain), "#/catches  catch_more", "more of the other places, chosen at random", "más de los lugares que faltan"},
		"no rating":      {roundOf(off(1200), plain), "#/catches/11 n12 replace", "Release the pressure. Fit a new nozzle of the same type", "Libere la presión. Ponga una boquilla nueva del mismo tipo"},
		"a narrow limit": {roundOf(off(1080), ofLitre+at5), "#/catches/11 n12 replace", "or it was never right: one in five new nozzles", "o nunca estuvo bien: una de cada cinco"},
		"a bed":          {roundOf([]float64{1000, 1000, 1250, 1260, 1000, 1000}, ofLitre+plain+`,"replaceAllAbove":{"value":90,"unit":"%"}`), "#/catches/2  check_size", "The catches of bed 2 are all off by about the same amount", "En la cama 2 todos los aforos"},
		"the left side":  {strings.ReplaceAll(roundOf([]float64{1000, 1000, 1250, 1260}, ofLitre+plain), `"bed":2`, `"position":"left"`), "#/catches/2  check_size", "The catches of the left side", "En el lado izquierdo"},
		"most are dirty": {roundOf(off(500, 400, 600, 700, 300, 200, 100), ofLitre+plain), "#/catches  clean_and_recatch", "More than half give too little. PTO off, engine off, key out.", "Más de la mitad dan muy poco"},
		"two groups":     {roundOf([]float64{1000, 1000, 1200, 1200}, plain), "#/catches  catch_new_nozzle", "two groups", "dos grupos"},
		"all dry":        {roundOf([]float64{0, 0}, plain), "#/catches  check_supply", "main strainer", "filtro principal"},
		"too close":      {roundOf(off(1105), ofLitre), "#/catches/11 n12 catch_again", "too close to call. Catch it again with the same jug and gauge.", "con la misma jarra y el mismo manómetro"},
	} {
		for language, says := range map[string]string{"en": c.says, "es": c.dice} {
			a := actions(t, c.body, language)
			first := a.Actions[0]
			if at := first.Pointer + " " + first.Label + " " + string(first.Action); at != c.at || !strings.Contains(first.Text, says) {
				t.Errorf("%s: %s %q, want %s %q", name, at, first.Text, c.at, says)
			}
		}
	}
	a := actions(t, roundOf(append(slices.Repeat([]float64{400}, 11), 500), `,"nozzle":{"size":"01"}`+plain), "en")
	if words := a.Actions[0].Text; !strings.Contains(words, "a new nozzle, size 01 (ISO 10625), and") {
		t.Errorf("%q", words)
	}
}

// TestEachRemedyHasItsWords: for a round and as a step of a sheet, and for many at once.
func TestEachRemedyHasItsWords(t *testing.T) {
	for _, do := range calc.Remedy("").Words() {
		for _, kind := range []string{"action.", "step."} {
			if !text.Has(kind + do) {
				t.Errorf("%s%s has no words", kind, do)
			}
		}
	}
	for _, decision := range calc.Decision("").Words() {
		if !text.Has("decision." + decision) {
			t.Errorf("%s has no words", decision)
		}
	}
}

// TestFirstCatchIsRemembered: a drop that was dirty, and is right now, passes, and still
// counts for what it says of the others; the answer says how it was.
func TestFirstCatchIsRemembered(t *testing.T) {
	again := `,"catchPointsOnBoom":40,"followUps":[{"replaces":"n12","volume":{"value":500,"unit":"mL"},"time":{"value":30,"unit":"s"}}]`
	w := post(t, "calibrations", decided(append(right(11), 300), rateTarget("200", "250"), again))
	var a struct{ Output struct{ Result acted } }
	if err := json.Unmarshal(w.Body.Bytes(), &a); err != nil {
		t.Fatal(err)
	}
	x := a.Output.Result
	if x.Decision != "keep" || x.Catches[11].Status != "within" || x.Catches[11].FirstStatus != "below" || x.Catches[0].FirstStatus != "" {
		t.Errorf("%+v", x)
	}
	if !strings.HasPrefix(x.Sampling.Detail, "1 of 12 places failed when first measured.") {
		t.Errorf("%q", x.Sampling.Detail)
	}
}

// TestFirstCatchIsChecked: what is wrong with a catch that was caught again stands where it
// was written.
func TestFirstCatchIsChecked(t *testing.T) {
	again := `,"followUps":[{"replaces":"n12","volume":{"value":500,"unit":"mL"},"time":{"value":30,"unit":"s"}}]`
	sheet := decided(append(right(11), 300), rateTarget("200", "250"), again)
	sheet = strings.Replace(sheet, `{"label":"n12",`, `{"label":"n12","jug":"lost",`, 1)
	if codes, _ := refusals(t, "calibrations", sheet); !slices.Equal(codes, []string{"#/output/catches/11/jug unknown_instrument"}) {
		t.Errorf("%q", codes)
	}
}

// TestToleranceForms: in short, or for each reference and way; not both, and none of them
// empty. What was asked for is answered in the form that it came in.
func TestToleranceForms(t *testing.T) {
	for tolerance, want := range map[string][]string{
		`{"basis":"mean"}`: {"#/tolerance/limit required"},
		`{"rated":{}}`:     {"#/tolerance/rated/below required"},
		`{"limit":{"value":5,"unit":"%"},"mean":{"below":{"value":5,"unit":"%"}}}`:                 {"#/tolerance/mean conflict"},
		`{"limit":{"value":5,"unit":"%"},"basis":"mean","rated":{"above":{"value":5,"unit":"%"}}}`: {"#/tolerance/rated conflict"},
	} {
		if codes, _ := refusals(t, "nozzle-acceptance", roundOf([]float64{1000, 1000}, ofLitre+`,"tolerance":`+tolerance)); !slices.Equal(codes, want) {
			t.Errorf("%s: %q, want %q", tolerance, codes, want)
		}
	}
	for tolerance, want := range map[string]string{
		`{}`: `"tolerance":{"limit":{"value":10,"unit":"%"},"basis":"rated"}`,
		`{"limit":{"value":0.05,"unit":"1"},"basis":"both"}`:                                  `"tolerance":{"limit":{"value":5,"unit":"%"},"basis":"both"}`,
		`{"rated":{"above":{"value":15,"unit":"%"}},"mean":{"below":{"value":5,"unit":"%"}}}`: `"tolerance":{"rated":{"above":{"value":15,"unit":"%"}},"mean":{"below":{"value":5,"unit":"%"}}}`,
	} {
		if w := post(t, "nozzle-acceptance", roundOf([]float64{1000, 1000}, ofLitre+`,"tolerance":`+tolerance)); !strings.Contains(w.Body.String(), want) {
			t.Errorf("%s: %s", tolerance, w.Body)
		}
	}
	// One end of the range, and words for it.
	above := roundOf([]float64{1000, 1000}, ofLitre+`,"tolerance":{"rated":{"above":{"value":15,"unit":"%"}}},"resultUnits":"metric"`)
	if w := post(t, "nozzle-acceptance", above).Body.String(); !strings.Contains(w, `"acceptableVolume":{"high":{"value":1150,"unit":"mL"}}`) {
		t.Error(w)
	}
}
