package api

import (
	"encoding/json"
	"fmt"
	"net/http"
	"strings"
	"testing"

	"wetrun/api/operation"
)

// TestWearForecastNamesNoTime: what to do next speaks of the earliest time where the
// answer has one, and only there. Readings invented.
func TestWearForecastNamesNoTime(t *testing.T) {
	catch := func(hours, volume string) string {
		return `{"hours":{"value":` + hours + `,"unit":"h"},"volume":{"value":` + volume + `,"unit":"fl_oz_us"},"time":{"value":30,"unit":"s"}}`
	}
	for _, c := range []struct {
		volumes [4]string
		named   bool
	}{
		{[4]string{"29", "28.5", "28", "27.5"}, false}, // it falls
		{[4]string{"29", "31", "28", "30"}, false},     // it may rise: nothing bounds the time
		{[4]string{"29", "29.3", "29.6", "29.9"}, true},
	} {
		w := post(t, "wear-forecast", `{"sprayPressure":{"value":40,"unit":"psi"},"newFlowRate":{"value":58,"unit":"fl_oz_us/min"},"catches":[`+
			catch("0", c.volumes[0])+`,`+catch("100", c.volumes[1])+`,`+catch("200", c.volumes[2])+`,`+catch("300", c.volumes[3])+`]}`)
		body := w.Body.String()
		if w.Code != 200 || strings.Contains(body, `"hoursAtLimitRange"`) != c.named || strings.Contains(body, "earliest time in the forecast") != c.named {
			t.Errorf("%v: %d %s", c.volumes, w.Code, body)
		}
	}
}

// TestWearStepsSayWhatIsNoWear: catches 47 % below new are dirt, to be cleaned first, and
// those 100 % above a slip, to be found first, whatever follows from the line.
func TestWearStepsSayWhatIsNoWear(t *testing.T) {
	for _, c := range []struct {
		litres []string
		want   string
	}{
		{[]string{"0.528", "0.53", "0.532"}, "clean_before_forecast catch_again"},
		{[]string{"1", "1.5", "2"}, "check_before_forecast replace_worn_set"},
		{[]string{"1", "1.01", "1.02"}, "catch_again"},
	} {
		var catches []string
		for i, x := range c.litres {
			catches = append(catches, fmt.Sprintf(`{"hours":{"value":%d,"unit":"h"},"volume":{"value":%s,"unit":"L"},"time":{"value":1,"unit":"min"}}`, 10*i, x))
		}
		w := post(t, "wear-forecast", `{"sprayPressure":{"value":3,"unit":"bar"},"newFlowRate":{"value":1,"unit":"L/min"},"catches":[`+strings.Join(catches, ",")+`]}`)
		var a struct{ NextSteps []operation.Notice }
		if err := json.Unmarshal(w.Body.Bytes(), &a); err != nil || w.Code != http.StatusOK {
			t.Fatalf("%v %d %.300s", err, w.Code, w.Body)
		}
		var got []string
		for _, s := range a.NextSteps {
			got = append(got, s.Code)
			if s.Text == "" {
				t.Errorf("%s says nothing", s.Code)
			}
		}
		if strings.Join(got, " ") != c.want {
			t.Errorf("%v: %q, want %q", c.litres, got, c.want)
		}
	}
}
