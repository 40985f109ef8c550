package api

import (
	"encoding/json"
	"fmt"
	"net/http"
	"strings"
	"testing"

	"wetrun/internal/text"
)

// tank posts a job of one load on one hectare (or acre), at 100 per area, with
// products, and decodes the answer.
func tank(t *testing.T, more, products string) map[string]any {
	t.Helper()
	w := post(t, "tank-loads", `{"tankVolume":{"value":100,"unit":"L"},"applicationRate":{"value":100,"unit":"L/ha"},
		"treatedArea":{"value":1,"unit":"ha"},`+more+`"products":[`+products+`]}`)
	var answer map[string]any
	if err := json.Unmarshal(w.Body.Bytes(), &answer); err != nil || w.Code != http.StatusOK {
		t.Fatal(w.Code, w.Body, err)
	}
	return answer
}

// TestReferenceMeasures: a quart is 32 fluid ounces and a gallon 4 quarts; a load
// covers one hectare, so 1 kg/ha is 1 kg, and 2.47105 acres (NIST Handbook 44,
// Appendix C), so 12.9499 fl oz/acre are 32.
func TestReferenceMeasures(t *testing.T) {
	for _, c := range []struct{ units, rate, unit, want string }{
		{"us", "12.94", "fl_oz_us/acre", "fl_oz_us"},
		{"us", "12.96", "fl_oz_us/acre", "qt_us"},
		{"us", "1.61", "qt_us/acre", "qt_us"},
		{"us", "1.62", "qt_us/acre", "gal_us"},
		{"metric", "999", "mL/ha", "mL"},
		{"metric", "1000", "mL/ha", "L"},
		{"metric", "999", "g/ha", "g"},
		{"metric", "1000", "g/ha", "kg"},
		{"us", "6.4", "oz/acre", "oz"}, // 15.8 oz
		{"us", "6.5", "oz/acre", "lb"}, // 16.06 oz
	} {
		a := tank(t, `"resultUnits":"`+c.units+`",`, `{"productRate":{"value":`+c.rate+`,"unit":"`+c.unit+`"}}`)
		got, err := follow(a, "/products/0/measure/perFullLoad/unit")
		if err != nil || got != c.want {
			t.Errorf("%s %s: %v, want %s", c.rate, c.unit, got, c.want)
		}
	}
}

// TestTankNextSteps: what is over because of the rate and what is over anyway ask
// for different things, and both have words.
func TestTankNextSteps(t *testing.T) {
	product := func(rate, most string) string {
		return `{"productRate":{"value":` + rate + `,"unit":"L/ha"},"labelMaximum":{"value":` + most + `,"unit":"L/ha"}}`
	}
	meant := `"labelRate":{"value":90,"unit":"L/ha"},`
	for _, c := range []struct{ more, product, want string }{
		{"", product("1", "1"), ""},
		{"", product("1.01", "1"), "over_label_maximum"},
		{meant, product("1", "1"), "delivered_over_label_maximum mix_for_applied_rate"},
		{meant, product("1.01", "1"), "over_label_maximum mix_for_applied_rate"},
		{meant, product("1", "1.2"), "mix_for_applied_rate"},
		{`"labelRate":{"value":100,"unit":"L/ha"},`, product("1", "1"), ""},
	} {
		a := tank(t, c.more, c.product)
		var got []string
		steps, _ := a["nextSteps"].([]any)
		for _, s := range steps {
			code := s.(map[string]any)["code"].(string)
			got = append(got, code)
			if !text.Has("next." + code) {
				t.Errorf("%s has no words", code)
			}
		}
		if strings.Join(got, " ") != c.want {
			t.Errorf("%s%s: %v, want %s", c.more, c.product, got, c.want)
		}
		if over := strings.Contains(c.want, "over_label_maximum"); a["overLabelMaximum"] != over {
			t.Errorf("%s%s: overLabelMaximum %v", c.more, c.product, a["overLabelMaximum"])
		}
	}
}

// TestTankStepsNameProducts: at 100 L/ha, of a mix made for 80 the first product is 1.25 of
// at most 1.2 L/ha; 1 % by concentration is 1 of at most 0.9 L/ha whatever it was made for.
func TestTankStepsNameProducts(t *testing.T) {
	a := tank(t, `"labelRate":{"value":80,"unit":"L/ha"},`, `{"name":"p","productRate":{"value":1,"unit":"L/ha"},"labelMaximum":{"value":1.2,"unit":"L/ha"}},
		{"concentration":{"value":1,"unit":"%"},"labelMaximum":{"value":0.9,"unit":"L/ha"}},{"name":"q","productRate":{"value":1,"unit":"L/ha"},"labelMaximum":{"value":2,"unit":"L/ha"}}`)
	for i, want := range []string{"These amounts are over the label maximum: products/1. Do not mix or spray. ", "over the label maximum at the rate you really apply: p. Do not spray"} {
		got, err := follow(a, fmt.Sprintf("/nextSteps/%d/text", i))
		if words, _ := got.(string); err != nil || !strings.Contains(words, want) {
			t.Errorf("step %d says %q, not %q", i, got, want)
		}
	}
}

// TestMixingOrderOfFormulations: the order that South Dakota State University Extension and
// Virginia Cooperative Extension BSE-351P give, read as excerpts; the list itself says that
// the label's goes before it.
func TestMixingOrderOfFormulations(t *testing.T) {
	const poured = `"productRate":{"value":1,"unit":"L/ha"}}`
	a := tank(t, "", `{"role":"adjuvant","formulation":"solution",`+poured+`,{`+poured+`,{"formulation":"solution",`+poured+`,
		{"formulation":"emulsifiable_concentrate",`+poured+`,{"formulation":"suspension",`+poured+`,{"formulation":"wettable_powder",`+poured+`,
		{"formulation":"water_dispersible_granule","productRate":{"value":1,"unit":"kg/ha"}},{"role":"compatibility_agent",`+poured+`,{"role":"water_conditioner",`+poured)
	want := "half_water<nil> water_conditioner[#/products/8] compatibility_agent[#/products/7] dry[#/products/5 #/products/6] suspension[#/products/4] " +
		"emulsifiable_concentrate[#/products/3] solution[#/products/2] liquid[#/products/1] adjuvant[#/products/0] fill_up<nil>"
	if got := mixingSteps(a); got != want {
		t.Errorf("got %v\nwant %s", got, want)
	}
	if first, err := follow(a, "/mixingOrder/0/text"); err != nil || !strings.HasPrefix(first.(string), "The label's mixing order overrides this list.") {
		t.Errorf("the list begins with %q", first)
	}
}

// mixingSteps are the codes of the mixing order with their products.
func mixingSteps(a map[string]any) string {
	var all []string
	for _, s := range a["mixingOrder"].([]any) {
		step := s.(map[string]any)
		all = append(all, fmt.Sprint(step["code"], step["products"]))
	}
	return strings.Join(all, " ")
}

// TestMixingOrder: without formulations, dry products go before liquid ones.
func TestMixingOrder(t *testing.T) {
	a := tank(t, "", `{"role":"adjuvant","concentration":{"value":1,"unit":"%"}},{"productRate":{"value":1,"unit":"L/ha"}},
		{"role":"product","productRate":{"value":1,"unit":"kg/ha"}},{"role":"water_conditioner","concentration":{"value":1,"unit":"g/L"}},
		{"productRate":{"value":2,"unit":"L/ha"}}`)
	want := "half_water<nil> water_conditioner[#/products/3] dry[#/products/2] liquid[#/products/1 #/products/4] adjuvant[#/products/0] fill_up<nil>"
	if got := mixingSteps(a); got != want {
		t.Errorf("got %v\nwant %s", got, want)
	}
}
