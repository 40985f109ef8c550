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
	"wetrun/api/wire"
	"wetrun/api/working"
	"wetrun/calc/method"
	"wetrun/calc/unit"
	"wetrun/internal/text"
)

// workingCases are requests for methods and turns that no example, published case or sheet has.
// Their values are invented.
var workingCases = map[string][]string{
	"application-rate": {
		`{"nozzleFlowRate":{"value":0.4,"unit":"gal_us/min"},"groundSpeed":{"value":5,"unit":"mph"},"applicationRate":{"value":20,"unit":"gal_us/acre"},"nozzles":12}`,
	},
	"nozzle-acceptance": {
		`{"catches":[{"sprayPressure":{"unit":"psi","value":36},"time":{"unit":"s","value":60},"volume":{"unit":"mL","value":1200}},{"time":{"unit":"min","value":1},"volume":{"unit":"fl_oz_us","value":41}}]}`,
		`{"nozzle":{"flowChart":[{"pressure":{"value":2,"unit":"bar"},"flowRate":{"value":0.98,"unit":"L/min"}},{"pressure":{"value":4,"unit":"bar"},"flowRate":{"value":1.37,"unit":"L/min"}}]},"sprayPressure":{"value":3,"unit":"bar"},"tolerance":{"limit":{"value":10,"unit":"%"},"basis":"both"},"catches":[{"volume":{"value":1200,"unit":"mL"},"time":{"value":60,"unit":"s"},"sprayPressure":{"value":36,"unit":"psi"}},{"volume":{"value":41,"unit":"fl_oz_us"},"time":{"value":1,"unit":"min"},"nozzles":1}]}`,
		`{"sprayPressure":{"value":3,"unit":"bar"},"catches":[{"volume":{"value":1.9,"unit":"L"},"time":{"value":60,"unit":"s"},"sprayPressure":{"value":40,"unit":"psi"},"nozzlesOnDrop":[{"nozzle":{"size":"02"},"count":1},{"nozzle":{"size":"03"},"count":1}]}]}`,
		`{"dutyCycle":{"value":60,"unit":"%"},"nozzle":{"flowChart":[{"pressure":{"value":2,"unit":"bar"},"flowRate":{"value":0.98,"unit":"L/min"}},{"pressure":{"value":4,"unit":"bar"},"flowRate":{"value":1.37,"unit":"L/min"}}]},"sprayPressure":{"value":3,"unit":"bar"},"catches":[{"volume":{"value":700,"unit":"mL"},"time":{"value":60,"unit":"s"}},{"volume":{"value":0.9,"unit":"L"},"time":{"value":60,"unit":"s"},"sprayPressure":{"value":40,"unit":"psi"},"nozzlesOnDrop":[{"nozzle":{"size":"02"},"count":1},{"nozzle":{"size":"03"},"count":1}]}]}`,
	},
	"pump-demand": {
		`{"nozzles":20,"nozzleFlowRate":{"value":0.3,"unit":"gal_us/min"},"tankVolume":{"value":300,"unit":"gal_us"},"agitationFlowRate":{"value":15,"unit":"L/min"}}`,
	},
	"meter-calibration": {
		`{"kind":"flow_meter","meterTolerance":{"value":5,"unit":"%"},"currentSetting":{"pulses":650,"per":{"value":10,"unit":"gal_us"}},"readings":[{"pulses":1310,"measured":{"value":20,"unit":"gal_us"}},{"pulses":1300,"measured":{"value":76,"unit":"L"}}]}`,
	},
	"calibrations": {
		`{"nozzle":{"flowChart":[{"pressure":{"value":2,"unit":"bar"},"flowRate":{"value":0.8,"unit":"L/min"}},{"pressure":{"value":65,"unit":"psi"},"flowRate":{"value":1.25,"unit":"L/min"}},{"pressure":{"value":8,"unit":"bar"},"flowRate":{"value":0.42,"unit":"gal_us/min"}}]},"machine":{"sprayedWidthPerNozzle":{"value":20,"unit":"in"}},"output":{"catchPointsOnBoom":2,"sprayPressure":{"value":5,"unit":"bar"},"catches":[{"volume":{"value":22,"unit":"fl_oz_us"},"time":{"value":30,"unit":"s"}},{"volume":{"value":22,"unit":"fl_oz_us"},"time":{"value":30,"unit":"s"}}]},"speed":{"runs":[{"courseLength":{"value":100,"unit":"ft"},"time":{"value":17,"unit":"s"}},{"courseLength":{"value":100,"unit":"ft"},"time":{"value":17,"unit":"s"}}]},"target":{"applicationRate":{"value":20,"unit":"gal_us/acre"}},"limits":{"sprayPressure":{"low":{"value":1,"unit":"bar"},"high":{"value":10,"unit":"bar"}}}}`,
		`{"relativeDensity":{"value":1.28,"unit":"1"},"areaCheck":{"volumeUsed":{"value":9.5,"unit":"gal_us"},"area":{"value":0.4,"unit":"acre"}},"nozzle":{"size":"03"},"machine":{"bedWidth":{"value":60,"unit":"in"},"nozzlesPerBed":3,"rowSpacing":{"value":72,"unit":"in"}},"output":{"catchPointsOnBoom":2,"sprayPressure":{"value":3,"unit":"bar"},"catches":[{"volume":{"value":20,"unit":"fl_oz_us"},"time":{"value":30,"unit":"s"}},{"volume":{"value":20.5,"unit":"fl_oz_us"},"time":{"value":30,"unit":"s"}}]},"speed":{"runs":[{"courseLength":{"value":100,"unit":"ft"},"time":{"value":17,"unit":"s"}},{"courseLength":{"value":100,"unit":"ft"},"time":{"value":17.2,"unit":"s"}}]},"target":{"applicationRate":{"value":18,"unit":"gal_us/acre"},"rateBasis":"field"}}`,
		`{"nozzle":{"size":"03","pressureRange":{"low":{"value":1,"unit":"bar"},"high":{"value":6,"unit":"bar"}}},"dutyCycle":{"value":60,"unit":"%"},"machine":{"sprayedWidthPerNozzle":{"value":0.5,"unit":"m"}},"pressure":{"readings":[{"pressure":{"value":3,"unit":"bar"}},{"pressure":{"value":3,"unit":"bar"}},{"pressure":{"value":3,"unit":"bar"}}]},"output":{"catchPointsOnBoom":6,"catches":[{"volume":{"value":720,"unit":"mL"},"time":{"value":60,"unit":"s"}},{"volume":{"value":720,"unit":"mL"},"time":{"value":60,"unit":"s"}},{"volume":{"value":720,"unit":"mL"},"time":{"value":60,"unit":"s"}},{"volume":{"value":720,"unit":"mL"},"time":{"value":60,"unit":"s"}},{"volume":{"value":720,"unit":"mL"},"time":{"value":60,"unit":"s"}},{"volume":{"value":720,"unit":"mL"},"time":{"value":60,"unit":"s"}}]},"speed":{"runs":[{"courseLength":{"value":100,"unit":"m"},"time":{"value":60,"unit":"s"}},{"courseLength":{"value":100,"unit":"m"},"time":{"value":60,"unit":"s"}}]},"target":{"applicationRate":{"value":140,"unit":"L/ha"},"labelMaximum":{"value":141,"unit":"L/ha"}},"limits":{"groundSpeed":{"low":{"value":4,"unit":"km/h"},"high":{"value":8,"unit":"km/h"}}},"planning":{"dutyCycleLimits":{"low":{"value":40,"unit":"%"},"high":{"value":100,"unit":"%"}}}}`,
		`{"nozzle":{"size":"03","pressureRange":{"low":{"value":1,"unit":"bar"},"high":{"value":6,"unit":"bar"}}},"dutyCycle":{"value":60,"unit":"%"},"machine":{"sprayedWidthPerNozzle":{"value":0.5,"unit":"m"}},"pressure":{"readings":[{"pressure":{"value":3,"unit":"bar"}},{"pressure":{"value":3,"unit":"bar"}},{"pressure":{"value":3,"unit":"bar"}}]},"output":{"catchPointsOnBoom":6,"catches":[{"volume":{"value":720,"unit":"mL"},"time":{"value":60,"unit":"s"}},{"volume":{"value":720,"unit":"mL"},"time":{"value":60,"unit":"s"}},{"volume":{"value":720,"unit":"mL"},"time":{"value":60,"unit":"s"}},{"volume":{"value":720,"unit":"mL"},"time":{"value":60,"unit":"s"}},{"volume":{"value":720,"unit":"mL"},"time":{"value":60,"unit":"s"}},{"volume":{"value":720,"unit":"mL"},"time":{"value":60,"unit":"s"}}]},"speed":{"runs":[{"courseLength":{"value":100,"unit":"m"},"time":{"value":60,"unit":"s"}},{"courseLength":{"value":100,"unit":"m"},"time":{"value":60,"unit":"s"}}]},"target":{"applicationRate":{"value":140,"unit":"L/ha"},"rateTolerance":{"value":3,"unit":"%"},"labelMaximum":{"value":141,"unit":"L/ha"}},"limits":{"groundSpeed":{"low":{"value":4,"unit":"km/h"},"high":{"value":8,"unit":"km/h"}}},"planning":{"dutyCycleLimits":{"low":{"value":40,"unit":"%"},"high":{"value":100,"unit":"%"}}}}`,
		`{"nozzle":{"size":"03","pressureRange":{"low":{"value":1,"unit":"bar"},"high":{"value":6,"unit":"bar"}}},"dutyCycle":{"value":60,"unit":"%"},"machine":{"sprayedWidthPerNozzle":{"value":0.5,"unit":"m"}},"pressure":{"readings":[{"pressure":{"value":3,"unit":"bar"}},{"pressure":{"value":3,"unit":"bar"}},{"pressure":{"value":3,"unit":"bar"}}]},"output":{"catchPointsOnBoom":6,"catches":[{"volume":{"value":720,"unit":"mL"},"time":{"value":60,"unit":"s"}},{"volume":{"value":720,"unit":"mL"},"time":{"value":60,"unit":"s"}},{"volume":{"value":720,"unit":"mL"},"time":{"value":60,"unit":"s"}},{"volume":{"value":720,"unit":"mL"},"time":{"value":60,"unit":"s"}},{"volume":{"value":720,"unit":"mL"},"time":{"value":60,"unit":"s"}},{"volume":{"value":720,"unit":"mL"},"time":{"value":60,"unit":"s"}}]},"speed":{"runs":[{"courseLength":{"value":100,"unit":"m"},"time":{"value":60,"unit":"s"}},{"courseLength":{"value":100,"unit":"m"},"time":{"value":60,"unit":"s"}}]},"target":{"applicationRate":{"value":140,"unit":"L/ha"},"labelMinimum":{"value":139,"unit":"L/ha"},"labelMaximum":{"value":143,"unit":"L/ha"}},"limits":{"groundSpeed":{"low":{"value":4,"unit":"km/h"},"high":{"value":8,"unit":"km/h"}}},"planning":{"dutyCycleLimits":{"low":{"value":40,"unit":"%"},"high":{"value":100,"unit":"%"}}},"repeatability":{"runs":{"standardDeviation":{"value":0.1,"unit":"%"},"degreesOfFreedom":1000},"catches":{"standardDeviation":{"value":0.1,"unit":"%"},"degreesOfFreedom":1000}},"instruments":[{"id":"jug","kind":"jug","resolution":{"value":1,"unit":"mL"},"scaleError":{"value":10,"unit":"%"}},{"id":"tape","kind":"tape","resolution":{"value":1,"unit":"cm"},"scaleError":{"value":10,"unit":"%"}}]}`,
	},
	"corrections": {
		`{"measured":{"applicationRate":{"value":25,"unit":"gal_us/acre"},"groundSpeed":{"value":5,"unit":"mph"},"sprayPressure":{"value":5,"unit":"bar"}},"targetApplicationRate":{"value":20,"unit":"gal_us/acre"},"boomEven":true,"limits":{"groundSpeed":{"low":{"value":4.5,"unit":"mph"},"high":{"value":6,"unit":"mph"}},"sprayPressure":{"low":{"value":1,"unit":"bar"},"high":{"value":10,"unit":"bar"}}},"nozzle":{"flowChart":[{"pressure":{"value":2,"unit":"bar"},"flowRate":{"value":0.8,"unit":"L/min"}},{"pressure":{"value":65,"unit":"psi"},"flowRate":{"value":1.25,"unit":"L/min"}},{"pressure":{"value":8,"unit":"bar"},"flowRate":{"value":0.42,"unit":"gal_us/min"}}],"label":"c"}}`,
		`{"measured":{"applicationRate":{"value":25,"unit":"gal_us/acre"},"groundSpeed":{"value":5,"unit":"mph"},"sprayPressure":{"value":5,"unit":"bar"}},"targetApplicationRate":{"value":30,"unit":"gal_us/acre"},"boomEven":true,"limits":{"groundSpeed":{"low":{"value":4.5,"unit":"mph"},"high":{"value":6,"unit":"mph"}},"sprayPressure":{"low":{"value":1,"unit":"bar"},"high":{"value":10,"unit":"bar"}}},"nozzle":{"flowChart":[{"pressure":{"value":2,"unit":"bar"},"flowRate":{"value":0.8,"unit":"L/min"}},{"pressure":{"value":65,"unit":"psi"},"flowRate":{"value":1.25,"unit":"L/min"}},{"pressure":{"value":8,"unit":"bar"},"flowRate":{"value":0.42,"unit":"gal_us/min"}}],"label":"c"}}`,
		`{"measured":{"applicationRate":{"value":25,"unit":"gal_us/acre"},"groundSpeed":{"value":5,"unit":"mph"},"sprayPressure":{"value":5,"unit":"bar"}},"targetApplicationRate":{"value":11,"unit":"gal_us/acre"},"boomEven":true,"limits":{"groundSpeed":{"low":{"value":4.5,"unit":"mph"},"high":{"value":6,"unit":"mph"}},"sprayPressure":{"low":{"value":1,"unit":"bar"},"high":{"value":10,"unit":"bar"}}},"nozzle":{"flowChart":[{"pressure":{"value":2,"unit":"bar"},"flowRate":{"value":0.8,"unit":"L/min"}},{"pressure":{"value":65,"unit":"psi"},"flowRate":{"value":1.25,"unit":"L/min"}},{"pressure":{"value":8,"unit":"bar"},"flowRate":{"value":0.42,"unit":"gal_us/min"}}],"label":"c"}}`,
		`{"measured":{"applicationRate":{"value":25,"unit":"gal_us/acre"},"groundSpeed":{"value":5,"unit":"mph"},"sprayPressure":{"value":5,"unit":"bar"}},"targetApplicationRate":{"value":20,"unit":"gal_us/acre"},"boomEven":true,"limits":{"groundSpeed":{"low":{"value":4.5,"unit":"mph"},"high":{"value":6,"unit":"mph"}},"sprayPressure":{"low":{"value":1,"unit":"bar"},"high":{"value":10,"unit":"bar"}}},"nozzle":{"flowChart":[{"pressure":{"value":2,"unit":"bar"},"flowRate":{"value":0.8,"unit":"L/min"}},{"pressure":{"value":65,"unit":"psi"},"flowRate":{"value":1.25,"unit":"L/min"}},{"pressure":{"value":8,"unit":"bar"},"flowRate":{"value":0.42,"unit":"gal_us/min"}}],"label":"c"},"nozzles":[{"size":"03","label":"r"}],"pressureExponent":{"value":0.55,"unit":"1"}}`,
		`{"measured":{"applicationRate":{"value":25,"unit":"gal_us/acre"},"groundSpeed":{"value":5,"unit":"mph"},"sprayPressure":{"value":5,"unit":"bar"}},"targetApplicationRate":{"value":22,"unit":"gal_us/acre"},"boomEven":true,"limits":{"groundSpeed":{"low":{"value":4.5,"unit":"mph"},"high":{"value":6,"unit":"mph"}},"sprayPressure":{"low":{"value":1,"unit":"bar"},"high":{"value":10,"unit":"bar"}}},"nozzle":{"size":"03","label":"r"},"nozzles":[{"flowChart":[{"pressure":{"value":2,"unit":"bar"},"flowRate":{"value":0.8,"unit":"L/min"}},{"pressure":{"value":65,"unit":"psi"},"flowRate":{"value":1.25,"unit":"L/min"}},{"pressure":{"value":8,"unit":"bar"},"flowRate":{"value":0.42,"unit":"gal_us/min"}}],"label":"c"}]}`,
		`{"measured":{"applicationRate":{"value":25,"unit":"gal_us/acre"},"groundSpeed":{"value":5,"unit":"mph"},"sprayPressure":{"value":120,"unit":"psi"}},"targetApplicationRate":{"value":17,"unit":"gal_us/acre"},"boomEven":true,"limits":{"groundSpeed":{"low":{"value":4.5,"unit":"mph"},"high":{"value":6,"unit":"mph"}},"sprayPressure":{"low":{"value":1,"unit":"bar"},"high":{"value":10,"unit":"bar"}}},"nozzle":{"flowChart":[{"pressure":{"value":2,"unit":"bar"},"flowRate":{"value":0.8,"unit":"L/min"}},{"pressure":{"value":65,"unit":"psi"},"flowRate":{"value":1.25,"unit":"L/min"}},{"pressure":{"value":8,"unit":"bar"},"flowRate":{"value":0.42,"unit":"gal_us/min"}}],"label":"c"},"nozzles":[{"flowChart":[{"pressure":{"value":2,"unit":"bar"},"flowRate":{"value":0.9,"unit":"L/min"}},{"pressure":{"value":65,"unit":"psi"},"flowRate":{"value":1.25,"unit":"L/min"}},{"pressure":{"value":8,"unit":"bar"},"flowRate":{"value":0.42,"unit":"gal_us/min"}}],"label":"d"},{"size":"03","label":"r"}]}`,
		`{"engineSpeedLimits":{"high":{"unit":"rpm","value":2400},"low":{"unit":"rpm","value":1000}},"limits":{"groundSpeed":{"high":{"unit":"km/h","value":9},"low":{"unit":"km/h","value":4}}},"measured":{"applicationRate":{"unit":"gal_us/acre","value":20},"engineSpeed":{"unit":"rpm","value":3},"groundSpeed":{"unit":"mph","value":5}},"pump":{"drive":"independent","regulation":"relief_valve","type":"positive_displacement"},"targetApplicationRate":{"unit":"gal_us/acre","value":17}}`,
		`{"measured":{"applicationRate":{"value":20,"unit":"gal_us/acre"},"groundSpeed":{"value":5,"unit":"mph"},"engineSpeed":{"value":1800,"unit":"rpm"}},"targetApplicationRate":{"value":17,"unit":"gal_us/acre"},"limits":{"groundSpeed":{"low":{"value":4,"unit":"km/h"},"high":{"value":9,"unit":"km/h"}}},"engineSpeedLimits":{"low":{"value":1000,"unit":"rpm"},"high":{"value":2400,"unit":"rpm"}},"pump":{"type":"positive_displacement","drive":"independent","regulation":"relief_valve"}}`,
		`{"measured":{"applicationRate":{"value":230,"unit":"L/ha"},"groundSpeed":{"value":6,"unit":"km/h"},"sprayPressure":{"value":3,"unit":"bar"},"engineSpeed":{"value":1800,"unit":"rpm"},"dutyCycle":{"value":80,"unit":"%"}},"targetApplicationRate":{"value":200,"unit":"L/ha"},"rateTolerance":{"value":5,"unit":"%"},"labelMinimum":{"value":190,"unit":"L/ha"},"boomEven":true,"limits":{"groundSpeed":{"low":{"value":4,"unit":"km/h"},"high":{"value":5.5,"unit":"km/h"}},"sprayPressure":{"low":{"value":1,"unit":"bar"},"high":{"value":2.5,"unit":"bar"}}},"dutyCycleLimits":{"low":{"value":40,"unit":"%"},"high":{"value":75,"unit":"%"}},"engineSpeedLimits":{"low":{"value":1400,"unit":"rpm"},"high":{"value":1700,"unit":"rpm"}},"pump":{"type":"positive_displacement","drive":"shaft","regulation":"relief_valve"},"gears":[{"label":"A","groundSpeed":{"value":5,"unit":"km/h"},"engineSpeed":{"value":1800,"unit":"rpm"}},{"label":"B","groundSpeed":{"value":7.2,"unit":"km/h"},"engineSpeed":{"value":1800,"unit":"rpm"}}],"nozzle":{"size":"03"},"nozzles":[{"label":"02","size":"02"},{"label":"04","size":"04"}]}`,
		`{"measured":{"applicationRate":{"value":230,"unit":"L/ha"},"groundSpeed":{"value":6,"unit":"km/h"},"sprayPressure":{"value":3,"unit":"bar"},"engineSpeed":{"value":1800,"unit":"rpm"},"dutyCycle":{"value":80,"unit":"%"}},"targetApplicationRate":{"value":200,"unit":"L/ha"},"rateTolerance":{"value":5,"unit":"%"},"labelMinimum":{"value":190,"unit":"L/ha"},"boomEven":true,"limits":{"groundSpeed":{"low":{"value":5.9,"unit":"km/h"},"high":{"value":6.1,"unit":"km/h"}},"sprayPressure":{"low":{"value":2.9,"unit":"bar"},"high":{"value":3.1,"unit":"bar"}}},"dutyCycleLimits":{"low":{"value":79,"unit":"%"},"high":{"value":81,"unit":"%"}},"engineSpeedLimits":{"low":{"value":1400,"unit":"rpm"},"high":{"value":2200,"unit":"rpm"}},"pump":{"type":"positive_displacement","drive":"shaft","regulation":"relief_valve"},"gears":[{"label":"A","groundSpeed":{"value":5,"unit":"km/h"},"engineSpeed":{"value":1800,"unit":"rpm"}},{"label":"B","groundSpeed":{"value":7.2,"unit":"km/h"},"engineSpeed":{"value":1800,"unit":"rpm"}}],"nozzle":{"size":"03"},"nozzles":[{"label":"02","size":"02"},{"label":"04","size":"04"}]}`,
	},
}

// TestMethods binds the table of methods to the answers: each method is used by an
// answer, and names every operation that uses it; each id of an answer is in the table.
func TestMethods(t *testing.T) {
	used := map[string][]string{}
	for _, o := range operation.All {
		for _, body := range workingSeeds(t, o.Name) {
			w := post(t, o.Name, body)
			var a struct{ Methods []string }
			if err := json.Unmarshal(w.Body.Bytes(), &a); err != nil || w.Code != http.StatusOK || len(a.Methods) == 0 {
				t.Errorf("%s: %d, methods %v", o.Name, w.Code, a.Methods)
			}
			for _, id := range a.Methods {
				used[id] = append(used[id], o.Name)
			}
		}
	}
	for _, m := range method.All() {
		if len(used[m.ID]) == 0 {
			t.Errorf("%s: no answer uses it", m.ID)
		}
		for _, name := range used[m.ID] {
			if !slices.Contains(m.Operations, name) {
				t.Errorf("%s: %s uses it, and it does not say so", m.ID, name)
			}
		}
		for _, name := range m.Operations {
			if !slices.ContainsFunc(operation.All, func(o operation.Operation) bool { return o.Name == name }) {
				t.Errorf("%s: no operation %s", m.ID, name)
			}
		}
		delete(used, m.ID)
	}
	for id := range used {
		t.Errorf("%s: an answer names it, the table does not have it", id)
	}
}

// TestMethodsPage reads the page as a client does: it follows its schema, has words for
// everything, explains each symbol of each formula, and says where each is from.
func TestMethodsPage(t *testing.T) {
	w := call(t, http.MethodGet, "/v1/methods", "")
	if w.Code != http.StatusOK || w.Header().Get("ETag") == "" {
		t.Fatalf("%d %v", w.Code, w.Header())
	}
	if err := validates("MethodsAnswer", w.Body.Bytes()); err != nil {
		t.Error(err)
	}
	var page operation.MethodsAnswer
	if err := json.Unmarshal(w.Body.Bytes(), &page); err != nil {
		t.Fatal(err)
	}
	words := regexp.MustCompile(`[A-Za-z][A-Za-z0-9_]*`)
	seen := map[string]bool{}
	for _, m := range page.Methods {
		if seen[m.ID] || !regexp.MustCompile(`^[a-z][a-z0-9_]*$`).MatchString(m.ID) {
			t.Errorf("%s: twice, or not in snake_case", m.ID)
		}
		seen[m.ID] = true
		var symbols []string
		for _, s := range m.Symbols {
			symbols = append(symbols, s.Symbol)
		}
		for _, word := range words.FindAllString(m.Formula, -1) {
			if _, called := working.Functions[word]; !called && !slices.Contains(symbols, word) {
				t.Errorf("%s: nothing says what %s of %s is", m.ID, word, m.Formula)
			}
		}
		if !slices.Contains([]string{"published", "common_practice", "source_not_read"}, m.Source.Kind) || (m.Source.Kind == "published") != (m.Source.Title != "") {
			t.Errorf("%s: its source is %+v", m.ID, m.Source)
		}
	}
	for _, m := range method.All() {
		for _, key := range []string{"method." + m.ID, "domain." + m.Domain} {
			if !text.Has(key) {
				t.Errorf("%s has no words", key)
			}
		}
		for _, s := range m.Symbols {
			if !text.Has("symbol." + s.Meaning) {
				t.Errorf("symbol.%s has no words", s.Meaning)
			}
		}
		if _, _, ok := strings.Cut(m.Formula, " = "); !ok || len(m.Symbols) == 0 {
			t.Errorf("%s: %q is no equation", m.ID, m.Formula)
		}
	}
}

// TestTradeConstants finds the constants that the trade prints, which fall out of the
// units of a request. 5940: Mississippi State University Extension, Calibration of
// In-Furrow Sprays, 2020. 600: seen in a copy only.
func TestTradeConstants(t *testing.T) {
	for want, units := range map[float64][4]unit.ID{
		5940: {unit.IDGalUsMin, unit.IDMph, unit.IDIn, unit.IDGalUsAcre},
		600:  {unit.IDLMin, unit.IDKmH, unit.IDM, unit.IDLHa},
	} {
		w := working.New(true)
		w.Line(method.ApplicationRate, "", wire.Quantity{Value: want, Unit: units[3]}).
			With("q", wire.Quantity{Value: 1, Unit: units[0]}).With("v", wire.Quantity{Value: 1, Unit: units[1]}).With("w", wire.Quantity{Value: 1, Unit: units[2]})
		if c := w.Written()[0].Constants; len(c) != 1 || string(c[0].Value) != strconv.FormatFloat(want, 'f', -1, 64) {
			t.Errorf("the constant is %v, the trade prints %v", c, want)
		}
	}
}
