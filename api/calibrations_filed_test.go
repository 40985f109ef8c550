package api

import (
	"bytes"
	"encoding/json"
	"html"
	"net/http"
	"strconv"
	"strings"
	"testing"
)

// filed is what a sheet carries for the record alone.
const filed = `"people":{"driver":"Ana P.","catcher":"Luis R.","timer":"Eva T."},
	"products":[{"name":"product of the north block"},{"name":"second product"}],
	"conditions":{"weather":"clear","wind":"light, from the north","temperature":"72 °F","humidity":"about 55%"},`

// withFiled is a sheet of the invented ones with it, and a name for its nozzle.
func withFiled(t *testing.T, name string) string {
	t.Helper()
	return strings.NewReplacer("{\n \"label\"", "{"+filed+"\n \"label\"", "\"nozzle\": {", "\"nozzle\": {\"label\":\"red nozzle\",").Replace(demo(t, name))
}

// TestFiledDecidesNothing: names, products and weather change no answer, and nothing of
// them comes back in it.
func TestFiledDecidesNothing(t *testing.T) {
	for _, name := range []string{"ready", "rate-to-correct", "boom-to-repair"} {
		with, without := post(t, "calibrations", withFiled(t, name)), post(t, "calibrations", demo(t, name))
		if with.Code != http.StatusOK || !bytes.Equal(with.Body.Bytes(), without.Body.Bytes()) {
			t.Errorf("%s: %d %.300s", name, with.Code, with.Body)
		}
	}
	// The name of the nozzle is no name that a plan's nozzle may not have.
	if w := post(t, "calibrations", `{"nozzle":{"label":"red nozzle","size":"02"},"planning":{"nozzles":[{"label":"red nozzle","size":"03"}]}}`); w.Code != http.StatusOK {
		t.Errorf("%d %.300s", w.Code, w.Body)
	}
}

// TestFiledIsChecked: it is bound as every name of the sheet is.
func TestFiledIsChecked(t *testing.T) {
	long := `"` + strings.Repeat("é", 81) + `"`
	for body, want := range map[string]string{
		`{"people":{"driver":` + long + `}}`:             "#/people/driver too_long",
		`{"people":{"passenger":"x"}}`:                   "#/people/passenger unknown_member",
		`{"products":[]}`:                                "#/products too_few",
		`{"products":[{}]}`:                              "#/products/0/name required",
		`{"products":[{"name":"x","registration":"1"}]}`: "#/products/0/registration unknown_member",
		`{"products":[` + strings.Repeat(`{"name":"x"},`, 20) + `{"name":"x"}]}`: "#/products too_many",
		`{"conditions":{"wind":3}}`:                "#/conditions/wind wrong_type",
		`{"conditions":{"humidity":` + long + `}}`: "#/conditions/humidity too_long",
		`{"nozzle":{"label":` + long + `}}`:        "#/nozzle/label too_long",
	} {
		w := post(t, "calibrations", body)
		var p struct {
			Errors []struct{ Pointer, Code string }
		}
		if err := json.Unmarshal(w.Body.Bytes(), &p); err != nil || len(p.Errors) != 1 || p.Errors[0].Pointer+" "+p.Errors[0].Code != want {
			t.Errorf("%.60s: %d %s, want %s", body, w.Code, w.Body, want)
		}
	}
}

// TestFiledOnRecord: the record prints what was filed, and leaves a line where nothing was.
// The numbers of licenses and registrations are lines always.
func TestFiledOnRecord(t *testing.T) {
	record := func(sheet, language string) string {
		return html.UnescapeString(call(t, http.MethodPost, "/v1/calibrations", sheet, "Accept", "text/html", "Accept-Language", language).Body.String())
	}
	line := func(name, value string) string {
		if value == "" {
			return `<div class="blank"><dt>` + name + `</dt><dd></dd></div>`
		}
		return `<div><dt>` + name + `</dt><dd>` + value + `</dd></div>`
	}
	full := strings.Replace(withFiled(t, "ready"), "{", `{"instruments":[
		{"id":"boom gauge","kind":"gauge","resolution":{"value":1,"unit":"psi"},"scaleError":{"value":2,"unit":"%"}},
		{"id":"jug 1","kind":"jug","resolution":{"value":0.5,"unit":"fl_oz_us"},"scaleError":{"value":1,"unit":"%"}}],`, 1)
	for _, c := range []struct {
		sheet, language string
		want            [][2]string
	}{
		{full, "en", [][2]string{
			{"Date measured", "May 12, 2026"}, {"Driver", "Ana P."}, {"License number", ""}, {"Held the catch jug", "Luis R."}, {"Kept the time", "Eva T."},
			{"Product", "product of the north block"}, {"Product", "second product"}, {"Registration number", ""},
			{"Weather", "clear"}, {"Wind", "light, from the north"}, {"Temperature", "72 °F"}, {"Humidity", "about 55%"}, {"Nozzle name", "red nozzle"},
			{"Gauge", "boom gauge (steps of 1 psi, error up to 2%)"}, {"Catch jug", "jug 1 (steps of 0.5 US fl oz, error up to 1%)"},
		}},
		{full, "es", [][2]string{{"Fecha de medición", "12 de mayo de 2026"}, {"Tractorista", "Ana P."}, {"Número de licencia", ""}, {"Calibrar de nuevo a más tardar", "1 de marzo de 2027"}}},
		{"{}", "en", [][2]string{
			{"Date measured", ""}, {"Driver", ""}, {"License number", ""}, {"Held the catch jug", ""}, {"Kept the time", ""}, {"Product", ""}, {"Registration number", ""},
			{"Weather", ""}, {"Wind", ""}, {"Temperature", ""}, {"Humidity", ""}, {"Nozzle name", ""}, {"Gauge", ""}, {"Catch jug", ""},
		}},
	} {
		page := record(c.sheet, c.language)
		for _, w := range c.want {
			if !strings.Contains(page, line(w[0], w[1])) {
				t.Errorf("%s: no %s", c.language, line(w[0], w[1]))
			}
		}
	}
	if got := strings.Count(record(full, "en"), line("Registration number", "")); got != 2 {
		t.Errorf("%d lines for the registration numbers of two products", got)
	}
}

// TestRecordPlansSayWhatToMind: each plan has its cautions and warnings in its own row, and
// the meaning of a sign is explained before it comes first.
func TestRecordPlansSayWhatToMind(t *testing.T) {
	var a struct {
		Correction struct {
			Result struct {
				Plans []struct {
					CautionTexts []string
					Warnings     []struct{ Detail string }
				}
			}
		}
	}
	if err := json.Unmarshal(post(t, "calibrations", demo(t, "rate-to-correct")).Body.Bytes(), &a); err != nil {
		t.Fatal(err)
	}
	page := html.UnescapeString(call(t, http.MethodPost, "/v1/calibrations", demo(t, "rate-to-correct"), "Accept", "text/html").Body.String())
	said := 0
	for i, p := range a.Correction.Result.Plans[:5] {
		_, row, _ := strings.Cut(page, `<tr><th scope="row">`+strconv.Itoa(i+1)+". ")
		row, _, _ = strings.Cut(row, "</tr>")
		for _, w := range p.Warnings {
			p.CautionTexts = append(p.CautionTexts, w.Detail)
		}
		for _, words := range p.CautionTexts {
			if said++; !strings.Contains(row, words) {
				t.Errorf("plan %d without %q: %s", i+1, words, row)
			}
		}
	}
	if said < 5 {
		t.Errorf("only %d cautions and warnings", said)
	}
	if first := strings.Index(page, "±"); first < 0 || !strings.HasPrefix(page[first:], "± shows how far off") {
		t.Error("± comes before it is explained")
	}
}
