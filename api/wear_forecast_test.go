package api

import (
	"strings"
	"testing"
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
		if w.Code != 200 || strings.Contains(body, `"hoursAtLimitRange"`) != c.named || strings.Contains(body, "earliest time that the forecast names") != c.named {
			t.Errorf("%v: %d %s", c.volumes, w.Code, body)
		}
	}
}
