package api

import (
	"bytes"
	"encoding/json"
	"net/http"
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
